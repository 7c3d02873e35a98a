import { beforeAll, describe, expect, it } from 'vitest';
import { reducedTee } from '../../../../test/fixtures/reduced.js';
import { ellipseNodes, referenceJoint, referenceLoads } from '../../../../test/fixtures/tee-reference.js';
import { type LoadCase, type Loads, type ReducedModel, reducePlate } from '../host/index.js';
import type { CurveNodes } from '../outline/index.js';
import { actingLoads, createStressModel, type SolvedEdge } from '../stress/index.js';
import { createPeakStrength } from './edge-strength.js';
import { createFailure, type FirstFailure } from './first-failure.js';

const Z = 48;

/** First failure of the edge where `fixed` is held and `scaled` grows, in the order of the loads. */
function judge(
  model: ReducedModel,
  loads: Loads,
  solved: SolvedEdge,
  [fixed, scaled]: readonly (readonly number[])[],
): FirstFailure {
  const offsets = actingLoads(model, loads).map(({ offset }) => offset);
  const edge = createPeakStrength(Z, model.basis.length, offsets);
  const first = createFailure();
  edge.take(solved);
  edge.judge(
    { fixed: Float64Array.from(fixed!), scaled: Float64Array.from(scaled!), scales: 'loads', own: 0 },
    first,
    undefined,
  );
  return first;
}

describe('an edge by its peak', () => {
  // Kirsch (1898): 3 sx at the top; Lamé: the pressure itself as hoop tension all around.
  it.each([
    ['at a node', Math.PI / 64],
    ['between two nodes', 0],
    ['near a node', 0.9 * (Math.PI / 64)],
  ])('bears what a held pressure leaves of its strength, the worst place %s', (_, turn) => {
    const model = reducePlate({ kind: 'plate', material: referenceJoint.filler });
    const loads: Loads = { pressure: { pressure: 12 }, farField: { sx: 10, sy: 0, txy: 0 } };
    const nodes = ellipseNodes(1, 1, [0, 0], turn, 64);
    const stress = createStressModel(model, loads, []).evaluate(nodes, false);
    const [pressure, pull, none] = [
      [0, 1],
      [1, 0],
      [0, 0],
    ] as const;
    const first = judge(model, loads, stress, [pressure, pull]);
    expect(first.factor).toBeCloseTo((Z - 12) / 30, 9);
    expect(Math.abs(first.x)).toBeLessThan(1e-5);
    expect(Math.abs(first.y)).toBeCloseTo(1, 9);
    // A pressure of four times as much fails it alone.
    expect(judge(model, loads, stress, [pressure.map((one) => 4.001 * one), pull]).factor).toBe(0);
    expect(judge(model, loads, stress, [pressure, none]).factor).toBe(Number.POSITIVE_INFINITY);
  });

  it('tells one over the load factor at every node and half way to the next', () => {
    const model = reducePlate({ kind: 'plate', material: referenceJoint.filler });
    const loads: Loads = { pressure: { pressure: 12 }, farField: { sx: 10, sy: 0, txy: 0 } };
    const count = 64;
    const nodes = ellipseNodes(1, 1, [0, 0], 0.2, count);
    const offsets = actingLoads(model, loads).map(({ offset }) => offset);
    const edge = createPeakStrength(Z, model.basis.length, offsets);
    edge.take(createStressModel(model, loads, []).evaluate(nodes, false));
    const out = new Float64Array(2 + 2 * count);
    edge.writeInverse({ fixed: Float64Array.of(0, 1), scaled: Float64Array.of(1, 0) }, 0.5, out, 2);
    expect(out.subarray(0, 2)).toEqual(new Float64Array(2));
    for (let j = 0; j < 2 * count; j++) {
      // Kirsch: sx (1 - 2 cos 2 angle); places follow each other in equal steps of the angle.
      const angle = Math.atan2(nodes.y[0]!, nodes.x[0]!) + (j * Math.PI) / count;
      const hoop = 10 * (1 - 2 * Math.cos(2 * angle));
      if (hoop > 0) expect(out[2 + j]!).toBeCloseTo((0.5 * hoop) / (Z - 12), 9);
    }
  });

  describe('in a tee', () => {
    let model: ReducedModel;
    beforeAll(() => {
      model = reducedTee(referenceJoint, 0.12, 0.12);
    });
    const outlines: readonly (readonly [string, CurveNodes, boolean])[] = [
      ['low and wide', ellipseNodes(0.8, 0.45, [0, 1.1], 0, 64), true],
      ['high and narrow', ellipseNodes(0.4, 1, [0, 1.4], 0, 64), true],
      ['turned', ellipseNodes(0.7, 0.4, [0.3, 1.1], 0.4, 64), false],
    ];

    it.each(outlines)(
      'has its strength as its peak at the load factor, however near the cure comes to it: %s',
      (_, nodes, mirror) => {
        const stress = createStressModel(model, referenceLoads, []).evaluate(nodes, mirror);
        const cured = stress.loads[1]!.peak;
        for (const share of [0, 0.3, 0.8, 0.97, 0.9995]) {
          const cure = (share * Z) / cured;
          const { factor, x, y } = judge(model, referenceLoads, stress, [
            [0, cure],
            [1, 0],
          ]);
          expect(factor).toBeGreaterThan(0);
          const cases: LoadCase[] = [{ name: 'at failure', factors: { pull: factor, cure } }];
          const { peak, peakX, peakY } = createStressModel(model, referenceLoads, cases).evaluate(nodes, mirror)
            .cases[0]!;
          expect(Math.abs(peak / Z - 1)).toBeLessThan(1e-4);
          expect(Math.hypot(Math.abs(peakX) - Math.abs(x), peakY - y)).toBeLessThan(0.01);
        }
      },
    );

    it('is the same as a symmetric outline and as a general one', () => {
      const [, nodes] = outlines[0]!;
      const found = [true, false].map((mirror) => {
        const stress = createStressModel(model, referenceLoads, []).evaluate(nodes, mirror);
        return judge(model, referenceLoads, stress, [
          [0, 0.3],
          [1, 0],
        ]);
      });
      expect(found[0]!.factor / found[1]!.factor).toBeCloseTo(1, 9);
      expect(found[0]!.x).toBeGreaterThan(-1e-9);
    });
  });
});
