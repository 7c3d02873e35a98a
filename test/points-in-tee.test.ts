import { beforeAll, describe, expect, it } from 'vitest';
import { type CurveNodes, createCurveNodes, fitPoints, nodesNeeded } from '../packages/core/src/outline/index.js';
import { createStressModel, type StressModel } from '../packages/core/src/stress/index.js';
import { reducedTee } from './fixtures/reduced.js';
import { reference, referenceJoint, referenceLoads, referenceNodes } from './fixtures/tee-reference.js';

/** Value of a function of the nodes at the place of the edge nearest to a point: a cubic through four nodes. */
function valueNear({ count, x, y }: CurveNodes, values: Float64Array, px: number, py: number): number {
  let nearest = Number.POSITIVE_INFINITY;
  let found = Number.NaN;
  for (let j = 0; j < count; j++) {
    const k = (j + 1) % count;
    const ex = x[k]! - x[j]!;
    const ey = y[k]! - y[j]!;
    const u = Math.max(0, Math.min(1, ((px - x[j]!) * ex + (py - y[j]!) * ey) / (ex * ex + ey * ey)));
    const distance = Math.hypot(x[j]! + u * ex - px, y[j]! + u * ey - py);
    if (distance >= nearest) continue;
    nearest = distance;
    const before = values[(j + count - 1) % count]!;
    const after = values[(j + 2) % count]!;
    found =
      (-before * u * (u - 1) * (u - 2)) / 6 +
      (values[j]! * (u + 1) * (u - 1) * (u - 2)) / 2 -
      (values[k]! * (u + 1) * u * (u - 2)) / 2 +
      (after * (u + 1) * u * (u - 1)) / 6;
  }
  return found;
}

let model: StressModel;
beforeAll(() => {
  model = createStressModel(reducedTee(referenceJoint, 0.12, 0.12), referenceLoads, [
    { name: 'pulled', factors: { pull: 1 } },
  ]);
});

/** Outlines given as 800 points, with twice the nodes that they need, as for a report. */
describe.each([
  ['4 decimals', (value: number) => Number(value.toFixed(4))],
  ['all digits', (value: number) => value],
])('points of %s in a tee', (_, round) => {
  it.each(reference.outlines)(
    '$name: peaks within 0.5 % and hoop stress within 2 % of an independent solution',
    (outline) => {
      const exact = referenceNodes(outline, outline.shape.kind === 'inset' ? 200 : 800);
      const curve = fitPoints(Array.from(exact.x, (x, j): [number, number] => [round(x), round(exact.y[j]!)]));
      expect(curve.mirror).toBe(true);
      const first = createCurveNodes(64);
      curve.place(first);
      const nodes = createCurveNodes(2 * nodesNeeded(first));
      curve.place(nodes);
      const stress = model.evaluate(nodes, curve.mirror);
      (['pull', 'cure'] as const).forEach((load, l) => {
        const { peak, least } = outline[load];
        expect(Math.abs(stress.loads[l]!.peak / peak - 1)).toBeLessThan(0.005);
        expect(Math.abs(stress.loads[l]!.least - least) / peak).toBeLessThan(0.01);
        for (const place of outline.hoop) {
          const hoop = valueNear(nodes, stress.hoop[l]!, place[0], place[1]);
          expect(Math.abs(hoop - place[2 + l]!) / peak).toBeLessThan(0.02);
        }
      });
    },
  );
});
