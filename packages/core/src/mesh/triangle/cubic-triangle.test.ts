import { describe, expect, it } from 'vitest';
import { createShape, evaluateShape, evaluateSide, nodeCoordinates, quadrature } from './cubic-triangle.js';

const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));

describe('the ten-node triangle', () => {
  it('has shape functions that are 1 at their own node and 0 at the others', () => {
    const shape = createShape();
    for (let node = 0; node < 10; node++) {
      evaluateShape(nodeCoordinates[3 * node + 1]!, nodeCoordinates[3 * node + 2]!, shape);
      shape.N.forEach((value, i) => {
        expect(value).toBeCloseTo(i === node ? 1 : 0, 14);
      });
    }
  });

  it('gives the slopes of its shape functions', () => {
    const step = 1e-6;
    const [here, up, down] = [createShape(), createShape(), createShape()];
    for (const [L2, L3] of [
      [0.2, 0.3],
      [0.7, 0.1],
      [0.05, 0.9],
    ] as const) {
      evaluateShape(L2, L3, here);
      evaluateShape(L2 + step, L3, up);
      evaluateShape(L2 - step, L3, down);
      for (let i = 0; i < 10; i++) expect((up.N[i]! - down.N[i]!) / (2 * step)).toBeCloseTo(here.dN2[i]!, 7);
      evaluateShape(L2, L3 + step, up);
      evaluateShape(L2, L3 - step, down);
      for (let i = 0; i < 10; i++) expect((up.N[i]! - down.N[i]!) / (2 * step)).toBeCloseTo(here.dN3[i]!, 7);
    }
  });

  it('has the same shape functions on a side as the side alone', () => {
    const shape = createShape();
    const N = new Float64Array(4);
    const dN = new Float64Array(4);
    for (const u of [0.1, 0.5, 0.77]) {
      evaluateShape(u, 0, shape);
      evaluateSide(u, N, dN);
      [0, 3, 4, 1].forEach((node, i) => {
        expect(shape.N[node]!).toBeCloseTo(N[i]!, 14);
        expect(shape.dN2[node]!).toBeCloseTo(dN[i]!, 13);
      });
    }
  });

  it('integrates every monomial up to degree 6, and not all of degree 7', () => {
    const errorOf = (p: number, q: number) => {
      let sum = 0;
      quadrature.weight.forEach((w, k) => {
        sum += w * quadrature.L[3 * k + 1]! ** p * quadrature.L[3 * k + 2]! ** q;
      });
      return Math.abs((sum * factorial(p + q + 2)) / (factorial(p) * factorial(q)) - 1);
    };
    for (let p = 0; p <= 6; p++) for (let q = 0; p + q <= 6; q++) expect(errorOf(p, q)).toBeLessThan(1e-13);
    expect(errorOf(7, 0)).toBeGreaterThan(1e-5);
  });
});
