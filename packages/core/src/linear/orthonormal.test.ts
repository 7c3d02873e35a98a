import { CholeskyDecomposition, Matrix, QrDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { largestDifference, seededRandom } from '../../../../test/fixtures/numbers.js';
import { factorDefinite } from './definite.js';
import { leftDivide, orthonormalise, rightDivide } from './orthonormal.js';
import { matrixOf, times, timesTransposed, transposed } from './product.js';

const random = seededRandom(3);
const drawn = (rows: number, columns: number) =>
  matrixOf(
    Float64Array.from({ length: rows * columns }, () => random() - 0.5),
    columns,
  );
const theirs = ({ values, rows, columns }: ReturnType<typeof drawn>) =>
  Matrix.from1DArray(rows, columns, values as unknown as number[]);
const identity = (size: number) => Matrix.eye(size, size).to1DArray();

describe('orthonormalise', () => {
  /** Decaying exponentials: nearly dependent (condition 1e10 and more), in units that differ by 1e6. */
  const decays = matrixOf(
    Float64Array.from({ length: 14 * 80 }, (_, i) => {
      const row = Math.floor(i / 80);
      return (row % 2 === 0 ? 1e3 : 1e-3) * Math.exp((-row * (i % 80)) / 80);
    }),
    80,
  );

  it('gives rows that are orthonormal to rounding, however ill-conditioned, and the triangle that goes with them', () => {
    const { orthonormal, factor } = orthonormalise(decays);
    expect(largestDifference(timesTransposed(orthonormal, orthonormal).values, identity(14))).toBeLessThan(1e-14);
    const { values } = times(transposed(factor), orthonormal);
    for (let i = 0; i < values.length; i++)
      expect(Math.abs(values[i]! - decays.values[i]!)).toBeLessThan(1e-13 * Math.hypot(...decays.values));
  });

  it("has ml-matrix's triangle, up to signs", () => {
    const plain = drawn(6, 40);
    const triangle = new QrDecomposition(theirs(plain).transpose()).upperTriangularMatrix.to1DArray();
    const ours = orthonormalise(plain).factor.values;
    expect(largestDifference(ours.map(Math.abs), triangle.map(Math.abs))).toBeLessThan(1e-13);
  });
});

describe('a triangle', () => {
  const { factor } = orthonormalise(drawn(7, 30));
  it('divides from the left and from the right', () => {
    const left = drawn(7, 4);
    expect(largestDifference(times(factor, leftDivide(factor, left)).values, left.values)).toBeLessThan(1e-13);
    const right = drawn(4, 7);
    expect(largestDifference(times(rightDivide(right, factor), factor).values, right.values)).toBeLessThan(1e-13);
  });
});

describe('factorDefinite', () => {
  it.each([1, 5, 30, 131])("solves with %i unknowns as ml-matrix's does", (size) => {
    const rows = drawn(size, size + 20);
    const matrix = timesTransposed(rows, rows);
    const right = drawn(size, 3);
    const expected = new CholeskyDecomposition(theirs(matrix)).solve(theirs(right)).to1DArray();
    const scale = Math.max(...expected.map(Math.abs));
    expect(largestDifference(factorDefinite(matrix).solve(right).values, expected)).toBeLessThan(1e-9 * scale);
  });

  it('refuses a matrix that is not positive definite', () => {
    expect(() => factorDefinite(matrixOf(Float64Array.of(1, 2, 2, 1), 2))).toThrow(/positive/);
  });
});
