import { describe, expect, it } from 'vitest';
import {
  createBasisTable,
  fillBasisTable,
  halfSize,
  powerRecurrence,
  type RegularBasis,
  writeEdgeFields,
} from '../../edge/index.js';
import { createCurveNodes } from '../../outline/index.js';
import { controlContour } from '../tee/index.js';
import { type ContourFields, regularContourFields, type SourcePoints, sourceContourFields } from './contour-fields.js';

const contour = controlContour(5, 0.12, 0.12);
const width = 2 * contour.x.length;
const basis: RegularBasis = { degree: 4, centreX: 0, centreY: 1.25, length: 2, recurrence: powerRecurrence(4) };
const [G, kappa] = [3900, 1.9];
const medium = { basis, shearModulus: G, kappa };
const half = halfSize(basis.degree);

/** A hole of radius `a` (local) in the middle of the basis: its right half at `points` places. */
function circle(a: number, points: number): SourcePoints {
  const step = Math.PI / points;
  const at = (value: (s: number) => number) =>
    Float64Array.from({ length: points }, (_, j) => value(-Math.PI / 2 + (j + 0.5) * step));
  return {
    x: at((s) => a * Math.cos(s)),
    y: at((s) => a * Math.sin(s)),
    dx: at((s) => -a * Math.sin(s) * step),
    dy: at((s) => a * Math.cos(s) * step),
  };
}

/** Sum of rows with weights. */
function combined({ displacement, force }: ContourFields, weights: ArrayLike<number>) {
  const out = { displacement: new Float64Array(width), force: new Float64Array(width) };
  for (let row = 0; row < weights.length; row++)
    for (let i = 0; i < width; i++) {
      out.displacement[i]! += weights[row]! * displacement[row * width + i]!;
      out.force[i]! += weights[row]! * force[row * width + i]!;
    }
  return out;
}

const dot = (a: ArrayLike<number>, b: ArrayLike<number>) => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
};

type State = ReturnType<typeof combined>;
/** Work of one state's forces on the other's displacements, less the other way round. */
const exchange = (a: State, b: State) => dot(a.force, b.displacement) - dot(b.force, a.displacement);
const scaleOf = (a: State, b: State) =>
  Math.sqrt(dot(a.force, a.force) * dot(b.displacement, b.displacement)) +
  Math.sqrt(dot(b.force, b.force) * dot(a.displacement, a.displacement));
const unit = (row: number, rows: number) => Float64Array.from({ length: rows }, (_, l) => (l === row ? 1 : 0));

