import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { derivativeError, isMirrored } from '../../../../test/fixtures/outline-checks.js';
import { curvatureOutline } from './curvature.js';
import type { CurvatureForm } from './curvature-splines.js';
import type { Border } from './family.js';
import { createOutlineMeasure, measureOutline } from './measure.js';
import type { NodeRates } from './node-rates.js';
import { type CurveNodes, createCurveNodes } from './nodes.js';

const nowhere: Border = { distance: () => Number.POSITIVE_INFINITY };
const even = Float64Array.of(0.4, -0.5, 0.1);

/** Green's: half the sum of x dy - y dx. */
function areaOf({ count, x, y, dx, dy }: CurveNodes): number {
  return x.reduce((sum, _, j) => sum + (Math.PI / count) * (x[j]! * dy[j]! - y[j]! * dx[j]!), 0);
}

/** Uneven knots and nodes. */
function formOf(mirror: boolean, pieces: number): CurvatureForm {
  const knots = Float64Array.from({ length: pieces - 1 }, (_, k) => {
    const at = (k + 1) / pieces;
    return at + (0.6 / pieces) * Math.sin(5 * at);
  });
  return { mirror, knots, spacing: { even, odd: mirror ? new Float64Array() : Float64Array.of(0.2, 0.1, -0.1) } };
}

const bound = 4;
/** Closed outlines of 3 mm length, their curvature about 2 pi / 3 with `rough` waves. */
function closedValues(mirror: boolean, pieces: number, waves: readonly number[]): Float64Array {
  const start = mirror ? [0.7] : [0.3, -0.2, 20];
  const coefficients = Array.from({ length: pieces }, (_, k) => {
    const at = (2 * Math.PI * (k + 0.5)) / (mirror ? 2 * pieces : pieces);
    return (2 * Math.PI) / 3 + waves.reduce((sum, wave, i) => sum + wave * Math.cos((i + 2) * at + i), 0);
  });
  const values = Float64Array.of(...start, 3, ...coefficients);
  const outline = curvatureOutline(formOf(mirror, pieces));
  expect(outline.close(values, bound)).toBe(true);
  return values;
}

const kinds = [
  ['mirror-symmetric', true, 14],
  ['free', false, 22],
] as const;
const waves = fc.array(fc.double({ min: -0.7, max: 0.7, noNaN: true }), { minLength: 3, maxLength: 3 });

function placedAt(mirror: boolean, pieces: number, values: ArrayLike<number>, count: number): CurveNodes {
  const nodes = createCurveNodes(count);
  curvatureOutline(formOf(mirror, pieces)).place(values, nodes);
  return nodes;
}

