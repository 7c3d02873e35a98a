import { choice, expectation, list, quantity, section, userName, type Zod } from '../../input/index.js';
import { defaultMaterial, parseLayup } from '../../material/index.js';

const length = (z: Zod, sentence: string) => quantity(z, { unit: 'mm', above: 0, atMost: 10_000, sentence });

const materialName = (z: Zod, sentence: string) => userName(z).default(defaultMaterial).meta({ description: sentence });

const plyAngle = { unit: 'deg', atLeast: -90, atMost: 90 } as const;
const mostPlies = 200;

const layup = (z: Zod, sentence: string) =>
  z
    .union(
      [
        list(
          z,
          quantity(z, {
            ...plyAngle,
            sentence: 'Angle of one ply from the tangent of the section: 0 in the section, 90 along the channel.',
          }),
          { of: 'angles', atLeast: 1, atMost: mostPlies, sentence },
        ),
        z
          .string()
          .meta({ description: 'The same in the notation of the trade: [45/0/-45/90]s, [90_2/0_2]s, [±45/0].' })
          .transform((text, context) => {
            const angles = parseLayup(text);
            const sound = angles?.every((angle) => Math.abs(angle) <= plyAngle.atMost) && angles.length <= mostPlies;
            if (angles !== undefined && sound) return angles;
            context.addIssue('not a layup');
            return z.NEVER;
          }),
      ],
      {
        error: ({ input }) =>
          expectation(
            `1 to ${mostPlies} angles of -90 to 90 degrees, as a list or in the notation of the trade`,
            Array.isArray(input) ? 'add or remove entries' : 'write, for example, [45, 0, -45, 90] or [45/0/-45/90]s',
          ),
      },
    )
    .meta({ description: `${sentence} A list of angles, or text such as [45/0/-45/90]s. Unit: deg.`, unit: 'deg' });

const plyThicknesses = { unit: 'mm', above: 0, atMost: 100 } as const;

/** Section `host` of a tee: cross-section of the joint. */
function teeHost(z: Zod) {
  return section(
    z,
    {
      kind: z.literal('tee').meta({ description: 'A web pulled off a skin, with a filler between the bends.' }),
      bendRadius: length(z, 'Radius of the bend surface that faces the filler.').default(6),
      overlaminate: section(
        z,
        {
          layup: layup(
            z,
            'Ply angles of one overlaminate, counted from the filler outward to the free surface.',
          ).prefault([0, 45, -45, 90, -45, 45, 0]),
          plyThickness: z
            .union(
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
                  expectation(
                    'a number above 0 and at most 100 mm, or a list of one for each ply',
                    'write a plain number',
                  ),
              },
            )
            .default(0.25)
            .meta({
              description: 'Thickness of every ply, or of each ply in the order of `layup`. Unit: mm.',
              unit: 'mm',
            }),
          ply: materialName(z, 'Material of the plies, a name under `materials` or a built-in one.'),
        },
        'The two L-shaped laminates that join the web to the skin.',
      ).prefault({}),
      web: section(
        z,
        { height: length(z, 'Height of the straight web above the bends.').default(25) },
        'The straight legs of the overlaminates, back to back.',
      ).prefault({}),
      foot: section(
        z,
        { length: length(z, 'Length of the straight foot beyond the bend.').default(20) },
        'The legs of the overlaminates that lie on the skin.',
      ).prefault({}),
      skin: section(
        z,
        {
          thickness: length(z, 'Thickness of the skin.').default(3),
          halfSpan: length(z, 'Distance from the middle of the joint to a support.').default(40),
          ply: materialName(z, 'Material of the plies of the skin, a name under `materials` or a built-in one.'),
          layup: z
            .union(
              [
                z.literal('quasi-isotropic').meta({ description: 'Smeared over 0, 45, -45 and 90.' }),
                layup(z, 'Ply angles from the filler downward, of equal thickness.'),
              ],
              {
                error: () =>
                  expectation(
                    "'quasi-isotropic' or the layup of plies, as a list of angles or in the notation of the trade",
                    'write, for example, quasi-isotropic, [45, 0, -45, 90] or [45/0/-45/90]s',
                  ),
              },
            )
            .prefault('quasi-isotropic')
            .meta({
              description:
                'Ply angles from the filler downward, each with an equal share of the thickness, or quasi-isotropic (smeared). Unit: deg.',
              unit: 'deg',
            }),
        },
        'The laminate below the filler and the feet.',
      ).prefault({}),
      filler: section(
        z,
        { ply: materialName(z, 'Material of the filler: unidirectional along the channel, or isotropic.') },
        'What fills the space between bends and skin.',
      ).prefault({}),
      support: choice(
        z,
        ['clamped', 'simple'],
        'Skin ends: clamped, or held against vertical displacement only (simple).',
      ).default('clamped'),
    },
    'A T-joint.',
  );
}

/** Section `host` of a plate. */
function plateHost(z: Zod) {
  return section(
    z,
    {
      kind: z.literal('plate').meta({ description: 'An infinite sheet under far-field stress.' }),
      material: materialName(z, 'Material of the sheet: unidirectional along the channel, or isotropic.'),
    },
    'An infinite sheet.',
  );
}

/** Section `host`: what the channel is embedded in. */
export function hostSection(z: Zod) {
  return z
    .discriminatedUnion('kind', [teeHost(z), plateHost(z)], {
      error: (issue) =>
        issue.code === 'invalid_union'
          ? expectation('tee or plate', 'write kind: tee for a T-joint, kind: plate for an infinite sheet')
          : expectation('a mapping with kind: tee or kind: plate', 'describe the joint here'),
    })
    .meta({ description: 'What the channel is embedded in.' });
}
