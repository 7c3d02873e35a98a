import { expect, it } from 'vitest';
import { reducedTee } from '../../../../test/fixtures/reduced.js';
import { referenceJoint } from '../../../../test/fixtures/tee-reference.js';
import { type Loads, modelBorder } from '../host/index.js';
import { actingLoads } from '../stress/index.js';
import { regularStress } from './filler-field.js';
import { createFailure } from './first-failure.js';
import { createInnerFiller } from './inner-filler.js';

const strength = 48;

it.each([
  ['pull', { pull: { force: 20 } }],
  ['side', { side: { force: 5 } }],
] as [string, Loads][])(
  'the filler inside the contour fails where its largest tension is, at any place: %s',
  (_, loads) => {
    const model = reducedTee(referenceJoint, 0.12, 0.12);
    const acting = actingLoads(model, loads);
    const first = createFailure();
    createInnerFiller(model, strength, acting).judgeUndisturbed(
      { fixed: Float64Array.of(0), scaled: Float64Array.of(1) },
      first,
    );
    // Mohr's circle at places much closer together, all over the contour.
    const border = modelBorder(model);
    const { xMin, xMax, yMin, yMax } = model.places.inner!;
    let most = 0;
    const out = { xx: 0, yy: 0, xy: 0 };
    for (let i = 0; i <= 300; i++)
      for (let j = 0; j <= 300; j++) {
        const [x, y] = [xMin + (i / 300) * (xMax - xMin), yMin + (j / 300) * (yMax - yMin)];
        if (border.distance(x, y) < 0) continue;
        regularStress(model.basis, acting[0]!.undisturbed, x, y, out);
        most = Math.max(most, (out.xx + out.yy) / 2 + Math.hypot((out.xx - out.yy) / 2, out.xy));
      }
    expect(first.criterion).toBe('splitting');
    expect(border.distance(first.x, first.y)).toBeGreaterThanOrEqual(0);
    expect(first.factor).toBeGreaterThanOrEqual((1 - 1e-9) * (strength / most));
    expect(first.factor).toBeLessThan(1.1 * (strength / most));
  },
);
