import type { z } from 'zod';
import { section, type Zod } from '../../input/index.js';
import { materialName } from '../material-name.js';

/** Section `host` of a plate. */
export function plateSection(z: Zod) {
  return section(
    z,
    {
      kind: z.literal('plate').meta({ description: 'An infinite sheet under far-field stress.' }),
      material: materialName(z, 'Material of the sheet: unidirectional along the channel, or isotropic.'),
    },
    'An infinite sheet.',
  );
}

/** The section after its schema. */
export type PlateSection = z.output<ReturnType<typeof plateSection>>;
