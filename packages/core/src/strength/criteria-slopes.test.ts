import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { delaminationFactor, type PointStress, principalFactor, tensionFactor } from './criteria.js';
import { createInverseSlopes, type PlaceCriterion, writeInverseSlopes } from './criteria-slopes.js';

const [Z, S] = [48, 79];
const criteria: readonly [PlaceCriterion, (held: PointStress, grown: PointStress) => number][] = [
  [{ criterion: 'delamination', tension: Z, shear: S }, (held, grown) => delaminationFactor(held, grown, Z, S)],
  [{ criterion: 'splitting', tension: Z, shear: S }, (held, grown) => principalFactor(held, grown, Z)],
  [{ criterion: 'kinking', tension: Z, shear: S }, (held, grown) => tensionFactor(-held.t, -grown.t, Z)],
];
const held = fc.record({ n: size(20), t: size(20), s: size(20) });
const grown = fc.record({ n: size(60), t: size(60), s: size(60) });
function size(most: number) {
  return fc.integer({ min: -1000 * most, max: 1000 * most }).map((value) => value / 1000);
}

describe('writeInverseSlopes', () => {
  it.each(criteria)('gives the central differences of one over the load factor: %o', (criterion, factorOf) => {
    const slopes = createInverseSlopes();
    let seen = 0;
    fc.assert(
      fc.property(held, grown, (h, g) => {
        const factor = factorOf(h, g);
        // Beyond that a load does next to nothing; nearer to 0 the cure fails alone.
        fc.pre(factor > 0.05 && factor < 20);
        // Where a delamination is about to close, its rate has a kink.
        fc.pre(Math.abs(h.n + factor * g.n) > 1);
        seen++;
        writeInverseSlopes(criterion, h, g, factor, slopes);
        const step = 1e-5;
        for (const of of ['n', 't', 's'] as const) {
          const across = (by: number) => [
            1 / factorOf({ ...h, [of]: h[of] + by }, g),
            1 / factorOf(h, { ...g, [of]: g[of] + by }),
          ];
          const [above, below] = [across(step), across(-step)];
          const scale = 1e-6 * (1 + 1 / factor) ** 2;
          expect(Math.abs(slopes.held[of] - (above[0]! - below[0]!) / (2 * step))).toBeLessThan(scale);
          expect(Math.abs(slopes.grown[of] - (above[1]! - below[1]!) / (2 * step))).toBeLessThan(scale);
        }
      }),
      { seed: 1, numRuns: 400 },
    );
    expect(seen).toBeGreaterThan(100);
  });

  it('knows no stress but the strengths: a thousandth of both has slopes a thousand times as steep', () => {
    const [slopes, steep] = [createInverseSlopes(), createInverseSlopes()];
    const small = ({ n, t, s }: PointStress) => ({ n: n / 1000, t: t / 1000, s: s / 1000 });
    for (const [criterion, factorOf] of criteria)
      fc.assert(
        fc.property(held, grown, (h, g) => {
          const factor = factorOf(h, g);
          fc.pre(factor > 0.05 && factor < 20);
          writeInverseSlopes(criterion, h, g, factor, slopes);
          const { tension, shear } = criterion;
          const weak = { ...criterion, tension: tension / 1000, shear: shear / 1000 };
          writeInverseSlopes(weak, small(h), small(g), factor, steep);
          for (const at of ['held', 'grown'] as const)
            for (const of of ['n', 't', 's'] as const)
              expect(Math.abs(steep[at][of] / 1000 - slopes[at][of])).toBeLessThanOrEqual(
                1e-9 * (1 + Math.abs(slopes[at][of])),
              );
        }),
        { seed: 2, numRuns: 100 },
      );
    // The same tension in all directions has none of its own: half each.
    const equal = { n: 30, t: 30, s: 0 };
    writeInverseSlopes(criteria[1]![0], { n: 0, t: 0, s: 0 }, equal, Z / 30, slopes);
    expect(slopes.grown.n).toBeCloseTo(1 / (2 * Z), 12);
    expect(slopes.grown.t).toBeCloseTo(1 / (2 * Z), 12);
    expect(slopes.grown.s).toBe(0);
  });

  it.each([0, Number.POSITIVE_INFINITY])('gives none where the factor is %d', (factor) => {
    const slopes = createInverseSlopes();
    for (const [criterion] of criteria) {
      writeInverseSlopes(criterion, { n: 100, t: 100, s: 0 }, { n: 0, t: 0, s: 0 }, factor, slopes);
      expect(slopes).toEqual(createInverseSlopes());
    }
  });
});
