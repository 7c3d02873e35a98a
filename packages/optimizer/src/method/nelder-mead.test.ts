import { describe, expect, it } from 'vitest';
import { moreGarbowHillstrom } from '../../../../benchmarks/problems/more-garbow-hillstrom.js';
import { type Evaluation, type Problem, type Solution, solution } from '../problem.js';
import { boundedMap } from './bounded-map.js';
import { minimise } from './minimise.js';
import { NelderMead } from './nelder-mead.js';
import { regularSimplex } from './regular-simplex.js';
import { simplexStep } from './simplex-step.js';
import { nelderMead } from './whole-run.js';

const { POSITIVE_INFINITY: infinity, NEGATIVE_INFINITY: minusInfinity } = Number;

function free(n: number, value: (x: Float64Array) => number): Problem {
  const bounds = { lower: new Array<number>(n).fill(minusInfinity), upper: new Array<number>(n).fill(infinity) };
  return { bounds, objectives: 1, constraints: 0, evaluate: (x) => ({ objectives: [value(x)] }) };
}

function boxed(
  lower: number[],
  upper: number[],
  constraints: number,
  evaluate: (x: Float64Array) => Evaluation,
): Problem {
  return { bounds: { lower, upper }, objectives: 1, constraints, evaluate };
}

const rosenbrock = (x: ArrayLike<number>) => 100 * (x[1]! - x[0]! ** 2) ** 2 + (1 - x[0]!) ** 2;

describe('simplexStep', () => {
  it('says shrink where neither reflection nor contraction helps, and does not throw', () => {
    const at = (x: number, y: number, value: number) => ({ at: Float64Array.of(x, y), value });
    const simplex = [at(0, 0, 1), at(1, 0, 2), at(0, 1, 3)];
    const coefficients = { rho: 1, chi: 2, psi: -0.5 };
    const trials = [at(1, -1, 9), at(0.25, 0.5, 9)];
    expect(simplexStep(simplex, trials, coefficients)).toEqual({ kind: 'shrink' });
    expect(simplexStep(simplex, trials.slice(0, 1), coefficients)).toEqual({ kind: 'try', at: trials[1]!.at });
  });
});

describe('regular simplex', () => {
  it('has edges of one length', () => {
    for (const n of [1, 2, 7]) {
      const corners = [new Float64Array(n), ...regularSimplex(new Float64Array(n), new Array(n).fill(1))];
      corners.forEach((a, i) => {
        for (const b of corners.slice(i + 1)) {
          expect(Math.hypot(...a.map((value, k) => value - b[k]!))).toBeCloseTo(1, 14);
        }
      });
    }
  });
});

describe('bounded map', () => {
  const map = boundedMap({ lower: [-2, 1, minusInfinity, minusInfinity, 5], upper: [3, infinity, 4, infinity, 5] });

  it('stays inside for any free point, and reaches every point inside', () => {
    for (const size of [0, 1, 30, 1e9]) {
      for (const sign of [-1, 1]) {
        const x = map.inside(new Array<number>(5).fill(sign * size));
        expect(x[0]).toBeGreaterThanOrEqual(-2);
        expect(x[0]).toBeLessThanOrEqual(3);
        expect(x[1]).toBeGreaterThanOrEqual(1);
        expect(x[2]).toBeLessThanOrEqual(4);
        expect(x[4]).toBe(5);
      }
    }
    for (const x of [
      [-2, 1, 4, 7, 5],
      [3, 8, -6, -7, 5],
      [0.3, 1.5, 3.5, 0, 5],
    ]) {
      map.inside(map.free(x)).forEach((value, i) => {
        expect(value).toBeCloseTo(x[i]!, 12);
      });
    }
  });

  it('takes what lies outside to the bound', () => {
    expect(Array.from(map.inside(map.free([-9, -9, 9, 0, 9])))).toEqual([-2, 1, 4, 0, 5]);
  });
});

