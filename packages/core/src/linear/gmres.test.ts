import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { largestDifference, seededRandom } from '../../../../test/fixtures/numbers.js';
import { multiply } from './dense.js';
import { createGmres, type GmresResult, type LinearMap } from './gmres.js';

const result = (): GmresResult => ({ iterations: -1, residual: -1 });

/** Vector by vector. */
const each =
  (map: (x: Float64Array, out: Float64Array) => void): LinearMap =>
  (from, to, which) => {
    for (const l of which) map(from[l]!, to[l]!);
  };

/** Identity plus a random part of the given size. */
function randomSystem(size: number, part: number) {
  const random = seededRandom(size);
  const matrix = Float64Array.from({ length: size * size }, (_, k) => (k % (size + 1) === 0 ? 1 : 0) + part * random());
  const right = Float64Array.from({ length: size }, random);
  const map = each((x, out) => multiply(matrix, size, size, x, out));
  return { matrix: Matrix.from1DArray(size, size, matrix), right, map };
}

describe('createGmres', () => {
  it.each([
    [7, 0.3],
    [30, 0.2],
    [31, 1],
  ])('solves a random system of order %i as a direct solution does', (size, part) => {
    const { matrix, right, map } = randomSystem(size, part);
    const x = new Float64Array(size);
    const how = result();
    createGmres(size, size, 1e-13).solve(map, [right], [x], [how]);
    const exact = solve(matrix, Matrix.columnVector(right)).to1DArray();
    expect(largestDifference(x, exact)).toBeLessThan(1e-10 * Math.max(...exact.map(Math.abs)));
    expect(how.iterations).toBeLessThanOrEqual(size);
  });

  it('reports the residual that it left, also when it ran out of iterations', () => {
    const { matrix, right, map } = randomSystem(40, 0.1);
    const residuals = [0.5, 1e-13].map((tolerance) => {
      const x = new Float64Array(40);
      const how = result();
      createGmres(40, 12, tolerance).solve(map, [right], [x], [how]);
      const left = Matrix.columnVector(right).sub(matrix.mmul(Matrix.columnVector(x)));
      expect(how.residual).toBeCloseTo(left.norm() / Matrix.columnVector(right).norm(), 10);
      return how;
    });
    expect(residuals[1]!.iterations).toBe(12);
    expect(residuals[1]!.residual).toBeGreaterThan(1e-13);
    expect(residuals[1]!.residual).toBeLessThan(residuals[0]!.residual);
  });

  it('begins from a guess: fewer iterations to the same solution, none from the solution itself', () => {
    const { map, right } = randomSystem(30, 0.2);
    const gmres = createGmres(30, 30, 1e-10);
    const loose = createGmres(30, 30, 1e-9);
    const how = result();
    const x = new Float64Array(30);
    gmres.solve(map, [right], [x], [how]);
    const cold = how.iterations;
    const guess = x.map((value, i) => value * (1 + 1e-4 * Math.sin(i)));
    gmres.solve(map, [right], [guess], [how], true);
    expect(how.iterations).toBeLessThan(cold);
    expect(how.residual).toBeLessThanOrEqual(1e-10);
    expect(largestDifference(guess, x)).toBeLessThan(1e-8);
    loose.solve(map, [right], [guess], [how], true);
    expect(how.iterations).toBe(0);
    loose.solve(map, [new Float64Array(30)], [guess], [how], true);
    expect(guess.every((value) => value === 0)).toBe(true);
  });

  it('solves several side by side, each to the last bit as it does alone, with and without a guess', () => {
    const { map, right } = randomSystem(30, 0.2);
    const rights = [
      right,
      new Float64Array(30),
      right.map((value, i) => value * Math.cos(i)),
      Float64Array.of(1, ...new Array(29).fill(0)),
    ];
    const gmres = createGmres(30, 30, 1e-10);
    for (const near of [false, true]) {
      const guesses = rights.map((_, l) => new Float64Array(30).fill(l));
      const together = guesses.map((guess) => guess.slice());
      const hows = rights.map(result);
      gmres.solve(map, rights, together, hows, near);
      for (const [l, one] of rights.entries()) {
        const alone = guesses[l]!.slice();
        const how = result();
        createGmres(30, 30, 1e-10).solve(map, [one], [alone], [how], near);
        expect(together[l]).toEqual(alone);
        expect(hows[l]).toEqual(how);
      }
    }
  });

  it('ends at once on no right side, and forgets what stood in x', () => {
    const { map } = randomSystem(9, 0.3);
    const x = new Float64Array(9).fill(3);
    const how = result();
    createGmres(9, 9, 1e-12).solve(map, [new Float64Array(9)], [x], [how]);
    expect([...x]).toEqual(new Array(9).fill(0));
    expect(how).toEqual({ iterations: 0, residual: 0 });
  });

  it('ends when the space is exhausted: the identity takes one iteration', () => {
    const right = Float64Array.of(1, 2, 3);
    const x = new Float64Array(3);
    const how = result();
    createGmres(3, 3, 1e-12).solve(
      each((from, out) => out.set(from)),
      [right],
      [x],
      [how],
    );
    expect(how.iterations).toBe(1);
    expect(largestDifference(x, right)).toBeLessThan(1e-15);
  });

  it('shows a NaN in residual and solution instead of running on', () => {
    const how = result();
    const spoilt = each((_, out) => out.fill(Number.NaN));
    const whole = each((x, out) => out.set(x));
    const right = new Float64Array(5).fill(1);
    for (const [map, scale] of [
      [spoilt, 1],
      [whole, Number.NaN],
    ] as const) {
      const x = new Float64Array(5);
      createGmres(5, 100, 1e-12).solve(map, [right.map((value) => scale * value)], [x], [how]);
      expect(how.residual).toBeNaN();
      expect(how.iterations).toBeLessThan(2);
      expect(x.every(Number.isNaN)).toBe(true);
    }
  });
});
