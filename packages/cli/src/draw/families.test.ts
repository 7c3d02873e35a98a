import type { ILwpolylineEntity, ISplineEntity } from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import {
  csvExtent,
  entitiesOf,
  pathExtent,
  pointsExtent,
  splineExtent,
} from '../../../../test/fixtures/drawing-readers.js';
import { teeFamilies } from '../../../core/src/host/index.js';
import {
  createCurveNodes,
  createFamily,
  createOutlineMeasure,
  familyNames,
  measureOutline,
} from '../../../core/src/outline/index.js';
import { type Extent, type OutlineSampler, prepareDrawing, toCsv, toDxf, toSvg } from './index.js';

const room = { mirror: false, xMin: -3, xMax: 3, yMin: 0.1, yMax: 3, edgeRadius: 0.15, families: teeFamilies(5) };
const noBorder = { distance: () => Number.POSITIVE_INFINITY };

/** A fixed sequence of numbers in [0, 1) (Weyl, golden ratio), so that the same outlines are drawn every time. */
const share = (i: number) => (0.5 + i * 0.6180339887498949) % 1;

/** Admissible outlines of a family, from all over its parameters. */
function outlinesOf(name: string, wanted: number): { sample: OutlineSampler; extent: Extent }[] {
  const family = createFamily(name, room);
  const found: { sample: OutlineSampler; extent: Extent }[] = [];
  for (let i = 0; found.length < wanted && i < 500; i++) {
    // From the whole range and from closer to its middle, where a spline does not cross itself.
    const spread = 0.5 ** (i % 5);
    const values = family.parameters.map(
      ({ lower, upper }, k) =>
        (lower + upper) / 2 + spread * (upper - lower) * (share(i * family.parameters.length + k) - 0.5),
    );
    const sample = (count: number) => {
      const nodes = createCurveNodes(count);
      family.place(values, nodes);
      return nodes;
    };
    const measure = createOutlineMeasure();
    measureOutline(sample(2048), noBorder, measure);
    if (measure.simple && measure.edgeRadius > 0.12 && measure.area > 0.05)
      found.push({ sample, extent: { area: measure.area, perimeter: measure.perimeter } });
  }
  return found;
}

describe.each([...familyNames, 'inset'])('drawings of the family %s', (name) => {
  it('have area and perimeter of the design within 0.01 %', () => {
    const outlines = outlinesOf(name, 12);
    expect(outlines).toHaveLength(12);
    for (const { sample, extent } of outlines) {
      const drawing = prepareDrawing({ outline: sample });
      const [polyline] = entitiesOf<ILwpolylineEntity>(toDxf(drawing), 'CHANNEL', 'LWPOLYLINE');
      const [spline] = entitiesOf<ISplineEntity>(toDxf(drawing, { curve: 'spline' }), 'CHANNEL', 'SPLINE');
      for (const read of [
        pointsExtent(polyline!.vertices),
        splineExtent(spline!),
        pathExtent(toSvg(drawing)),
        csvExtent(toCsv(drawing)),
      ]) {
        expect(Math.abs(read.area / extent.area - 1)).toBeLessThan(1e-4);
        expect(Math.abs(read.perimeter / extent.perimeter - 1)).toBeLessThan(1e-4);
      }
      expect(drawing.chordError).toBeLessThanOrEqual(0.001);
    }
  });
});
