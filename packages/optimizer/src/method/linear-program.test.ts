import { describe, expect, it } from 'vitest';
import { linearProgram } from './linear-program.js';

const solve = (cost: number[], rows: number[][], limits: number[], start: number[]) =>
  linearProgram(
    Float64Array.from(cost),
    Float64Array.from(rows.flat()),
    Float64Array.from(limits),
    Float64Array.from(start),
  );

const near = (z: Float64Array, expected: number[]) => {
  expect(z).toHaveLength(expected.length);
  for (const [k, value] of expected.entries()) expect(z[k]).toBeCloseTo(value, 5);
};

describe('linear program', () => {
  // Dantzig's example of two products and three workshops, as many textbooks have it (from memory): 36 at (2, 6).
  const workshop = {
    cost: [-3, -5],
    rows: [
      [1, 0],
      [0, 2],
      [3, 2],
      [-1, 0],
      [0, -1],
    ],
    limits: [4, 12, 18, 0, 0],
  };

  it('finds the corner of a textbook program', () => {
    near(solve(workshop.cost, workshop.rows, workshop.limits, [1, 1]), [2, 6]);
  });

  it('finds it from a start beside a limit', () => {
    near(solve(workshop.cost, workshop.rows, workshop.limits, [3.999, 1e-6]), [2, 6]);
  });

  it('minds neither repeated nor needless rows', () => {
    const rows = [...workshop.rows, ...workshop.rows, [1, 1], [2, 4]];
    near(solve(workshop.cost, rows, [...workshop.limits, ...workshop.limits, 100, 200], [1, 1]), [2, 6]);
  });

  it('finds a degenerate corner, where more limits meet than there are unknowns', () => {
    const rows = [...workshop.rows, [1, 1], [1, 3]];
    near(solve(workshop.cost, rows, [...workshop.limits, 8, 20], [1, 1]), [2, 6]);
  });

  it('finds the optimal value where a whole edge is optimal', () => {
    const z = solve([-3, -2], workshop.rows, workshop.limits, [1, 1]);
    expect(3 * z[0]! + 2 * z[1]!).toBeCloseTo(18, 5);
  });

  it('fits a line in the largest deviation', () => {
    // Chebyshev's line through (0, 0), (1, 1), (2, 0), (3, 3), worked by hand: by equal deviations at 1, 2 and 3 with
    // alternating signs, slope 1, intercept -1, deviation 1.
    const points = [
      [0, 0],
      [1, 1],
      [2, 0],
      [3, 3],
    ];
    const rows = points.flatMap(([x]) => [
      [-x!, -1, -1],
      [x!, 1, -1],
    ]);
    const limits = points.flatMap(([, y]) => [-y!, y!]);
    near(solve([0, 0, 1], rows, limits, [0, 0, 10]).subarray(2), [1]);
  });

  it('stays strictly within the limits', () => {
    const z = solve(workshop.cost, workshop.rows, workshop.limits, [1, 1]);
    for (const [i, row] of workshop.rows.entries())
      expect(row[0]! * z[0]! + row[1]! * z[1]!).toBeLessThanOrEqual(workshop.limits[i]!);
  });

  it('refuses a start that meets a row only just', () => {
    expect(() => solve(workshop.cost, workshop.rows, workshop.limits, [4, 1])).toThrow(/row 0 is not strictly met/);
  });
});