describe('fields on the control contour', () => {
  it('gives strain and work of uniform stress', () => {
    const fields = regularContourFields(contour, medium, 'symmetric');
    // phi = (sx + sy)/4 z, psi = (sy - sx)/2 z
    for (const [sx, sy] of [
      [1, 0],
      [0, 1],
      [0.3, -2],
    ] as const) {
      const { displacement, force } = combined(fields, [(sx + sy) / 4, (sy - sx) / 2]);
      // Plane strain with kappa = 3 - 4 nu.
      const nu = (3 - kappa) / 4;
      const strainX = ((1 - nu) * sx - nu * sy) / (2 * G);
      const strainY = ((1 - nu) * sy - nu * sx) / (2 * G);
      let work = 0;
      let area = 0;
      contour.x.forEach((x, j) => {
        const y = contour.y[j]!;
        expect(displacement[2 * j]).toBeCloseTo(strainX * x, 12);
        expect(displacement[2 * j + 1]).toBeCloseTo(strainY * (y - 1.25), 12);
        work += force[2 * j]! * x;
      });
      for (let edge = 0; edge < (contour.x.length - 1) / 2; edge++) {
        const [a, b, c] = [2 * edge, 2 * edge + 1, 2 * edge + 2];
        const point = (list: Float64Array) => [list[a]!, list[b]!, list[c]!] as const;
        area += quadraticArea(point(contour.x), point(contour.y));
      }
      expect(work).toBeCloseTo(sx * area, 9);
    }
  });

  it.each(['symmetric', 'antisymmetric'] as const)('obeys Betti among regular fields: %s', (of) => {
    const fields = regularContourFields(contour, medium, of);
    for (let k = 0; k < half; k++)
      for (let l = 0; l < k; l++) {
        const [a, b] = [combined(fields, unit(k, half)), combined(fields, unit(l, half))];
        expect(Math.abs(exchange(a, b))).toBeLessThan(1e-6 * scaleOf(a, b));
      }
  });

  it('carries the field of a hole: Kirsch, from the edge values of phi', () => {
    const a = 0.3;
    const points = circle(a, 40);
    const fields = sourceContourFields(contour, medium, 'symmetric', points);
    // Tension 1 along x: phi = (z + 2 a^2/z)/4 in all, of the hole (a^2/2)/z and psi = -(a^2/2)/z + (a^4/2)/z^3.
    const weights = new Float64Array(80);
    for (let s = 0; s < 40; s++) weights.set([(3 / 4) * points.x[s]!, (-1 / 4) * points.y[s]!], 2 * s);
    const { displacement } = combined(fields, weights);
    let scale = 0;
    let worst = 0;
    contour.x.forEach((X, j) => {
      const [x, y] = [X / 2, (contour.y[j]! - 1.25) / 2];
      const r2 = x * x + y * y;
      // 1/z, 1/z^2, 1/z^3
      const [ix, iy] = [x / r2, -y / r2];
      const [jx, jy] = [ix * ix - iy * iy, 2 * ix * iy];
      const [kx, ky] = [ix * jx - iy * jy, ix * jy + iy * jx];
      const h = (a * a) / 2;
      // kappa phi - z conj(phi') - conj(psi), phi' = -h/z^2
      const u = kappa * h * ix + h * (x * jx + y * jy) + h * ix - h * a * a * kx;
      const v = kappa * h * iy + h * (y * jx - x * jy) - h * iy + h * a * a * ky;
      const factor = 2 / (2 * G);
      worst = Math.max(worst, Math.abs(displacement[2 * j]! - factor * u));
      worst = Math.max(worst, Math.abs(displacement[2 * j + 1]! - factor * v));
      scale = Math.max(scale, Math.abs(factor * u), Math.abs(factor * v));
    });
    expect(worst).toBeLessThan(1e-10 * scale);
  });

  // Betti between a regular field and a hole's: (kappa + 1)/2G Re oint conj(phi) (-i dF), over the whole edge.
  it.each(['symmetric', 'antisymmetric'] as const)('shows the host a channel by its moments only: %s', (of) => {
    const symmetric = of === 'symmetric';
    const points = circle(0.25, 32);
    const regular = regularContourFields(contour, medium, of);
    const sources = sourceContourFields(contour, medium, of, points);
    const nodes = createCurveNodes(64);
    for (const name of ['x', 'y', 'dx', 'dy'] as const)
      points[name].forEach((value, s) => {
        nodes[name][s] = name.startsWith('d') ? (value * 64) / (2 * Math.PI) : value;
      });
    const fields = { H: new Float64Array(64 * half), Q: new Float64Array(half * 64) };
    const middle = { x: 0, y: 0 };
    const table = createBasisTable(basis, 32);
    fillBasisTable(nodes, 32, middle, table);
    writeEdgeFields({ nodes, fold: 'half', inner: middle }, { table, symmetric, first: 0 }, half, fields);
    const factor = ((kappa + 1) / (2 * G)) * basis.length ** 2;
    for (const wave of [1, 2, 3]) {
      // Smooth values of phi of this symmetry.
      const weights = Float64Array.from({ length: 64 }, (_, i) => {
        const s = -Math.PI / 2 + (((i >> 1) + 0.5) * Math.PI) / 32;
        const odd = Math.sin(wave * (s + Math.PI / 2));
        const even = 0.6 * Math.cos(wave * (s + Math.PI / 2));
        return (i % 2 === 0) === symmetric ? odd : even;
      });
      const channel = combined(sources, weights);
      for (let l = 0; l < half; l++) {
        const field = combined(regular, unit(l, half));
        const moment = factor * dot(fields.Q.subarray(l * 64, (l + 1) * 64), weights);
        // Half the contour shows half the moment.
        expect(Math.abs(exchange(field, channel) - moment / 2)).toBeLessThan(1e-5 * scaleOf(field, channel));
      }
    }
  });
});

/** `int x dy` along a quadratic edge, exactly. */
function quadraticArea(x: readonly [number, number, number], y: readonly [number, number, number]): number {
  const slope = (p: readonly [number, number, number], xi: number) =>
    p[0] * (xi - 0.5) - 2 * p[1] * xi + p[2] * (xi + 0.5);
  return (x[0] * slope(y, -1) + 4 * x[1] * slope(y, 0) + x[2] * slope(y, 1)) / 3;
}
