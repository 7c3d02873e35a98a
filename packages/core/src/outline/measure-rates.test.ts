import { describe, expect, it } from 'vitest';
import { placed, valuesAt } from '../../../../test/fixtures/outline-checks.js';
import { createFamily } from './create-family.js';
import type { Border, OutlineRoom } from './family.js';
import { createOutlineMeasure, measureOutline } from './measure.js';
import { areaRates, centroidRates, distanceRates } from './measure-rates.js';
import { createCurveRates } from './node-rates.js';
import type { CurveNodes } from './nodes.js';

const room: OutlineRoom = {
  mirror: true,
  xMin: -3.2,
  xMax: 3.2,
  yMin: 0.12,
  yMax: 3.6,
  edgeRadius: 0.12,
};
/** The base, and an arc of a tee's filler on either side. */
const border: Border = { distance: (x, y) => Math.min(y, Math.hypot(5 - Math.abs(x), 5 - y) - 5) };
const count = 96;

/** What is measured of an outline, in one row. */
function figures(nodes: CurveNodes): number[] {
  const m = createOutlineMeasure();
  measureOutline(nodes, border, m);
  return [m.area, m.centroidX, ...Array.from(nodes.x, (x, j) => border.distance(x, nodes.y[j]!))];
}

describe.each([true, false])('rates of what is measured of an outline, mirror-symmetric: %s', (mirror) => {
  it.each(['ellipse', 'teardrop', 'spline'])('are those of central differences: %s', (name) => {
    const family = createFamily(name, { ...room, mirror });
    const howMany = family.parameters.length;
    const values = valuesAt(
      family,
      family.parameters.map((_, i) => [0.53, 0.41, 0.33, 0.46, 0.55][i % 5]!),
    );
    const nodes = placed(family, values, count);
    const rates = createCurveRates(howMany, count);
    family.rates!(values, nodes, rates);
    const [area, centroid, distance] = [howMany, howMany, howMany * count].map((size) => new Float64Array(size));
    areaRates(nodes, rates, howMany, area!);
    centroidRates(nodes, rates, howMany, centroid!);
    distanceRates(nodes, border, rates, count, distance!);
    for (let p = 0; p < howMany; p++) {
      const step = 1e-5;
      const [ahead, behind] = [step, -step].map((by) =>
        figures(placed(family, values.with(p, values[p]! + by), count)),
      );
      const exact = [area![p]!, centroid![p]!, ...distance!.subarray(p * count, (p + 1) * count)];
      exact.forEach((rate, i) => {
        const difference = (ahead![i]! - behind![i]!) / (2 * step);
        expect(Math.abs(rate - difference)).toBeLessThan(1e-6 * Math.max(1, Math.abs(rate)));
      });
    }
  });
});
