import { Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { largestDifference, seededRandom } from '../../../../test/fixtures/numbers.js';
import { multiply, multiplyEach } from './dense.js';

describe('multiply', () => {
  // Four rows at a time, and what is left over.
  it.each([
    [1, 3],
    [3, 1],
    [4, 5],
    [6, 7],
    [9, 2],
  ])('is the product of a %i x %i matrix and a vector', (rows, columns) => {
    const random = seededRandom(rows);
    const matrix = Float64Array.from({ length: rows * columns }, random);
    const x = Float64Array.from({ length: columns }, random);
    const out = new Float64Array(rows).fill(7);
    multiply(matrix, rows, columns, x, out);
    const expected = Matrix.from1DArray(rows, columns, matrix).mmul(Matrix.columnVector(x)).to1DArray();
    expect(largestDifference(out, expected)).toBeLessThan(1e-14);
  });
});

describe('multiplyEach', () => {
  it.each([[0], [0, 2], [2, 1, 0], [3, 0, 1, 2]])(
    'multiplies vectors %j as each is alone, and no others',
    (...which) => {
      const [rows, columns] = [7, 5];
      const random = seededRandom(which.length);
      const values = Float64Array.from({ length: rows * columns }, random);
      const x = Array.from({ length: 4 }, () => Float64Array.from({ length: columns }, random));
      const out = x.map(() => new Float64Array(rows));
      multiplyEach({ values, rows, columns }, x, out, which);
      for (const [l, one] of x.entries()) {
        const alone = new Float64Array(rows);
        if (which.includes(l)) multiply(values, rows, columns, one, alone);
        expect(out[l]).toEqual(alone);
      }
    },
  );
});
