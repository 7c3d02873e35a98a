import { beforeAll, describe, expect, it } from 'vitest';
import { reducedTee } from '../../../../test/fixtures/reduced.js';
import { ellipseNodes, referenceJoint } from '../../../../test/fixtures/tee-reference.js';
import { exactSlopes } from '../edge/index.js';
import type { ReducedModel } from '../host/index.js';
import { createCurveRates } from '../outline/index.js';
import { createStressModel } from '../stress/index.js';
import { createStrengthModel } from './index.js';

/** The cure is held in the second case, and tells where it fails: both parts of a stretch's rate count. */
const cases = [
  { name: 'cured', factors: { cure: 1 } },
  { name: 'pulled', factors: { cure: 0.7, pull: 1 } },
];
const symmetric = { pull: { force: 20 }, cure: { deltaT: -60 } };
const leant = { ...symmetric, side: { force: 3 } };
const leaning = [cases[0]!, { name: 'leaning', factors: { cure: 0.7, pull: 1, side: 1 } }];
const count = 64;

let model: ReducedModel;
beforeAll(() => {
  model = reducedTee(referenceJoint, 0.12, 0.12);
});

describe.each([
  ['symmetric', symmetric, cases, true, [0, 0]],
  ['leant on', leant, leaning, false, [0.15, 0.3]],
] as const)('rows of the strength of a tee, %s', (_, loads, combined, mirror, [x, turn]) => {
  /** Wider by `width` and higher up by `lift`, mm. */
  const outline = (width: number, lift: number) => ellipseNodes(0.9 + width, 0.5, [x, 0.95 + lift], turn, count);
  const made = () => {
    const stress = createStressModel(model, loads, combined, { tolerance: 1e-13, slopes: exactSlopes });
    const strength = createStrengthModel(model, referenceJoint, loads, combined, { edge: 'peak' });
    return { stress, strength, rows: strength.rows };
  };

  it('have the least load factor of the edge and of all other places', () => {
    const { stress, strength, rows } = made();
    const edge = stress.evaluate(outline(0, 0), mirror);
    combined.forEach((_, c) => {
      const { places } = strength.evaluate(edge, 'places').cases[c]!;
      rows.take(edge);
      const inverse = new Float64Array(rows.alongEdge + 3);
      rows.writeAlongEdge(c, 0.5, inverse, 2);
      expect([inverse[0], inverse[1], inverse.at(-1)]).toEqual([0, 0, 0]);
      expect(rows.factors(c)).toHaveLength(rows.stretches);
      const elsewhere = Math.min(...places.slice(1).map(({ factor }) => factor));
      // What fails far later than the first has no factor of its own.
      const first = Math.min(elsewhere, places[0]!.factor);
      if (elsewhere < 1.5 * first) expect(Math.min(...rows.factors(c)) / elsewhere).toBeCloseTo(1, 9);
      // A search looks at nodes and half way between them, not for the very top.
      const alongEdge = 0.5 / Math.max(...inverse) / places[0]!.factor;
      expect(alongEdge).toBeGreaterThan(1 - 1e-9);
      expect(alongEdge).toBeLessThan(1.002);
    });
  });

  it('have the slopes of central differences', () => {
    const { stress, rows } = made();
    const step = 1e-5;
    const rates = createCurveRates(2, count);
    const [wide, narrow] = [outline(step, 0), outline(-step, 0)];
    for (const of of ['x', 'y', 'dx', 'dy'] as const)
      for (let j = 0; j < count; j++) rates[of][j] = (wide[of][j]! - narrow[of][j]!) / (2 * step);
    rates.y.fill(1, count);
    /** `weight` over the load factors of all rows, in one case. */
    const inverses = (width: number, lift: number, c: number) => {
      rows.take(stress.evaluate(outline(width, lift), mirror));
      const out = new Float64Array(rows.alongEdge + rows.stretches);
      rows.writeAlongEdge(c, 0.5, out, 0);
      rows.factors(c).forEach((factor, s) => {
        out[rows.alongEdge + s] = 0.5 / factor;
      });
      return out;
    };
    const c = 1;
    const here = inverses(0, 0, c);
    const edge = stress.evaluate(outline(0, 0), mirror);
    rows.take(edge);
    rows.takeSlopes(stress.slopes(edge, rates, 2));
    // From row 1 on.
    const found = new Float64Array(2 * (here.length + 1));
    rows.writeAlongEdgeRates(c, 0.5, found, 1);
    const near: number[] = [];
    for (let s = 0; s < rows.stretches; s++) {
      if (!(here[rows.alongEdge + s]! > 0)) continue;
      near.push(rows.alongEdge + s);
      rows.addStretchRates({ loadCase: c, stretch: s }, 0.5, found, 1 + rows.alongEdge + s);
    }
    expect(near.length).toBeGreaterThan(4);
    const largest = Math.max(...found.map(Math.abs));
    const along = Array.from({ length: rows.alongEdge }, (_, i) => i).filter((i) => here[i]! > 0);
    for (const [p, [width, lift]] of [
      [step, 0],
      [0, step],
    ].entries()) {
      const [more, less] = [inverses(width!, lift!, c), inverses(-width!, -lift!, c)];
      for (const row of [...along, ...near]) {
        const difference = (more[row]! - less[row]!) / (2 * step);
        expect(Math.abs(found[2 * (1 + row) + p]! - difference) / largest, `row ${row}`).toBeLessThan(1e-5);
      }
    }
  });
});
