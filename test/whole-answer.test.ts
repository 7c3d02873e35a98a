import { describe, expect, it } from 'vitest';
import { createEdgeSolver } from '../packages/core/src/edge/index.js';
import { hostOf, isMirrored, registerHost } from '../packages/core/src/host/index.js';
import { createCurveRates } from '../packages/core/src/outline/index.js';
import { createStrengthModel } from '../packages/core/src/strength/index.js';
import { actingLoads, createStressModel } from '../packages/core/src/stress/index.js';
import { reducedTee } from './fixtures/reduced.js';
import { roundFillerHost, roundFillerSample } from './fixtures/round-filler.js';
import { ellipseNodes, referenceJoint, referenceLoads } from './fixtures/tee-reference.js';
import { shiftedModel, wholeModel } from './fixtures/whole-model.js';

const loads = { ...referenceLoads, side: { force: 10 }, moment: { moment: 50 }, pressure: { pressure: 5 } };
const cases = [
  { name: 'all', factors: { pull: 1, cure: 1, side: 1, moment: 1, pressure: 1 } },
  { name: 'side', factors: { side: -1 } },
];
const split = reducedTee(referenceJoint, 0.12, 0.12);
const whole = wholeModel(split);
const tilted = ellipseNodes(0.7, 0.3, [0.3, 1.2], 0.5, 128);
const low = ellipseNodes(0.8, 0.25, [-0.4, 0.5], 0.1, 128);

/** Largest difference, relative to the largest value. */
function difference(found: readonly ArrayLike<number>[], expected: readonly ArrayLike<number>[]): number {
  let worst = 0;
  expected.forEach((values, l) => {
    const list = Array.from(values);
    const scale = Math.max(...list.map(Math.abs));
    list.forEach((value, i) => {
      worst = Math.max(worst, Math.abs(found[l]![i]! - value) / scale);
    });
  });
  return worst;
}

describe('a host that answers all moments at once', () => {
  it('has the stress, moments and slopes of the same host that answers them class by class', () => {
    const [a, b] = [split, whole].map((model) => createStressModel(model, loads, cases, { tolerance: 1e-14 })) as [
      ReturnType<typeof createStressModel>,
      ReturnType<typeof createStressModel>,
    ];
    for (const nodes of [tilted, low]) {
      const [one, other] = [a.evaluate(nodes, false), b.evaluate(nodes, false)];
      expect(difference(other.hoop, one.hoop)).toBeLessThan(1e-12);
      expect(difference(other.moments, one.moments)).toBeLessThan(1e-12);
      expect(Math.abs(other.worst / one.worst - 1)).toBeLessThan(1e-12);
    }
    const slopes = [split, whole].map((model) => {
      const acting = actingLoads(model, loads);
      const solver = createEdgeSolver(model.basis, tilted.count, 'whole', acting.length, 1e-14);
      solver.solve(tilted, acting);
      const rates = createCurveRates(1, tilted.count);
      rates.x.fill(1);
      const found = solver.slopes(rates, 1);
      return [...found.hoop, ...acting.map((_, l) => found.moments(l))].map((values) => values.slice());
    });
    expect(difference(slopes[1]!, slopes[0]!)).toBeLessThan(1e-9);
  });

  it('has its strength, without channel too', { tags: 'long' }, () => {
    for (const edge of ['peak', { distance: 0.05 }] as const) {
      const found = [split, whole].map((model) => {
        const stress = createStressModel(model, loads, cases, { tolerance: 1e-14 });
        const strength = createStrengthModel(model, referenceJoint, loads, cases, { edge });
        const surveys = [strength.surveyWithoutChannel()];
        for (const nodes of [tilted, low]) surveys.push(strength.survey(stress.evaluate(nodes, false)));
        return surveys.flat().flatMap(({ places }) => places);
      });
      const [one, other] = found as [(typeof found)[0], (typeof found)[0]];
      expect(other.map(({ place }) => place)).toEqual(one.map(({ place }) => place));
      one.forEach(({ factor, place, x, y }, p) => {
        expect(Math.abs(other[p]!.factor - factor), place).toBeLessThanOrEqual(1e-9 * factor);
        expect(Math.abs(other[p]!.x - x), place).toBeLessThan(1e-6);
        expect(Math.abs(other[p]!.y - y), place).toBeLessThan(1e-6);
      });
    }
  });

  it('is never solved as a mirror-symmetric one', () => {
    expect([split, whole].map(isMirrored)).toEqual([true, false]);
    const model = createStressModel(whole, referenceLoads, []);
    expect(model.symmetric).toBe(false);
    expect(() => model.evaluate(ellipseNodes(0.5, 0.5, [0, 1.2], 0, 64), true)).toThrow(/mirror-symmetric/);
  });

  it('may hold its fields about any origin: the stress stays', () => {
    registerHost(roundFillerHost);
    const { wall, edgeRadius, channels, loads: sizes } = roundFillerSample;
    const model = hostOf(roundFillerSample.joint(1)).reduce({ wall, edgeRadius });
    const centred = createStressModel(model, sizes, [], { tolerance: 1e-14 });
    const shifted = createStressModel(shiftedModel(model, 0.12, -0.07), sizes, [], { tolerance: 1e-14 });
    for (const {
      at,
      halfAxes: [a, b],
      turn,
    } of channels) {
      const nodes = ellipseNodes(a, b, at, turn, 128);
      const expected = centred.evaluate(nodes, false).hoop;
      expect(difference(shifted.evaluate(nodes, false).hoop, expected)).toBeLessThan(1e-10);
    }
  });
});
