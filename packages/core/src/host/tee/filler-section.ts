import type { z } from 'zod/mini';
import { choice, expectation, list, type ProblemList, quantity, section, type Zod } from '../../input/index.js';
import type { Layup } from '../../material/index.js';
import type { HostBrief, MaterialBook } from '../contract.js';
import { layup } from '../layup-field.js';
import { materialName } from '../material-name.js';
import { fillerTeeDoubts } from './doubts.js';
import { checkSize } from './size.js';
import type { TeeJoint } from './tee.js';

const length = (z: Zod, sentence: string) => quantity(z, { unit: 'mm', above: 0, atMost: 10_000, sentence });

const plyThicknesses = { unit: 'mm', above: 0, atMost: 100 } as const;

/** Thickness of all plies, or of each. */
const plyThickness = (z: Zod) =>
  z.meta(
    z.default(
      z.union(
        [
          quantity(z, { ...plyThicknesses, sentence: 'Thickness of every ply.' }),
          list(z, quantity(z, { ...plyThicknesses, sentence: 'Thickness of one ply.' }), {
            of: 'thicknesses',
            atLeast: 1,
            atMost: 200,
            sentence: 'Thickness of each ply, in the order of `layup`.',
          }),
        ],
        {
          error: () =>
            expectation('a number above 0 and at most 100 mm, or a list of one for each ply', 'write a plain number'),
        },
      ),
      0.25,
    ),
    {
      description: 'Thickness of every ply, or of each ply in the order of `layup`. Unit: mm.',
      unit: 'mm',
    },
  );

/** Cross-section of the joint. */
export const fillerTeeFields = (z: Zod) => ({
  kind: z.meta(z.literal('tee'), { description: 'A web pulled off a skin, with a filler between the bends.' }),
  bendRadius: z.default(length(z, 'Radius of the bend surface that faces the filler.'), 6),
  overlaminate: z.prefault(
    section(
      z,
      {
        layup: z.prefault(
          layup(z, 'Ply angles of one overlaminate, counted from the filler outward to the free surface.'),
          [0, 45, -45, 90, -45, 45, 0],
        ),
        plyThickness: plyThickness(z),
        ply: materialName(z, 'Material of the plies, a name under `materials` or a built-in one.'),
      },
      'The two L-shaped laminates that join the web to the skin.',
    ),
    {},
  ),
  web: z.prefault(
    section(
      z,
      { height: z.default(length(z, 'Height of the straight web above the bends.'), 25) },
      'The straight legs of the overlaminates, back to back.',
    ),
    {},
  ),
  foot: z.prefault(
    section(
      z,
      { length: z.default(length(z, 'Length of the straight foot beyond the bend.'), 20) },
      'The legs of the overlaminates that lie on the skin.',
    ),
    {},
  ),
  skin: z.prefault(
    section(
      z,
      {
        thickness: z.default(length(z, 'Thickness of the skin.'), 3),
        halfSpan: z.default(length(z, 'Distance from the middle of the joint to a support.'), 40),
        ply: materialName(z, 'Material of the plies of the skin, a name under `materials` or a built-in one.'),
        layup: z.meta(
          z.prefault(
            z.union(
              [
                z.meta(z.literal('quasi-isotropic'), { description: 'Smeared over 0, 45, -45 and 90.' }),
                layup(z, 'Ply angles from the filler downward, of equal thickness.'),
              ],
              {
                error: () =>
                  expectation(
                    "'quasi-isotropic' or the layup of plies, as a list of angles or in the notation of the trade",
                    'write, for example, quasi-isotropic, [45, 0, -45, 90] or [45/0/-45/90]s',
                  ),
              },
            ),
            'quasi-isotropic',
          ),
          {
            description:
              'Ply angles from the filler downward, each with an equal share of the thickness, or quasi-isotropic (smeared). Unit: deg.',
            unit: 'deg',
          },
        ),
      },
      'The laminate below the filler and the feet.',
    ),
    {},
  ),
  filler: z.prefault(
    section(
      z,
      { ply: materialName(z, 'Material of the filler: unidirectional along the channel, or isotropic.') },
      'What fills the space between bends and skin.',
    ),
    {},
  ),
  support: z.default(
    choice(z, ['clamped', 'simple'], 'Skin ends: clamped, or held against vertical displacement only (simple).'),
    'clamped',
  ),
});

/** Section `host` of a tee whose channel lies in the filler. */
const fillerTeeSection = (z: Zod) => section(z, fillerTeeFields(z), 'A T-joint.');

/** The section after its schema. */
export type FillerTeeSection = z.output<ReturnType<typeof fillerTeeSection>>;

const mm = (length: number) => `${Number(length.toPrecision(6))} mm`;

/** Adds problems where such a joint cannot be. */
export function resolveFillerTee(host: FillerTeeSection, book: MaterialBook, problems: ProblemList): TeeJoint {
  const overlaminatePly = book.find(host.overlaminate.ply, ['host', 'overlaminate', 'ply']);
  const skinPly = book.find(host.skin.ply, ['host', 'skin', 'ply']);
  const filler = book.find(host.filler.ply, ['host', 'filler', 'ply']);

  const { layup, plyThickness } = host.overlaminate;
  if (typeof plyThickness !== 'number' && plyThickness.length !== layup.length)
    problems.add(
      ['host', 'overlaminate', 'plyThickness'],
      `one thickness for all plies, or ${layup.length}, one for each angle of layup`,
      'give as many thicknesses as angles',
    );
  const thicknesses = layup.map((_, i) => (typeof plyThickness === 'number' ? plyThickness : (plyThickness[i] ?? 0)));
  const thickness = thicknesses.reduce((sum, one) => sum + one, 0);
  const { bendRadius } = host;
  // A sum of plies falls short of their nominal thickness by rounding: nine of 0.3 mm are not quite 2.7 mm.
  if (!(bendRadius > thickness * (1 + 1e-9)))
    problems.add(
      ['host', 'bendRadius'],
      `more than the thickness of the overlaminate, ${mm(thickness)} (${layup.length} plies)`,
      'take a larger bend radius, fewer plies or thinner ones: the free surface of the bend has the radius bendRadius - thickness',
      mm(bendRadius),
    );
  const { halfSpan } = host.skin;
  if (!(halfSpan >= bendRadius + host.foot.length))
    problems.add(
      ['host', 'skin', 'halfSpan'],
      `at least bendRadius + foot.length = ${mm(bendRadius + host.foot.length)}`,
      'the feet must lie on the skin: take a longer skin or a shorter foot',
      mm(halfSpan),
    );

  const overlaminate = layup.map((angle, i) => ({ thickness: thicknesses[i]!, angle, ply: overlaminatePly }));
  const skinAngles = host.skin.layup === 'quasi-isotropic' ? (['quasi-isotropic'] as const) : host.skin.layup;
  const skin: Layup = skinAngles.map((angle) => ({
    thickness: host.skin.thickness / skinAngles.length,
    angle,
    ply: skinPly,
  }));
  const joint: TeeJoint = {
    kind: 'tee',
    bendRadius,
    overlaminate,
    webHeight: host.web.height,
    footLength: host.foot.length,
    skinHalfSpan: halfSpan,
    skin,
    filler,
    support: host.support,
  };
  checkSize(joint, problems);
  return joint;
}

/** How briefs tell of a T-joint whose channel lies in the filler. */
export const fillerTeeBrief: HostBrief<TeeJoint> = {
  section: fillerTeeSection,
  resolve: resolveFillerTee,
  doubts: fillerTeeDoubts,
} satisfies HostBrief<TeeJoint, FillerTeeSection>;
