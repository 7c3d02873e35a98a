import { describe, expect, it } from 'vitest';
import { randomFrom } from '../random.js';
import { type ProgramRows, quadraticProgram } from './quadratic-program.js';

/** `a z <= b` for each of some rows, the first of them equations. */
function rowsOf(
  rows: readonly { a: readonly number[]; b: number }[],
  equations = 0,
  likely: readonly number[] = [],
): ProgramRows {
  const over = (row: number, z: Float64Array) => rows[row]!.a.reduce((sum, a, k) => sum + a * z[k]!, -rows[row]!.b);
  return {
    equations,
    count: rows.length,
    likely,
    write(row, out) {
      out.set(rows[row]!.a);
      return rows[row]!.b;
    },
    mostPassed(z, held) {
      let worst = -1;
      let most = 1e-10;
      for (let row = equations; row < rows.length; row++)
        if (held[row] === 0 && over(row, z) > most) [worst, most] = [row, over(row, z)];
      return worst;
    },
  };
}

const positive = (n: number) =>
  Array.from({ length: n }, (_, k) => ({ a: Array.from({ length: n }, (_, l) => (l === k ? -1 : 0)), b: 0 }));

// Hock & Schittkowski, Test Examples for Nonlinear Programming Codes, Lecture Notes in Economics and Mathematical Systems 187 (1981).
describe('quadraticProgram on published programs', () => {
  it('21: an end of a variable holds', () => {
    const rows = [
      { a: [-10, 1], b: -10 },
      { a: [-1, 0], b: -2 },
      { a: [1, 0], b: 50 },
      { a: [0, -1], b: 50 },
      { a: [0, 1], b: 50 },
    ];
    const { z, solved, holding } = quadraticProgram(
      Float64Array.of(0.02, 0, 0, 2),
      Float64Array.of(0, 0),
      rowsOf(rows),
    );
    expect(solved).toBe(true);
    expect(holding).toEqual([1]);
    expect(z[0]).toBeCloseTo(2, 12);
    expect(z[1]).toBeCloseTo(0, 12);
  });

  it('35: Beale', () => {
    const hessian = Float64Array.of(4, 0, 0, 2, 4, 0, 2, 0, 2);
    const rows = [{ a: [1, 1, 2], b: 3 }, ...positive(3)];
    const { z } = quadraticProgram(hessian, Float64Array.of(-8, -6, -4), rowsOf(rows));
    [4 / 3, 7 / 9, 4 / 9].forEach((value, k) => {
      expect(z[k]).toBeCloseTo(value, 12);
    });
  });

  it('76: rows enter and leave again', () => {
    const hessian = Float64Array.of(2, 0, 0, 0, 0, 1, 0, 0, -1, 0, 2, 0, 0, 0, 1, 1);
    const rows = [
      { a: [1, 2, 1, 1], b: 5 },
      { a: [3, 1, 2, -1], b: 4 },
      { a: [0, -1, -4, 0], b: -1.5 },
      ...positive(4),
    ];
    const { z } = quadraticProgram(hessian, Float64Array.of(-1, -3, 1, -1), rowsOf(rows));
    [3 / 11, 23 / 11, 0, 6 / 11].forEach((value, k) => {
      expect(z[k]).toBeCloseTo(value, 12);
    });
  });
});

describe('quadraticProgram', () => {
  it('meets the conditions of Karush, Kuhn and Tucker, equations among them, in random programs', () => {
    const random = randomFrom(7);
    const draw = () => random.uniform() - 0.5;
    for (let trial = 0; trial < 40; trial++) {
      const n = 2 + (trial % 9);
      const root = Array.from({ length: n * n }, draw);
      const full = (k: number, l: number) => {
        let sum = k === l ? 0.01 : 0;
        for (let i = 0; i < n; i++) sum += root[i * n + k]! * root[i * n + l]!;
        return sum;
      };
      const hessian = Float64Array.from({ length: n * n }, (_, i) => full(Math.floor(i / n), i % n));
      const cost = Float64Array.from({ length: n }, draw);
      const equations = trial % 2;
      // All of them hold at one point, most with room: the program has a solution.
      const inside = Array.from({ length: n }, draw);
      const rows = Array.from({ length: 4 * n }, (_, row) => {
        const a = Array.from({ length: n }, draw);
        const at = a.reduce((sum, value, k) => sum + value * inside[k]!, 0);
        return { a, b: at + (row < equations ? 0 : 0.3 * random.uniform()) };
      });
      const { z, solved, holding, multipliers } = quadraticProgram(hessian.slice(), cost, rowsOf(rows, equations));
      expect(solved).toBe(true);
      const over = rows.map(({ a, b }) => a.reduce((sum, value, k) => sum + value * z[k]!, -b));
      expect(Math.max(...over)).toBeLessThan(1e-9);
      for (const row of holding) expect(Math.abs(over[row]!)).toBeLessThan(1e-9);
      holding.forEach((row, i) => {
        if (row >= equations) expect(multipliers[i]).toBeGreaterThanOrEqual(0);
      });
      for (let k = 0; k < n; k++) {
        let slope = cost[k]!;
        for (let l = 0; l < n; l++) slope += full(k, l) * z[l]!;
        holding.forEach((row, i) => {
          slope += multipliers[i]! * rows[row]!.a[k]!;
        });
        expect(Math.abs(slope)).toBeLessThan(1e-8);
      }
    }
  });

  it('finds the same from rows that are likely to hold, whether they do or not', () => {
    const random = randomFrom(8);
    const draw = () => random.uniform() - 0.5;
    for (let trial = 0; trial < 40; trial++) {
      const n = 3 + (trial % 7);
      const equations = trial % 3;
      const hessian = Float64Array.from({ length: n * n }, (_, i) =>
        Math.floor(i / n) === i % n ? 1 + random.uniform() : 0,
      );
      const cost = Float64Array.from({ length: n }, draw);
      const rows = Array.from({ length: 4 * n }, (_, row) => ({
        a: Array.from({ length: n }, draw),
        b: row < equations ? 0 : 0.1 * random.uniform(),
      }));
      const plain = quadraticProgram(hessian.slice(), cost, rowsOf(rows, equations));
      const inequalities = rows.map((_, row) => row).filter((row) => row >= equations);
      for (const likely of [
        plain.holding.filter((row) => row >= equations),
        inequalities.filter((row) => row % 3 === trial % 2),
        inequalities,
      ]) {
        const found = quadraticProgram(hessian.slice(), cost, rowsOf(rows, equations, likely));
        expect(found.solved).toBe(true);
        expect([...found.holding].sort((a, b) => a - b)).toEqual([...plain.holding].sort((a, b) => a - b));
        for (let k = 0; k < n; k++) expect(found.z[k]).toBeCloseTo(plain.z[k]!, 10);
        found.holding.forEach((row, i) => {
          expect(found.multipliers[i]).toBeCloseTo(plain.multipliers[plain.holding.indexOf(row)]!, 8);
        });
      }
    }
  });

  it('says so where rows contradict each other, and where it is not strictly convex', () => {
    const apart = rowsOf([
      { a: [1], b: -1 },
      { a: [-1], b: -1 },
    ]);
    expect(quadraticProgram(Float64Array.of(1), Float64Array.of(0), apart).solved).toBe(false);
    expect(quadraticProgram(Float64Array.of(0), Float64Array.of(1), rowsOf(positive(1))).solved).toBe(false);
  });
});
