import type { z } from 'zod/mini';
import { section, type Zod } from '../../input/index.js';
import type { HostBrief } from '../contract.js';
import { materialName } from '../material-name.js';
import type { PlateHost } from './plate.js';

/** Section `host` of a plate. */
function plateSection(z: Zod) {
  return section(
    z,
    {
      kind: z.meta(z.literal('plate'), { description: 'An infinite sheet under far-field stress.' }),
      material: materialName(z, 'Material of the sheet: unidirectional along the channel, or isotropic.'),
    },
    'An infinite sheet.',
  );
}

/** The section after its schema. */
export type PlateSection = z.output<ReturnType<typeof plateSection>>;

/** How briefs tell of an infinite sheet. */
export const plateBrief: HostBrief<PlateHost> = {
  section: plateSection,
  resolve: ({ material }, book) => ({ kind: 'plate', material: book.find(material, ['host', 'material']) }),
  doubts: () => [],
} satisfies HostBrief<PlateHost, PlateSection>;
