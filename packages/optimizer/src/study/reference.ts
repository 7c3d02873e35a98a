import { type Curve, type DesignDocument, outlineOf, type ReferenceChannel } from '@lumenfront/core';

/** The reference channel of a brief as an outline of its family. */
export function referenceData({
  family,
  at: [x, y],
  width,
  height,
}: ReferenceChannel): Pick<DesignDocument, 'family' | 'parameters'> {
  return { family, parameters: x === 0 ? { y, width, height } : { x, y, width, height, turn: 0 } };
}

/** The same as a curve, wherever it lies. */
export function referenceCurve(reference: ReferenceChannel): Curve {
  const {
    at: [x, y],
    width,
    height,
  } = reference;
  const room = { xMin: x - width, xMax: x + width, yMin: y - height, yMax: y + height };
  return outlineOf(referenceData(reference), { ...room, mirror: x === 0, edgeRadius: 0 });
}