describe('Nelder-Mead', () => {
  it('finds by its own steps what whole runs of fmin find, evaluation by evaluation', async () => {
    for (const { start, value } of moreGarbowHillstrom.slice(0, 8)) {
      const told: number[][] = [[], []];
      const problems = told.map((values) =>
        free(start.length, (x) => {
          values.push(value(x));
          return values.at(-1)!;
        }),
      );
      const stepped = minimise(new NelderMead(problems[0]!, start), problems[0]!, 400);
      const whole = await nelderMead(problems[1]!, start, { evaluations: 400 });
      expect(whole.evaluations).toBe(stepped.evaluations);
      expect(whole.stop).toBe(stepped.stop);
      // Rounding of sums in another order, in the first steps of which nothing has grown yet.
      for (let i = 0; i < 30; i++) expect(told[1]![i]! / told[0]![i]! - 1 || 0).toBeCloseTo(0, 9);
    }
  });

  it('solves all 22 problems of More, Garbow & Hillstrom within 5000 evaluations', async () => {
    for (const { name, start, least, value } of moreGarbowHillstrom) {
      // Ended at the least value known, so that the test is quick.
      const target = least + 1e-8 * Math.max(1, Math.abs(least));
      const rules = [{ reason: reached(target) }];
      const found = await nelderMead(free(start.length, value), start, { evaluations: 5000, rules });
      expect(`${name}: ${found.stop}`).toBe(`${name}: target`);
    }
  });

  it('does not care about the units of the variables', async () => {
    const stretch = [1e6, 1e-6];
    const scaled = free(2, (y) => rosenbrock([y[0]! / 1e6, y[1]! / 1e-6]));
    const plain = await nelderMead(free(2, rosenbrock), [-1.2, 1], { evaluations: 150, steps: [1, 1] });
    const other = await nelderMead(scaled, [-1.2e6, 1e-6], { evaluations: 150, steps: stretch });
    expect(other.front[0]!.objectives[0]).toBeLessThan(1e-5);
    expect(plain.front[0]!.objectives[0]).toBeLessThan(1e-5);
  });

  it('finds a least value on the bounds, and never leaves them', async () => {
    // Least of Rosenbrock's function for x <= 1/2 is 1/4 at (1/2, 1/4).
    const problem = boxed([-2, -2], [0.5, 2], 0, (x) => {
      expect(x[0]! >= -2 && x[0]! <= 0.5 && x[1]! >= -2 && x[1]! <= 2).toBe(true);
      return { objectives: [rosenbrock(x)] };
    });
    const { front } = await nelderMead(problem, [-1.2, 1], { evaluations: 600 });
    expect(front[0]!.objectives[0]).toBeCloseTo(0.25, 8);
    expect(front[0]!.x[0]).toBeCloseTo(0.5, 6);
  });

  it('ends feasible beside active constraints', async () => {
    // Rosen & Suzuki: Hock & Schittkowski, Test Examples for Nonlinear Programming Codes (1981), no. 43: -44 at (0, 1, 2, -1).
    const rosenSuzuki = boxed([-5, -5, -5, -5], [5, 5, 5, 5], 3, ([a, b, c, d]) => {
      const [p, q, r, s] = [a!, b!, c!, d!];
      return {
        objectives: [p * p + q * q + 2 * r * r + s * s - 5 * p - 5 * q - 21 * r + 7 * s],
        constraints: [
          (p * p + q * q + r * r + s * s + p - q + r - s - 8) / 8,
          (p * p + 2 * q * q + r * r + 2 * s * s - p - s - 10) / 10,
          (2 * p * p + q * q + r * r + 2 * p - q - s - 5) / 5,
        ],
      };
    });
    const { front } = await nelderMead(rosenSuzuki, [0, 0, 0, 0], { evaluations: 5000 });
    expect(front[0]!.violation).toBe(0);
    expect(front[0]!.objectives[0]).toBeLessThan(-43.99);
    expect(front[0]!.objectives[0]).toBeGreaterThanOrEqual(-44);
  });

  it('raises a penalty that is too small', async () => {
    const problem = boxed([-3, -3], [3, 3], 1, ([x, y]) => ({
      objectives: [x! + y!],
      constraints: [x! * x! + y! * y! - 2],
    }));
    const { front } = await nelderMead(problem, [0, 0], { evaluations: 3000, penalty: 1e-6 });
    expect(front[0]!.objectives[0]).toBeCloseTo(-2, 4);
  });

  it('returns the least infeasible point and says how far off it is where nothing is feasible', async () => {
    const problem = boxed([0], [4], 1, (x) => ({ objectives: [x[0]!], constraints: [1 + (x[0]! - 3) ** 2] }));
    const found = await nelderMead(problem, [0.5], { evaluations: 2000 });
    expect(found.front).toEqual([]);
    expect(found.leastInfeasible!.violation).toBeCloseTo(1, 6);
    expect(found.stop).toBe('simplex collapsed');
  });

  it('survives values that are not finite, and counts them', async () => {
    const problem = free(2, ([x, y]) => (x! < 0 ? Number.NaN : x! > 3 ? minusInfinity : (x! - 1) ** 2 + y! ** 2));
    const found = await nelderMead(problem, [2.5, 1], { evaluations: 600 });
    expect(found.front[0]!.objectives[0]).toBeLessThan(1e-10);
    expect(found.failures).toBeGreaterThan(0);
    const hopeless = await nelderMead(
      free(2, () => Number.NaN),
      [0, 0],
      { evaluations: 50 },
    );
    expect(hopeless.front).toEqual([]);
    expect(hopeless.failures).toBe(hopeless.evaluations);
  });

  it('does not ask again for the start when told its value', () => {
    const problem = free(2, rosenbrock);
    const method = new NelderMead(problem, [-1.2, 1]);
    method.tell([solution(problem, Float64Array.of(-1.2, 1), { objectives: [24.2] })]);
    expect(method.ask()).toHaveLength(2);
    const rest = minimise(method, problem, 250);
    expect(rest.front[0]!.objectives[0]).toBeLessThan(1e-10);
    expect(rest.evaluations).toBe(250);
  });

  it('keeps what it is told without having asked, and goes its own way', () => {
    const problem = free(2, rosenbrock);
    const told = new NelderMead(problem, [-1.2, 1]);
    const asked = told.ask();
    told.tell([solution(problem, Float64Array.of(1, 1), { objectives: [0] })]);
    expect(told.ask()).toEqual(asked);
    expect(told.evaluations).toBe(1);
    expect(told.front()[0]!.objectives[0]).toBe(0);
  });

  it('passes on what a problem throws, in a whole run too', async () => {
    let evaluations = 0;
    const problem = free(2, (x) => {
      if (++evaluations > 20) throw new TypeError('of the problem');
      return rosenbrock(x);
    });
    await expect(nelderMead(problem, [-1.2, 1], { evaluations: 100 })).rejects.toThrow('of the problem');
  });

  it('refuses what it cannot start from', () => {
    expect(() => new NelderMead(free(2, rosenbrock), [1])).toThrow('expected 2 variables, received 1');
    expect(() => new NelderMead(free(1, rosenbrock), [Number.NaN])).toThrow('received NaN');
    expect(() => new NelderMead({ ...free(1, rosenbrock), objectives: 2 }, [0])).toThrow('received 2');
  });
});

function reached(target: number) {
  return (progress: { front(): readonly Solution[] }) =>
    progress.front().some((member) => member.objectives[0]! <= target) ? 'target' : undefined;
}
