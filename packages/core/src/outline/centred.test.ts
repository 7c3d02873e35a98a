import { expect, it } from 'vitest';
import { placed, rateError, valuesAt } from '../../../../test/fixtures/outline-checks.js';
import { centredFamily } from './centred.js';
import { createFamily, familyNames } from './create-family.js';
import type { Border } from './family.js';
import { createOutlineMeasure, measureOutline } from './measure.js';

it('leaves a family without x as it is', () => {
  const symmetric = createFamily('ellipse', { ...room, xMin: -3, mirror: true });
  expect(centredFamily(symmetric, [1, 2])).toBe(symmetric);
});

const room = { mirror: false, xMin: 0.1, xMax: 3, yMin: -1, yMax: 1, edgeRadius: 0.05 };
const nowhere: Border = { distance: () => Number.POSITIVE_INFINITY };
const measure = createOutlineMeasure();
const centroidOf = (nodes: Parameters<typeof measureOutline>[0]) => {
  measureOutline(nodes, nowhere, measure);
  return measure.centroidX;
};

// Turned, tapered and waved: their middles are not their centroids.
it.each(familyNames)('outlines of a centred %s have their centroid at x, and files hold the same outline', (name) => {
  const plain = createFamily(name, room);
  const family = centredFamily(plain, [1, 1.4]);
  const values = valuesAt(
    family,
    family.parameters.map((one, i) => (one.name === 'x' ? 0.3 : 0.5 + 0.06 * Math.sin(1.7 * i))),
  );
  const nodes = placed(family, values, 256);
  expect(centroidOf(nodes)).toBeCloseTo(1.12, 12);
  const written = family.files!.write(values);
  const again = placed(plain, written, 256);
  again.x.forEach((x, j) => {
    expect(x).toBeCloseTo(nodes.x[j]!, 12);
  });
  family.files!.read(written).forEach((value, i) => {
    expect(value).toBeCloseTo(values[i]!, 12);
  });
  expect(rateError(family, values, 128)).toBeLessThan(1e-7);
  if (family.imitate === undefined) return;
  expect(centroidOf(placed(family, family.imitate(nodes), 256))).toBeCloseTo(1.12, 12);
});
