import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../../test/fixtures/numbers.js';
import { multiplyBatch } from './batch.js';
import { eliminate } from './eliminate.js';
import { largestEntry, lowRank } from './low-rank.js';
import { factorLu, solveLu } from './lu.js';
import { matrixOf } from './product.js';

const random = seededRandom(11);
const numbers = (length: number) => Float64Array.from({ length }, random);
const diagonal = (size: number) =>
  numbers(size * size).map((value, i) => (i % (size + 1) === 0 ? 3 : 0) + value / size);
const largest = (a: ArrayLike<number>, b: ArrayLike<number>) =>
  Array.from(a).reduce((most, value, i) => Math.max(most, Math.abs(value - b[i]!)), 0);

/** Entry by entry, as it is written. */
function product(matrix: Float64Array, rows: number, columns: number, row: Float64Array): number[] {
  return Array.from({ length: rows }, (_, i) =>
    row.reduce((sum, value, c) => sum + matrix[i * columns + c]! * value, 0),
  );
}

describe('factorLu and solveLu', () => {
  // On both sides of every unrolling: four pivots, two rows, four right sides.
  it.each([1, 2, 3, 4, 5, 7, 8, 11, 32])('solve %i unknowns for one to nine right sides', (size) => {
    const matrix = diagonal(size);
    const factors = matrix.slice();
    factorLu(factors, size);
    for (let count = 1; count <= 9; count++) {
      const rights = numbers(count * size);
      const x = rights.slice();
      solveLu(factors, size, x, count);
      for (let p = 0; p < count; p++)
        expect(
          largest(
            product(matrix, size, size, x.slice(p * size, (p + 1) * size)),
            rights.slice(p * size, (p + 1) * size),
          ),
        ).toBeLessThan(1e-13);
    }
    const one = numbers(size);
    const x = one.slice();
    eliminate(matrix.slice(), x, size);
    expect(largest(product(matrix, size, size, x), one)).toBeLessThan(1e-13);
  });
});

describe('multiplyBatch', () => {
  it.each([
    [1, 1],
    [2, 4],
    [5, 3],
    [6, 9],
  ])('multiplies %i rows by a batch of %i, within longer rows, with and without what stands there', (rows, count) => {
    const columns = 7;
    const matrix = numbers(rows * columns);
    const batch = numbers(3 + count * 10);
    for (const add of [false, true]) {
      const before = numbers(2 + count * 8);
      const out = before.slice();
      const [from, to] = [
        { values: batch, at: 3, stride: 10 },
        { values: out, at: 2, stride: 8 },
      ];
      multiplyBatch({ values: matrix, rows, columns }, from, count, to, add);
      const expected = before.slice();
      for (let p = 0; p < count; p++)
        product(matrix, rows, columns, batch.slice(3 + p * 10, 10 + p * 10)).forEach((value, i) => {
          expected[2 + p * 8 + i] = value + (add ? before[2 + p * 8 + i]! : 0);
        });
      expect(largest(out, expected)).toBeLessThan(1e-14);
    }
  });
});

describe('lowRank', () => {
  it('finds the outer products that a matrix is made of, and says when there are too many', () => {
    const size = 9;
    const vectors = Array.from({ length: 6 }, () => numbers(size));
    const matrix = Float64Array.from({ length: size * size }, (_, at) =>
      [0, 2, 4].reduce((sum, r) => sum + vectors[r]![Math.floor(at / size)]! * vectors[r + 1]![at % size]!, 0),
    );
    const limit = 1e-12 * largestEntry(matrix);
    const { left, right } = lowRank(matrixOf(matrix, size), 4, limit)!;
    expect(left).toHaveLength(3);
    const again = matrix.map((_, at) =>
      left.reduce((sum, column, r) => sum + column[Math.floor(at / size)]! * right[r]![at % size]!, 0),
    );
    expect(largest(again, matrix)).toBeLessThan(1e-12);
    expect(lowRank(matrixOf(matrix, size), 2, limit)).toBeUndefined();
    expect(lowRank(matrixOf(new Float64Array(6), 2), 1, limit)!.left).toHaveLength(0);
  });
});
