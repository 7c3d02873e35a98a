import type { z } from 'zod/mini';
import { type ProblemList, section, type Zod } from '../../input/index.js';
import type { HostBrief, MaterialBook } from '../contract.js';
import { besideTeeBrief, besideTeeFields, resolveBesideTee } from './beside-section.js';
import { resolvePocketChannel } from './pocket/in-filler-section.js';
import { knownSection } from './pocket/known-section.js';
import type { TeeJoint } from './tee.js';

/** Section `host` of a tee. */
const teeSection = (z: Zod) =>
  section(
    z,
    besideTeeFields(z, {
      channel: z.optional(
        knownSection(
          z,
          'A channel of known outline that stands in the pocket while the one in the filler is looked for. From the middle of the pocket, x along the plies; y through them, as of a channel that is looked for in the pocket.',
        ),
      ),
    }),
    'A T-joint.',
  );

type TeeSection = z.output<ReturnType<typeof teeSection>>;

function resolveTee(host: TeeSection, book: MaterialBook, problems: ProblemList): TeeJoint {
  const joint = resolveBesideTee(host, book, problems);
  const channel = host.pocket?.channel;
  if (channel === undefined) return joint;
  if (host.filler.channel !== undefined)
    problems.add(
      ['host', 'pocket', 'channel'],
      'one channel that is looked for: either this one or that of host.filler.channel is not known',
      'take one of the two out',
      'both',
    );
  const { pocket } = joint;
  const known = pocket && resolvePocketChannel(channel, { ...joint, pocket }, book, problems);
  return known === undefined ? joint : { ...joint, pocket: { ...pocket!, channel: known } };
}

/** How briefs tell of a T-joint. */
export const teeBrief: HostBrief<TeeJoint> = {
  ...besideTeeBrief,
  section: teeSection,
  resolve: resolveTee,
} satisfies HostBrief<TeeJoint, TeeSection>;
