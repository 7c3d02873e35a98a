import { hostOf, type SectionJoint } from '../../packages/core/src/host/index.js';
import { regularStress } from '../../packages/core/src/strength/index.js';
import { createStressModel } from '../../packages/core/src/stress/index.js';
import { discInSheet, meshText } from '../fixtures/mesh-text.js';
import { discJoint, meshOf } from '../fixtures/section-joints.js';
import { ellipseNodes, referencePly } from '../fixtures/tee-reference.js';
import { type Check, once, type Publication } from './check.js';

/** Radius of the disc, and half the side of the square sheet around it, mm. */
const radius = 2;
const half = 60;

/** A disc of resin in plies that run along it, 1 MPa across or all round at 30 radii. */
const solved = once(() => {
  const fixture = discJoint();
  const along = { ply: referencePly, angle: 90, tangent: 0 };
  const pulled = (curve: string, x: number, y: number) => ({ curve, force: [2 * half * x, 2 * half * y] as const });
  const joint: SectionJoint = {
    ...fixture,
    mesh: meshOf(meshText(discInSheet({ radius, wrap: 0.5, half, around: 48, rows: 14 }))),
    surfaces: { ...fixture.surfaces, wrap: along, sheet: along },
    supports: [],
    loads: {
      across: [pulled('left', -1, 0), pulled('right', 1, 0)],
      up: [pulled('bottom', 0, -1), pulled('top', 0, 1)],
    },
  };
  // A thick wall takes few edges of a contour: nothing here asks for more.
  const model = hostOf(joint).reduce({ wall: 0.19, edgeRadius: 0.1 });
  const cases = [
    { name: 'across', factors: { across: 1 } },
    { name: 'round', factors: { across: 1, up: 1 } },
  ];
  const stress = createStressModel(model, { across: { force: 1 }, up: { force: 1 } }, cases);
  const undisturbed = { xx: 0, yy: 0, xy: 0 };
  regularStress(model.basis, model.loads.find(({ name }) => name === 'across')!.undisturbed, 0, 0, undisturbed);
  const peaks = (share: number) => {
    const { cases: found } = stress.evaluate(ellipseNodes(radius * share, radius * share, [0, 0], 0, 128), false);
    return found.map(({ peak }) => peak);
  };
  return { peaks, undisturbed };
});

const tolerance = 4e-3;
const channel = (share: number, across: number, round: number): Check[] => [
  {
    quantity: `fast: peak, tension, a/b ${share}`,
    published: across,
    tolerance,
    compute: () => solved().peaks(share)[0]!,
  },
  {
    quantity: `fast: peak, tension all round, a/b ${share}`,
    published: round,
    tolerance,
    compute: () => solved().peaks(share)[1]!,
  },
];

export const goodier: Publication = {
  title: 'Channel of radius a in a disc of resin of radius b, in plies along both',
  source:
    'potentials of two rings in closed form, computed for this table without this engine; the disc alone and a -> 0: Goodier, Trans. ASME 55 (1933) 39-44, ' +
    'A = G2 (k1 + 1)/(2 G2 + G1 (k2 - 1)), B = G2 (k1 + 1)/(G1 + G2 k1), stresses (A + B)/2 and (A - B)/2, peak A + 2 B; formulas from memory. Here in a sheet of 30 radii ' +
    'to each side, which costs a thousandth, from a mesh made elsewhere',
  long: true,
  checks: [
    ...channel(0.25, 1.74615, 1.40898),
    ...channel(0.5, 1.50401, 1.17464),
    ...channel(0.7, 1.38005, 0.96846),
    ...channel(0.9, 1.22452, 0.78479),
    {
      quantity: 'the disc alone: stress along the tension',
      published: 0.662212,
      tolerance,
      compute: () => solved().undisturbed.xx,
    },
    {
      quantity: 'the disc alone: stress across it',
      published: 0.092466,
      tolerance,
      scale: 0.662212,
      compute: () => solved().undisturbed.yy,
    },
    {
      quantity: 'fast: peak, tension, a/b 0.02, for a/b -> 0',
      published: 1.894169,
      tolerance,
      compute: () => solved().peaks(0.02)[0]!,
    },
  ],
};
