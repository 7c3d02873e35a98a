import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import {
  contourRecurrence,
  createFunctions,
  functionAt,
  powerRecurrence,
  type RegularBasis,
  writeFunctions,
} from './basis.js';

type Complex = readonly [re: number, im: number];

/** The right half of a contour with three horns, as the filler of a tee has: a hypocycloid, its horns rounded. */
function threeHorns(count: number) {
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const s = -Math.PI / 2 + (Math.PI * i) / (count - 1);
    x[i] = 0.66 * Math.cos(s) + 0.3 * Math.sin(2 * s);
    y[i] = 0.66 * Math.sin(s) + 0.3 * Math.cos(2 * s);
  }
  return { x, y, weights: new Float64Array(count).fill(1) };
}

const basisOf = (degree: number, recurrence: Float64Array): RegularBasis => ({
  degree,
  centreX: 0,
  centreY: 0,
  length: 1,
  recurrence,
});

function valueAt(basis: RegularBasis, k: number, derivative: number, x: number, y: number): Complex {
  const out = createFunctions(basis.degree);
  writeFunctions(basis, x, y, 3, out);
  const at = functionAt(k) + 2 * derivative;
  return [out[at]!, out[at + 1]!];
}

/** Ratio of the largest to the smallest eigenvalue of the functions' products on the whole contour. */
function condition(basis: RegularBasis, { x, y }: { x: Float64Array; y: Float64Array }): number {
  const out = createFunctions(basis.degree);
  const rows: number[][] = [];
  for (let i = 0; i < x.length; i++) {
    writeFunctions(basis, x[i]!, y[i]!, 1, out);
    const at = Array.from({ length: basis.degree }, (_, k) => functionAt(k + 1));
    // Of f_k and the mirror image's (-1)^k conj f_k only equal parity has a product; i^-k f_k makes it real.
    rows.push(at.map((n, k) => ((k + 1) % 2 === 0 ? out[n]! : out[n + 1]!) * (k % 4 < 2 ? 1 : -1)));
    rows.push(at.map((n, k) => ((k + 1) % 2 === 0 ? out[n + 1]! : out[n]!) * (k % 4 < 2 ? 1 : -1)));
  }
  const values = new Matrix(rows);
  const eigenvalues = new EigenvalueDecomposition(values.transpose().mmul(values)).realEigenvalues;
  return Math.max(...eigenvalues) / Math.min(...eigenvalues);
}

/** The same on a contour without mirror image, complex products as pairs of real rows. */
function complexCondition(basis: RegularBasis, { x, y }: { x: Float64Array; y: Float64Array }): number {
  const out = createFunctions(basis.degree);
  const rows: number[][] = [];
  for (let i = 0; i < x.length; i++) {
    writeFunctions(basis, x[i]!, y[i]!, 1, out);
    const at = Array.from({ length: basis.degree }, (_, k) => functionAt(k + 1));
    rows.push(
      at.flatMap((n) => [out[n]!, -out[n + 1]!]),
      at.flatMap((n) => [out[n + 1]!, out[n]!]),
    );
  }
  const values = new Matrix(rows);
  const eigenvalues = new EigenvalueDecomposition(values.transpose().mmul(values)).realEigenvalues;
  return Math.max(...eigenvalues) / Math.min(...eigenvalues);
}

