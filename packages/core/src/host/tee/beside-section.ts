import type { z } from 'zod/mini';
import { type ProblemList, section, type Zod } from '../../input/index.js';
import type { HostBrief, MaterialBook } from '../contract.js';
import { materialName } from '../material-name.js';
import { knownSection, resolveFillerChannel } from './pocket/known-section.js';
import { pocketTeeBrief, pocketTeeFields, resolvePocketTee } from './pocket-brief.js';
import type { TeeJoint } from './tee.js';

/** Section `host` of a tee that knows channels of known outline in its filler. `inPocket`: further fields of its pocket. */
export const besideTeeFields = <More extends z.core.$ZodShape>(z: Zod, inPocket: More) => ({
  ...pocketTeeFields(z, inPocket),
  filler: z.prefault(
    section(
      z,
      {
        ply: materialName(z, 'Material of the filler: unidirectional along the channel, or isotropic.'),
        channel: z.optional(
          knownSection(
            z,
            'Beside a pocket: a channel of known outline in the filler, while one is looked for in the pocket. From the middle of the base, x across and y up.',
          ),
        ),
      },
      'What fills the space between bends and skin.',
    ),
    {},
  ),
});

const besideTeeSection = (z: Zod) => section(z, besideTeeFields(z, {}), 'A T-joint.');

type BesideTeeSection = z.output<ReturnType<typeof besideTeeSection>>;

/** Adds problems where such a joint cannot be. */
export function resolveBesideTee(host: BesideTeeSection, book: MaterialBook, problems: ProblemList): TeeJoint {
  const joint = resolvePocketTee(host, book, problems);
  const { channel } = host.filler;
  if (channel === undefined) return joint;
  if (host.pocket === undefined)
    problems.add(
      ['host', 'filler', 'channel'],
      'a pocket as well (host.pocket), in which a channel is looked for',
      'take it out: without a pocket the channel that is looked for lies in the filler',
      'no host.pocket',
    );
  const fillerChannel = resolveFillerChannel(channel, joint, book, problems);
  return fillerChannel === undefined || joint.pocket === undefined ? joint : { ...joint, fillerChannel };
}

/** How briefs tell of a T-joint with its channel in a pocket, beside one of known outline in the filler or without. */
export const besideTeeBrief: HostBrief<TeeJoint> = {
  ...pocketTeeBrief,
  section: besideTeeSection,
  resolve: resolveBesideTee,
} satisfies HostBrief<TeeJoint, BesideTeeSection>;
