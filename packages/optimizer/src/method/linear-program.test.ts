import { describe, expect, it } from 'vitest';
import { linearProgram } from './linear-program.js';

const solve = (cost: number[], rows: number[][], limits: number[], start: number[]) =>
  linearProgram(
    Float64Array.from(cost),
    Float64Array.from(rows.flat()),
    Float64Array.from(limits),
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
});
