import type { z } from 'zod/mini';
import { type ProblemList, section, type Zod } from '../../input/index.js';
import type { HostBrief, MaterialBook } from '../contract.js';
import { pocketDoubts } from '../laminate/index.js';
import { fillerTeeDoubts } from './doubts.js';
import { fillerTeeFields, resolveFillerTee } from './filler-section.js';
import { resolveTeePocket, teePocketSection } from './pocket/section.js';
import type { TeeJoint } from './tee.js';

/** Section `host` of a tee that knows pockets. `more`: further fields of its pocket. */
export const pocketTeeFields = <More extends z.core.$ZodShape>(z: Zod, more: More) => ({
  ...fillerTeeFields(z),
  pocket: z.meta(z.optional(teePocketSection(z, more)), {
    description:
      'A pocket of resin in a laminate of the joint, in which the channel lies instead of the filler. Lengths of a channel are then from its middle along the plies, and from the face of the overlaminate to the filler, or the lower face of the skin, through them.',
  }),
});

const pocketTeeSection = (z: Zod) => section(z, pocketTeeFields(z, {}), 'A T-joint.');

type PocketTeeSection = z.output<ReturnType<typeof pocketTeeSection>>;

/** Adds problems where such a joint cannot be. */
export function resolvePocketTee(host: PocketTeeSection, book: MaterialBook, problems: ProblemList): TeeJoint {
  const joint = resolveFillerTee(host, book, problems);
  const pocket = host.pocket && resolveTeePocket(host.pocket, joint, book, problems);
  return pocket === undefined ? joint : { ...joint, pocket };
}

/** How briefs tell of a T-joint that knows pockets, but no channel of known outline beside them. */
export const pocketTeeBrief: HostBrief<TeeJoint> = {
  section: pocketTeeSection,
  resolve: resolvePocketTee,
  doubts: (host) => [...fillerTeeDoubts(host), ...(host.pocket === undefined ? [] : pocketDoubts(host.pocket))],
} satisfies HostBrief<TeeJoint, PocketTeeSection>;
