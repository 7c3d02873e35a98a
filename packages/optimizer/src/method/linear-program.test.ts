import { describe, expect, it } from 'vitest';
import { linearProgram } from './linear-program.js';

const solve = (
  cost: number[],
  rows: number[][],
  limits: number[],
  start: number[],
  lower = cost.map(() => Number.NEGATIVE_INFINITY),
  upper = cost.map(() => Number.POSITIVE_INFINITY),
) =>
  linearProgram(
    {
      cost: Float64Array.from(cost),
      rows: Float64Array.from(rows.flat()),
      limits: Float64Array.from(limits),
      lower: Float64Array.from(lower),
      upper: Float64Array.from(upper),
    },
    Float64Array.from(start),
  );

describe('linearProgram', () => {
  it('finds a vertex', () => {
    // Most of 3x + 5y with x <= 4, 2y <= 12, 3x + 2y <= 18 (Hillier & Lieberman, Introduction to Operations Research, ch. 3; from memory): (2, 6).
    const [x, y] = solve(
      [-3, -5],
      [
        [1, 0],
        [0, 2],
        [3, 2],
        [-1, 0],
        [0, -1],
      ],
      [4, 12, 18, 0, 0],
      [1, 1],
    );
    expect(x).toBeCloseTo(2, 4);
    expect(y).toBeCloseTo(6, 4);
  });

  it('bears rows that say the same twice, and rows that never matter', () => {
    const [x] = solve([-1], [[1], [1], [1], [-1]], [1, 1, 100, 5], [0]);
    expect(x).toBeCloseTo(1, 5);
  });

  it('stays inside all rows', () => {
    const rows = Array.from({ length: 40 }, (_, i) => [Math.cos(i * 0.16), Math.sin(i * 0.16)]);
    const [x, y] = solve(
      [-1, -0.3],
      rows,
      rows.map(() => 1),
      [0, 0],
    );
    for (const [a, b] of rows) expect(a! * x! + b! * y!).toBeLessThanOrEqual(1);
  });

  it('refuses a start on a row', () => {
    expect(() => solve([1], [[1]], [0], [0])).toThrow('row 0');
  });

  // The program of the first test.
  const workshop = {
    rows: [
      [1, 0],
      [0, 2],
      [3, 2],
      [-1, 0],
      [0, -1],
    ],
    limits: [4, 12, 18, 0, 0],
  };

  it('takes ends of variables as it takes rows that say the same', () => {
    const [x, y] = solve([-3, -5], [[3, 2]], [18], [1, 1], [0, 0], [4, 6]);
    expect(x).toBeCloseTo(2, 5);
    expect(y).toBeCloseTo(6, 5);
    expect(solve([1, 1], [], [], [1, 1], [-2, 0.5], [3, 3])[0]).toBeCloseTo(-2, 5);
    expect(() => solve([1], [[1]], [9], [0], [0], [1])).toThrow('an end of variable 0');
  });

  it('finds a degenerate vertex, where more rows meet than there are unknowns', () => {
    const [x, y] = solve([-3, -5], [...workshop.rows, [1, 1], [1, 3]], [...workshop.limits, 8, 20], [1, 1]);
    expect(x).toBeCloseTo(2, 5);
    expect(y).toBeCloseTo(6, 5);
  });

  it('finds the least cost where a whole edge has it', () => {
    const [x, y] = solve([-3, -2], workshop.rows, workshop.limits, [1, 1]);
    expect(3 * x! + 2 * y!).toBeCloseTo(18, 5);
  });

  it('comes from a start beside a row', () => {
    const [x, y] = solve([-3, -5], workshop.rows, workshop.limits, [3.999, 1e-6]);
    expect(x).toBeCloseTo(2, 5);
    expect(y).toBeCloseTo(6, 5);
  });

  it('fits a line in the largest deviation', () => {
    // Through (0, 0), (1, 1), (2, 0), (3, 3): equal deviations of alternating sign at 1, 2 and 3, worked by hand: 1.
    const points = [
      [0, 0],
      [1, 1],
      [2, 0],
      [3, 3],
    ] as const;
    const rows = points.flatMap(([x]) => [
      [-x, -1, -1],
      [x, 1, -1],
    ]);
    const limits = points.flatMap(([, y]) => [-y, y]);
    expect(solve([0, 0, 1], rows, limits, [0, 0, 10])[2]).toBeCloseTo(1, 5);
  });
});