describe.each(kinds)('%s outlines by curvature', (_, mirror, pieces) => {
  const outline = curvatureOutline(formOf(mirror, pieces));

  it('is a circle where the curvature is even', () => {
    const radius = 0.6;
    const start = mirror ? [1] : [0.2, 1, 0];
    const values = Float64Array.of(...start, 2 * Math.PI * radius, ...new Float64Array(pieces).fill(1 / radius));
    const nodes = placedAt(mirror, pieces, values, 96);
    for (let j = 0; j < 96; j++)
      expect(Math.hypot(nodes.x[j]! - (mirror ? 0 : 0.2), nodes.y[j]! - 1 - radius)).toBeCloseTo(radius, 13);
    expect(derivativeError(nodes)).toBeLessThan(1e-9);
  });

  it('closes to 1e-12, turns once and keeps the bound between the nodes, exactly', () => {
    fc.assert(
      fc.property(waves, (rough) => {
        const values = closedValues(mirror, pieces, rough);
        const missing = new Float64Array(outline.closures);
        outline.closure(values, missing, new Float64Array(outline.closures * values.length));
        for (const lacks of missing) expect(Math.abs(lacks)).toBeLessThan(1e-12);
        const nodes = placedAt(mirror, pieces, values, 2048);
        const largest = Math.max(...values.slice(outline.lengthAt + 1).map(Math.abs));
        expect(largest).toBeLessThanOrEqual(bound * (1 + 1e-12));
        let turned = 0;
        let sharpest = 0;
        for (let j = 0; j < 2048; j++) {
          const bend = nodes.dx[j]! * nodes.ddy[j]! - nodes.dy[j]! * nodes.ddx[j]!;
          const speed2 = nodes.dx[j]! ** 2 + nodes.dy[j]! ** 2;
          turned += ((2 * Math.PI) / 2048) * (bend / speed2);
          sharpest = Math.max(sharpest, Math.abs(bend) / speed2 ** 1.5);
        }
        expect(turned).toBeCloseTo(2 * Math.PI, 5);
        expect(sharpest).toBeLessThanOrEqual(largest * (1 + 1e-12));
        if (mirror) expect(isMirrored(nodes)).toBe(true);
      }),
      { numRuns: 15, seed: 1 },
    );
  });

  it('is the same outline at any number of nodes, its length as given', () => {
    const values = closedValues(mirror, pieces, [0.5, -0.3, 0.2]);
    const few = placedAt(mirror, pieces, values, 64);
    const many = placedAt(mirror, pieces, values, 192);
    for (let j = 0; j < 64; j++)
      expect(Math.hypot(few.x[j]! - many.x[3 * j + 1]!, few.y[j]! - many.y[3 * j + 1]!)).toBeLessThan(1e-12);
    const measure = createOutlineMeasure();
    measureOutline(many, nowhere, measure);
    expect(measure.perimeter).toBeCloseTo(3, 9);
  });

  it('has the rates of central differences, of nodes, closures and area', () => {
    const values = closedValues(mirror, pieces, [0.5, -0.3, 0.2]);
    const count = 128;
    const size = values.length * count;
    const buffer = () => new Float64Array(size);
    const rates: NodeRates = { x: buffer(), y: buffer(), dx: buffer(), dy: buffer() };
    const nodes = createCurveNodes(count);
    outline.place(values, nodes);
    outline.rates(values, nodes, rates);
    const closureSlopes = new Float64Array(outline.closures * values.length);
    outline.closure(values, new Float64Array(outline.closures), closureSlopes);
    const step = 1e-5;
    for (let k = 0; k < values.length; k++) {
      const [ahead, behind] = [step, -step].map((by) => {
        const moved = values.slice();
        moved[k]! += by;
        const lacks = new Float64Array(outline.closures);
        outline.closure(moved, lacks, new Float64Array(closureSlopes.length));
        const at = createCurveNodes(count);
        outline.place(moved, at);
        return { at, lacks, area: areaOf(at) };
      });
      for (const of of ['x', 'y', 'dx', 'dy'] as const)
        for (let j = 0; j < count; j++) {
          const difference = (ahead!.at[of][j]! - behind!.at[of][j]!) / (2 * step);
          expect(Math.abs(rates[of][k * count + j]! - difference)).toBeLessThan(1e-8);
        }
      for (let r = 0; r < outline.closures; r++) {
        const difference = (ahead!.lacks[r]! - behind!.lacks[r]!) / (2 * step);
        expect(Math.abs(closureSlopes[r * values.length + k]! - difference)).toBeLessThan(1e-8);
      }
      let area = 0;
      for (let j = 0, at = k * count; j < count; j++, at++) {
        area += (Math.PI / count) * (rates.x[at]! * nodes.dy[j]! - rates.y[at]! * nodes.dx[j]!);
        area += (Math.PI / count) * (nodes.x[j]! * rates.dy[at]! - nodes.y[j]! * rates.dx[at]!);
      }
      expect(Math.abs(area - (ahead!.area - behind!.area) / (2 * step))).toBeLessThan(1e-7);
    }
  });

  it('says when it cannot close within the bound', () => {
    const values = closedValues(mirror, pieces, [0, 0, 0]);
    const straighter = values.map((value, k) => (k > outline.lengthAt ? 0.4 * value : value));
    expect(outline.close(straighter, 0.9)).toBe(false);
  });
});
