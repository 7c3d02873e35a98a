import { COORDINATE_DIGITS, type Drawing, outlinesOf } from './drawing.js';

/** Vertices of a polygon, or points of a chain of curves, with the digits of a drawing, mm. */
export function roundedPoints(values: Float64Array): Array<readonly [x: number, y: number]> {
  const rounded = (i: number) => Number(values[i]!.toFixed(COORDINATE_DIGITS));
  return Array.from({ length: values.length / 2 }, (_, i) => [rounded(2 * i), rounded(2 * i + 1)] as const);
}

/**
 * The polygon's vertices, one a line under a header that states the unit; the first is not repeated at the end. Of two channels the right one's
 * come first, and a third column says which; more are numbered, the given one first.
 */
export function toCsv(drawing: Drawing): string {
  const outlines = outlinesOf(drawing);
  const named = outlines.length > 1;
  const lines = [`x_mm,y_mm${named ? ',channel' : ''}`];
  outlines.forEach(({ vertices }, k) => {
    const name = named ? `,${outlines.length > 2 ? k + 1 : k === 0 ? 'right' : 'left'}` : '';
    for (let i = 0; i < vertices.length; i += 2)
      lines.push(`${vertices[i]!.toFixed(COORDINATE_DIGITS)},${vertices[i + 1]!.toFixed(COORDINATE_DIGITS)}${name}`);
  });
  return `${lines.join('\n')}\n`;
}
