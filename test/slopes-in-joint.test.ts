import { describe, expect, it } from 'vitest';
import { createEdgeSolver, hoopRule } from '../packages/core/src/edge/index.js';
import { createCurveNodes, createCurveRates, createFamily } from '../packages/core/src/outline/index.js';
import { actingLoads } from '../packages/core/src/stress/index.js';
import { reducedTee } from './fixtures/reduced.js';
import { referenceJoint, referenceLoads } from './fixtures/tee-reference.js';

const model = reducedTee(referenceJoint, 0.12, 0.12);
const { length } = model.basis;
const symmetric = { ...referenceLoads, pressure: { pressure: 5 } };

describe('slopes of the hoop stress in a joint, by the parameters of a family', () => {
  it.each([
    ['ellipse', true, 64, { y: 1.2, width: 2, height: 0.8 }, symmetric],
    ['spline', true, 96, { y: 1.1, size: 0.7, stretch: 0.5, sideWarp: 0.2, wave2: 0.06, wave3: -0.04 }, symmetric],
    [
      'ellipse',
      false,
      96,
      { x: 0.2, y: 1.1, width: 1.6, height: 0.8, turn: 20 },
      { ...symmetric, side: { force: 10 } },
    ],
    [
      'spline',
      false,
      96,
      { y: 1.1, size: 0.5, stretch: 0.3, slant: 0.2, skew3: 0.02 },
      { side: { force: 10 }, moment: { moment: 50 } },
    ],
  ] as const)(
    'are those of central differences within 1e-6: %s, mirror-symmetric: %s',
    (name, mirror, count, given, loads) => {
      const room = { mirror, xMin: -3, xMax: 3, yMin: 0.12, yMax: 3.6, edgeRadius: 0.12, families: {} };
      const family = createFamily(name, room);
      const values = family.parameters.map((parameter) => (given as Record<string, number>)[parameter.name] ?? 0);
      const acting = actingLoads(model, loads);
      const solver = createEdgeSolver(model.basis, count, mirror ? 'half' : 'whole', acting.length, 1e-14);
      const rule = hoopRule(count);
      const seen = mirror ? count / 2 : count;
      const nodes = createCurveNodes(count);
      const hoopOf = (at: readonly number[]) => {
        family.place(at, nodes);
        const { phi } = solver.solve(nodes, acting);
        return phi.map((one) => {
          const slope = new Float64Array(2 * count);
          const hoop = new Float64Array(count);
          rule.slope(one, slope);
          rule.take(nodes, slope, length, 0);
          rule.atNodes(hoop);
          return hoop.subarray(0, seen);
        });
      };
      hoopOf(values);
      const rates = createCurveRates(values.length, count);
      family.rates!(values, nodes, rates);
      const { hoop } = solver.slopes(rates, values.length);
      values.forEach((value, p) => {
        const step = 1e-4;
        const [a, b, c, d] = [1, -1, 2, -2].map((by) => hoopOf(values.with(p, value + by * step)));
        acting.forEach((_, l) => {
          const difference = a![l]!.map(
            (stress, j) => (8 * (stress - b![l]![j]!) - c![l]![j]! + d![l]![j]!) / (12 * step),
          );
          const scale = Math.max(...difference.map(Math.abs));
          difference.forEach((expected, j) => {
            expect(Math.abs(hoop[l]![p * seen + j]! - expected) / scale).toBeLessThan(1e-6);
          });
        });
      });
    },
  );
});
