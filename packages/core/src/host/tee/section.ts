import type { z } from 'zod/mini';
import { type ProblemList, section, type Zod } from '../../input/index.js';
import type { HostBrief, MaterialBook } from '../contract.js';
import { pocketDoubts } from '../laminate/index.js';
import { materialName } from '../material-name.js';
import { fillerTeeDoubts } from './doubts.js';
import { fillerTeeFields, resolveFillerTee } from './filler-section.js';
import { knownSection } from './pocket/known-section.js';
import { resolveFillerChannel, resolveTeePocket, teePocketSection } from './pocket/section.js';
import type { TeeJoint } from './tee.js';

/** Section `host` of a tee. */
const teeSection = (z: Zod) =>
  section(
    z,
    {
      ...fillerTeeFields(z),
      filler: z.prefault(
        section(
          z,
          {
            ply: materialName(z, 'Material of the filler: unidirectional along the channel, or isotropic.'),
            channel: z.optional(
              knownSection(
                z,
                'Beside a pocket: a channel of known outline that stands in the filler while the one in the pocket is looked for. From the middle of the base, x across and y up.',
              ),
            ),
          },
          'What fills the space between bends and skin.',
        ),
        {},
      ),
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
  const fillerChannel = host.filler.channel && resolveFillerChannel(host.filler.channel, joint, book, problems);
  if (pocket === undefined) {
    if (fillerChannel !== undefined && host.pocket === undefined)
      problems.add(
        ['host', 'filler', 'channel'],
        'a pocket as well (host.pocket), in which a channel is looked for',
        'take it out: without a pocket the channel that is looked for lies in the filler',
        'no host.pocket',
      );
    return joint;
  }
  return { ...joint, pocket, ...(fillerChannel === undefined ? {} : { fillerChannel }) };
}

/** How briefs tell of a T-joint. */
export const teeBrief: HostBrief<TeeJoint> = {
  section: teeSection,
  resolve: resolveTee,
  doubts: (host) => [...fillerTeeDoubts(host), ...(host.pocket === undefined ? [] : pocketDoubts(host.pocket))],
} satisfies HostBrief<TeeJoint, TeeSection>;
