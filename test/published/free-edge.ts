import { hostOf, type LaminateJoint } from '../../packages/core/src/host/index.js';
import { createStressModel, meshedStress } from '../../packages/core/src/stress/index.js';
import { ellipseNodes } from '../fixtures/tee-reference.js';
import { type Check, once, type Publication } from './check.js';

const sheet = {
  ...{ E1: 1000, E2: 1000, nu12: 0.3, nu23: 0.3, G12: 1000 / 2.6, alpha1: 0, alpha2: 0 },
  ...{ transverseTension: 1, interlaminarShear: 1 },
};

/** Half the height of the slot around the hole, and how far the body reaches below and to both sides; in radii of the hole. */
const slot = 1.4;
const far = 80;

/** A hole of radius 1 whose centre lies `depth` below the upper face of a body of one material. */
const body = (depth: number): LaminateJoint => ({
  kind: 'laminate',
  layup: [far, 2 * slot, depth - slot].map((thickness) => ({ thickness, angle: 90, ply: sheet })),
  width: 2 * far,
  ends: 'clamped',
  pocket: { made: 'cut', first: 1, count: 1, halfWidth: 2 },
  resin: sheet,
});
const hole = (count: number) => ellipseNodes(1, 1, [0, far + slot], 0, count);
/** 1 MPa over the ends. */
const tension = (depth: number) => ({ stretch: { strain: 0, force: far + slot + depth } });

const fast = new Map(
  [1.5, 2, 3].map((depth) => [
    depth,
    once(() => {
      const model = hostOf(body(depth)).reduce({ wall: 0.35, edgeRadius: 0.9 });
      const { loads, hoop } = createStressModel(model, tension(depth), []).evaluate(hole(192), true);
      // The lowest point lies half way between the last node and the first; hoop stress is smooth there, and alike on both sides.
      const [a, b] = [hoop[0]![1]!, hoop[0]![0]!];
      return { near: loads[0]!.peak, beyond: (9 * b - a) / 8 };
    }),
  ]),
);
const meshed = once(() => meshedStress(body(1.5), tension(1.5), [], hole(256), { coarseness: 1 }).loads.stretch!.peak);

const check = (depth: number, side: 'near' | 'beyond', published: number): Check => ({
  quantity: `fast: ${side === 'near' ? 'towards the edge' : 'away from it'}, centre ${depth} radii below`,
  published,
  tolerance: 2e-3,
  compute: () => fast.get(depth)!()[side],
});

export const freeEdge: Publication = {
  title: 'Circular hole beneath a free edge under tension along it',
  source:
    'the problem of Jeffery, Phil. Trans. R. Soc. A 221 (1920) 265-293, and Mindlin, Proc. SESA 5 (1948) 56-68; values recomputed by a ' +
    'series whose residual is 5e-13. Here in a laminate of one material, 80 radii deep and 160 wide',
  checks: [
    check(1.5, 'near', 4.6295),
    check(1.5, 'beyond', 3.339),
    check(2, 'near', 3.722),
    check(2, 'beyond', 3.2125),
    check(3, 'near', 3.2591),
    check(3, 'beyond', 3.1105),
    { quantity: 'mesh: towards the edge, centre 1.5 radii below', published: 4.6295, tolerance: 2e-3, compute: meshed },
  ],
};
