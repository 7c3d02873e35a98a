import { fitCurvature, outlineOf } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { areApart } from './shape-distance.js';

const room = { mirror: true, xMin: -3, xMax: 3, yMin: -3, yMax: 3, edgeRadius: 0.05 };

function ellipse(width: number, height: number, pieces = 24) {
  const { outline, values } = fitCurvature(
    outlineOf({ family: 'ellipse', parameters: { y: 0, width, height } }, room),
    pieces,
    0.05,
  )!;
  return { form: outline.form, values };
}

describe('areApart', () => {
  it('does not part an outline from itself with other knots, nor from one a step larger', () => {
    expect(areApart(ellipse(2, 1), ellipse(2, 1, 40))).toBe(false);
    expect(areApart(ellipse(2, 1), ellipse(2.03, 1.01))).toBe(false);
  });

  it('parts shapes of one area, either way round', () => {
    expect(areApart(ellipse(2, 1), ellipse(1, 2))).toBe(true);
    expect(areApart(ellipse(2, 1), ellipse(1.6, 1.25))).toBe(true);
    expect(areApart(ellipse(1.6, 1.25), ellipse(2, 1))).toBe(true);
  });
});
