import type { z } from 'zod/mini';
import { type ProblemList, section, type Zod } from '../../input/index.js';
import type { HostBrief, MaterialBook } from '../contract.js';
import { pocketDoubts } from '../laminate/index.js';
import { fillerTeeDoubts } from './doubts.js';
import { fillerTeeFields, resolveFillerTee } from './filler-section.js';
import { resolveTeePocket, teePocketSection } from './pocket/section.js';
import type { TeeJoint } from './tee.js';

/** Section `host` of a tee. */
const teeSection = (z: Zod) =>
  section(
    z,
    {
      ...fillerTeeFields(z),
      pocket: z.meta(z.optional(teePocketSection(z)), {
        description:
          'A pocket of resin in a laminate of the joint, in which the channel lies instead of the filler. Lengths of a channel are then from its middle along the plies, and from the face of the overlaminate to the filler, or the lower face of the skin, through them.',
      }),
    },
    'A T-joint.',
  );

type TeeSection = z.output<ReturnType<typeof teeSection>>;

/** Adds problems where such a joint cannot be. */
function resolveTee(host: TeeSection, book: MaterialBook, problems: ProblemList): TeeJoint {
  const joint = resolveFillerTee(host, book, problems);
  const pocket = host.pocket && resolveTeePocket(host.pocket, joint, book, problems);
  return pocket === undefined ? joint : { ...joint, pocket };
}

/** How briefs tell of a T-joint. */
export const teeBrief: HostBrief<TeeJoint> = {
  section: teeSection,
  resolve: resolveTee,
  doubts: (host) => [...fillerTeeDoubts(host), ...(host.pocket === undefined ? [] : pocketDoubts(host.pocket))],
} satisfies HostBrief<TeeJoint, TeeSection>;
