import { hostOf, type LaminateJoint } from '../../packages/core/src/host/index.js';
import { createStressModel, meshedStress } from '../../packages/core/src/stress/index.js';
import { ellipseNodes } from '../fixtures/tee-reference.js';
import { type Check, once, type Publication } from './check.js';

/** Without Poisson's ratio the sheet is as far from its faces as from infinity: what the row adds to the uniform field fades within a pitch. */
const sheet = {
  ...{ E1: 1000, E2: 1000, nu12: 0, nu23: 0, G12: 500, alpha1: 0, alpha2: 0 },
  ...{ transverseTension: 1, interlaminarShear: 1 },
};

/** One hole of diameter 1 in a cell of a homogeneous sheet, a pitch wide. */
const cell = (pitch: number): LaminateJoint => ({
  kind: 'laminate',
  layup: [3 * pitch, 1.4, 3 * pitch].map((thickness) => ({ thickness, angle: 90, ply: sheet })),
  width: pitch,
  ends: 'clamped',
  row: true,
  pocket: { made: 'cut', first: 1, count: 1, halfWidth: 0.47 * pitch },
  resin: sheet,
});

/** 1 MPa far away, across the row and along it. */
const loads = { stretch: { strain: 1 / sheet.E1, force: 0 }, flatwise: { stress: 1 } };
const far = {
  across: { name: 'across', factors: { flatwise: 1 } },
  along: { name: 'along', factors: { stretch: 1 } },
  'all-round': { name: 'all-round', factors: { stretch: 1, flatwise: 1 } },
};
type Far = keyof typeof far;

const middle = (pitch: number) => 3 * pitch + 0.7;
const hole = (pitch: number, count: number) => ellipseNodes(0.5, 0.5, [0, middle(pitch)], 0, count);

const modelOf = new Map(
  [1.5, 2, 3].map((pitch) => [
    pitch,
    once(() => {
      const model = hostOf(cell(pitch)).reduce({ wall: 0.18, edgeRadius: 0.3 });
      return createStressModel(model, loads, Object.values(far)).evaluate(hole(pitch, 192), false).cases;
    }),
  ]),
);
const meshed = once(() => meshedStress(cell(1.5), loads, Object.values(far), hole(1.5, 256), { coarseness: 1 }).cases);

const peak = (stress: Far, pitch: number, published: number): Check => ({
  quantity: `fast: peak, ${stress}, pitch of ${pitch} diameters`,
  published,
  tolerance: 5e-4,
  compute: () => modelOf.get(pitch)!()[Object.keys(far).indexOf(stress)]!.peak,
});

export const row: Publication = {
  title: 'An endless row of equal circular holes in an infinite plate',
  source:
    "the problem of Howland, Proc. R. Soc. Lond. A 148 (1935) 471-491; values recomputed with Muskhelishvili's equation and a cotangent kernel, which " +
    'rows of 3 to 15 holes approach. Here one hole in a cell between mirror planes',
  checks: [
    peak('across', 1.5, 3.9245),
    peak('across', 2, 3.2411),
    peak('across', 3, 3.0466),
    peak('along', 1.5, 1.9197),
    peak('along', 2, 2.1392),
    peak('along', 3, 2.4709),
    peak('all-round', 1.5, 3.8164),
    peak('all-round', 2, 2.8545),
    peak('all-round', 3, 2.3618),
    ...(['across', 'along'] as const).map(
      (stress): Check => ({
        quantity: `mesh: peak, ${stress}, pitch of 1.5 diameters`,
        published: stress === 'across' ? 3.9245 : 1.9197,
        tolerance: 5e-4,
        compute: () => meshed()[stress]!.peak,
      }),
    ),
  ],
};