describe('the functions of a regular basis', () => {
  const contour = threeHorns(400);
  const degree = 60;
  const basis = basisOf(degree, contourRecurrence(contour.x, contour.y, contour.weights, degree));

  it('are powers where nothing is taken away', () => {
    const powers = basisOf(5, powerRecurrence(5));
    // (0.3 + 0.4 i)^4 = ((-0.07 + 0.24 i))^2, its derivative 4 (0.3 + 0.4 i)^3.
    const [re, im] = valueAt(powers, 4, 0, 0.3, 0.4);
    expect(re).toBeCloseTo(0.07 ** 2 - 0.24 ** 2, 15);
    expect(im).toBeCloseTo(-2 * 0.07 * 0.24, 15);
    const [slopeRe, slopeIm] = valueAt(powers, 4, 1, 0.3, 0.4);
    expect(slopeRe).toBeCloseTo(4 * (0.3 ** 3 - 3 * 0.3 * 0.4 ** 2), 15);
    expect(slopeIm).toBeCloseTo(4 * (3 * 0.3 ** 2 * 0.4 - 0.4 ** 3), 15);
  });

  it('turn into (-1)^k times their conjugates at a mirror image', () => {
    for (const k of [1, 2, 3, 4, 17, 60]) {
      const [re, im] = valueAt(basis, k, 0, 0.31, 0.22);
      const [mirrorRe, mirrorIm] = valueAt(basis, k, 0, -0.31, 0.22);
      const sign = k % 2 === 0 ? 1 : -1;
      expect(mirrorRe).toBeCloseTo(sign * re, 12);
      expect(mirrorIm).toBeCloseTo(-sign * im, 12);
    }
  });

  it('have the derivatives that differences give', () => {
    const step = 1e-5;
    for (const k of [1, 2, 5, 28, 60])
      for (const derivative of [0, 1, 2]) {
        const ahead = valueAt(basis, k, derivative, 0.31 + step, 0.22);
        const behind = valueAt(basis, k, derivative, 0.31 - step, 0.22);
        const found = valueAt(basis, k, derivative + 1, 0.31, 0.22);
        const size = Math.max(1e-3, Math.hypot(...found));
        expect(Math.abs((ahead[0] - behind[0]) / (2 * step) - found[0]) / size).toBeLessThan(1e-6);
        expect(Math.abs((ahead[1] - behind[1]) / (2 * step) - found[1]) / size).toBeLessThan(1e-6);
      }
  });

  it('stay well conditioned on a contour with horns, where powers do not', () => {
    expect(condition(basis, contour)).toBeLessThan(100);
    expect(condition(basisOf(28, powerRecurrence(28)), contour)).toBeGreaterThan(1e6);
  });

  it("are orthonormal to the three before them on the contour, as Arnoldi's process cut off there makes them", () => {
    const out = createFunctions(degree);
    const products = new Float64Array(4 * degree);
    for (let i = 0; i < contour.x.length; i++) {
      writeFunctions(basis, contour.x[i]!, contour.y[i]!, 1, out);
      for (let k = 4; k <= degree; k++)
        for (let j = 0; j < 4; j++) {
          const [n, m] = [functionAt(k), functionAt(k - j)];
          // i^-k f_k has conjugate values on both halves of the contour: that real part of the product which is left of i^j.
          const [re, im] = [
            out[n]! * out[m]! + out[n + 1]! * out[m + 1]!,
            out[n + 1]! * out[m]! - out[n]! * out[m + 1]!,
          ];
          products[4 * (k - 1) + j]! += [re, im, -re, -im][j]! / contour.x.length;
        }
    }
    for (let k = 4; k <= degree; k++)
      for (let j = 0; j < 4; j++) expect(products[4 * (k - 1) + j]).toBeCloseTo(j === 0 ? 1 : 0, 9);
  });

  it('stay so on a contour unlike its mirror image, with derivatives that differences give', () => {
    // A filler that bends round a corner: a lens along a quarter of a circle.
    const bent = { x: new Float64Array(400), y: new Float64Array(400), weights: new Float64Array(400).fill(1) };
    for (let i = 0; i < 400; i++) {
      const s = (2 * Math.PI * i) / 400;
      const angle = (Math.PI / 4) * (1 + 0.9 * Math.cos(s));
      const radius = 1 + 0.2 * Math.sin(s);
      bent.x[i] = radius * Math.cos(angle) - 0.7;
      bent.y[i] = radius * Math.sin(angle) - 0.7;
    }
    const general: RegularBasis = {
      ...basisOf(28, contourRecurrence(bent.x, bent.y, bent.weights, 28, false)),
      complex: true,
    };
    expect(complexCondition(general, bent)).toBeLessThan(100);
    const mirrored = basisOf(28, contourRecurrence(bent.x, bent.y, bent.weights, 28));
    expect(complexCondition(mirrored, bent)).toBeGreaterThan(1e4);
    const poles: RegularBasis = { ...general, degree: 30, poles: Float64Array.of(0.4, 0.1, 0.2, -0.2, 0.5, 0.3) };
    for (const k of [1, 17, 28]) expect(valueAt(poles, k, 2, 0.05, 0.02)).toEqual(valueAt(general, k, 2, 0.05, 0.02));
    // 0.3 / (pole - z) and its derivatives: 0.3 d! / (pole - z)^(d + 1), here with pole - z = 0.5 i.
    [0, -0.6, -1.2, 0, 0, 4.8, 28.8, 0].forEach((value, i) => {
      const derivative = i >> 1;
      expect(valueAt(poles, 30, derivative, -0.2, 0)[i % 2]).toBeCloseTo(value, 12);
    });
    const step = 1e-5;
    for (const derivative of [0, 1, 2])
      for (const part of [0, 1] as const) {
        const ahead = valueAt(general, 28, derivative, 0.05 + step, 0.02)[part];
        const behind = valueAt(general, 28, derivative, 0.05 - step, 0.02)[part];
        const found = valueAt(general, 28, derivative + 1, 0.05, 0.02);
        expect(Math.abs((ahead - behind) / (2 * step) - found[part])).toBeLessThan(1e-6 * Math.hypot(...found));
      }
  });
});
