import type { z } from 'zod/mini';
import { choice, type ProblemList, quantity, section, type Zod } from '../../input/index.js';
import type { HostBrief, MaterialBook } from '../contract.js';
import { layup } from '../layup-field.js';
import { materialName } from '../material-name.js';
import { laminateDoubts } from './doubts.js';
import type { LaminateJoint } from './laminate.js';
import { length, mm, mostPlies, pocketUnion, resolvePocket } from './pocket-section.js';
import { laminateRow } from './row.js';

/** In what order plies are counted, for sentences. */
const counted = 'counted from 1 at the bottom';

/** Section `host` of a laminate. */
function laminateSection(z: Zod) {
  return section(
    z,
    {
      kind: z.meta(z.literal('laminate'), {
        description: 'A flat laminate with a resin pocket between or in its plies.',
      }),
      layup: z.prefault(
        layup(z, 'Ply angles from the bottom up: 0 in the section, across the channel; 90 along the channel.'),
        [90, 90, 0, 0, 0, 0, 90, 90, 90, 90, 0, 0],
      ),
      plyThickness: z.default(
        quantity(z, { unit: 'mm', above: 0, atMost: 100, sentence: 'Thickness of every ply.' }),
        0.25,
      ),
      ply: materialName(z, 'Material of the plies, a name under `materials` or a built-in one.'),
      width: z.default(length(z, 'Width of the section between its end faces; the pocket lies in the middle.'), 40),
      ends: z.default(
        choice(
          z,
          ['clamped', 'simple', 'free'],
          'End faces, which stay plane: they keep distance and direction (clamped), their distance (simple), neither (free). Bending, shear and cure move and turn them in any case; a pull along moves them.',
        ),
        'clamped',
      ),
      faces: z.default(
        choice(
          z,
          ['both-flat', 'bottom-flat'],
          'both-flat: a closed mould, plies on both sides give way to a preform; bottom-flat: those above it are lifted, and the top face with them.',
        ),
        'both-flat',
      ),
      pocket: z.meta(z.prefault(pocketUnion(z, counted, {}), { made: 'drape' }), {
        description: 'The resin around the channel.',
      }),
    },
    'A flat laminate with a resin pocket.',
  );
}

/** The section after its schema. */
export type LaminateSection = z.output<ReturnType<typeof laminateSection>>;

/** Pocket and ends keep this many thicknesses apart: what the ends do fades over that. */
const fromEnds = 1;

/** Adds problems where there can be no such pocket; what is returned then stands in for it. */
function resolveLaminate(host: LaminateSection, book: MaterialBook, problems: ProblemList): LaminateJoint {
  const { plyThickness, width, ends } = host;
  const plies = host.layup.length;
  const thickness = plies * plyThickness;
  if (plies > mostPlies)
    problems.add(
      ['host', 'layup'],
      `at most ${mostPlies} plies`,
      'give neighbouring plies that lean alike as one',
      `${plies} plies`,
    );
  if (plies < 2)
    problems.add(['host', 'layup'], 'at least 2 plies: the pocket lies between them', 'add plies', `${plies} ply`);
  const material = book.find(host.ply, ['host', 'ply']);
  const resin = book.find(host.pocket.resin, ['host', 'pocket', 'resin']);
  const thicknesses = host.layup.map(() => plyThickness);
  const pocket = resolvePocket(host.pocket, { thicknesses, faces: host.faces, countedFrom: 'bottom' }, problems);
  const half = pocket.made === 'cut' ? pocket.halfWidth : pocket.halfLength;
  const room = width - 2 * fromEnds * thickness;
  if (!(2 * half <= room))
    problems.add(
      host.pocket.made === 'cut' ? ['host', 'pocket', 'width'] : ['host', 'pocket', 'length'],
      `at most ${mm(Math.max(0, room))}: the width of the laminate less its thickness of ${mm(thickness)} on both sides`,
      'take a wider laminate or a narrower pocket',
      mm(2 * half),
    );
  return {
    kind: 'laminate',
    layup: host.layup.map((angle) => ({ thickness: plyThickness, angle, ply: material })),
    width,
    ends,
    pocket,
    resin,
  };
}

/** How briefs tell of a flat laminate. */
export const laminateBrief: HostBrief<LaminateJoint> = {
  section: laminateSection,
  row: laminateRow,
  resolve: resolveLaminate,
  doubts: laminateDoubts,
} satisfies HostBrief<LaminateJoint, LaminateSection>;
