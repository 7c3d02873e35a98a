import { describe, expect, it } from 'vitest';
import { multiObjective } from '../../../../../benchmarks/problems/multi-objective.js';
import { hypervolume } from '../../front/index.js';
import { type Problem, type Solution, solution } from '../../problem.js';
import { randomFrom } from '../../random.js';
import { minimise, minimiseAsync } from '../minimise.js';
import { Genetic } from './genetic.js';

const problem = (name: string) => multiObjective.find((each) => each.name === name)!;
const solve = (of: Problem, batch: readonly Float64Array[]) => batch.map((x) => solution(of, x, of.evaluate(x)));
const objectives = (front: readonly Solution[]) => front.map((member) => Array.from(member.objectives));

describe('genetic algorithm', () => {
  // Hypervolumes of the true fronts: closed forms of ZDT2 and DTLZ2 (box less the part beyond the front), and BNH's front
  // sampled densely. What is asked for is 0.9 to 0.99 of what 100 points can hold.
  for (const [name, evaluations, whole, share] of [
    ['ZDT2', 15_000, 1.1 * 1.1 - 2 / 3, 0.985],
    ['BNH', 5000, 6415.086, 0.995],
    ['DTLZ2', 4000, 1.1 ** 3 - Math.PI / 6, 0.9],
  ] as const) {
    it(`comes near the whole front of ${name}`, () => {
      const of = problem(name);
      const { front, evaluations: used } = minimise(new Genetic(of, randomFrom(1)), of, evaluations);
      expect(used).toBe(evaluations);
      expect(front.every((member) => member.violation === 0)).toBe(true);
      expect(front.length).toBeLessThanOrEqual(100);
      const volume = hypervolume(objectives(front), of.reference);
      expect(volume / whole).toBeGreaterThan(share);
      expect(volume / whole).toBeLessThan(1);
    });
  }

  it('asks for no point twice, and for batches of one size', () => {
    const of = problem('SRN');
    const method = new Genetic(of, randomFrom(2), { batch: 32 });
    const seen = new Set<string>();
    for (let round = 0; round < 100; round++) {
      const batch = method.ask();
      expect(batch).toHaveLength(32);
      for (const x of batch) seen.add(x.join());
      method.tell(solve(of, batch));
    }
    expect(seen.size).toBe(3200);
  });

  it('ends where nothing is left to try', () => {
    const single: Problem = {
      bounds: { lower: [1, 2], upper: [1, 2] },
      objectives: 2,
      constraints: 0,
      evaluate: ([x, y]) => ({ objectives: [x!, y!] }),
    };
    const { stop, evaluations, front } = minimise(new Genetic(single, randomFrom(1)), single, 1000);
    expect({ stop, evaluations, members: front.length }).toEqual({
      stop: 'nothing new to try',
      evaluations: 1,
      members: 1,
    });
  });

  it('ends when the front stalls, and not before', () => {
    const of = problem('BNH');
    const stall = { window: 1000, tolerance: 1e-3 };
    const { stop, evaluations } = minimise(new Genetic(of, randomFrom(1), { stall }), of, 25_000);
    expect(stop).toBe('front stalled');
    expect(evaluations).toBeGreaterThan(1500);
    expect(evaluations).toBeLessThan(10_000);
  });

  it('begins with the points it was given, brought within the bounds', () => {
    const of = problem('ZDT1');
    const initial = [new Array<number>(30).fill(0.25), new Array<number>(30).fill(7)];
    const [first, second] = new Genetic(of, randomFrom(1), { initial }).ask();
    expect(Array.from(first!)).toEqual(initial[0]);
    expect(Array.from(second!)).toEqual(new Array(30).fill(1));
  });

  it('learns from points of others, once', () => {
    const of = problem('ZDT1');
    const best = Array.from({ length: 20 }, (_, i) => Float64Array.from({ length: 30 }, (_, k) => (k ? 0 : i / 19)));
    const method = new Genetic(of, randomFrom(1));
    method.tell(solve(of, method.ask()));
    method.tell(solve(of, best));
    method.tell(solve(of, best));
    expect(method.evaluations).toBe(70);
    expect(method.front()).toHaveLength(20);
    const helped = minimise(method, of, 1500);
    const alone = minimise(new Genetic(of, randomFrom(1)), of, 1500);
    const volume = (front: readonly Solution[]) => hypervolume(objectives(front), of.reference);
    expect(volume(helped.front)).toBeGreaterThan(0.85);
    expect(volume(alone.front)).toBeLessThan(0.7);
  });

  it('gives the same front however its batches are evaluated, and another one with another seed', async () => {
    const of = problem('TNK');
    const front = async (seed: number, workers: number) => {
      const evaluate = async (batch: readonly Float64Array[]) => {
        // Dealt out to workers that finish in another order.
        const results = new Array(batch.length);
        for (let worker = workers - 1; worker >= 0; worker--) {
          await Promise.resolve();
          for (let i = worker; i < batch.length; i += workers) results[i] = of.evaluate(batch[i]!);
        }
        return results;
      };
      return objectives((await minimiseAsync(new Genetic(of, randomFrom(seed)), of, evaluate, 1500)).front);
    };
    const one = await front(1, 1);
    expect(await front(1, 2)).toEqual(one);
    expect(await front(1, 4)).toEqual(one);
    expect(await front(2, 1)).not.toEqual(one);
  });

  it('counts failures, and finds the front beside them', () => {
    const of = problem('BNH');
    const holed: Problem = {
      ...of,
      evaluate: (x) => (x[0]! < 1 ? { objectives: [Number.NaN, 0], constraints: [0, 0] } : of.evaluate(x)),
    };
    const { front, failures } = minimise(new Genetic(holed, randomFrom(1)), holed, 3000);
    expect(failures).toBeGreaterThan(10);
    expect(front.length).toBe(100);
    expect(front.every((member) => member.x[0]! >= 1)).toBe(true);
  });

  it('keeps looking where every point fails', () => {
    const hopeless: Problem = {
      ...problem('BNH'),
      evaluate: () => ({ objectives: [Number.NaN, 0], constraints: [0, 0] }),
    };
    const found = minimise(new Genetic(hopeless, randomFrom(1)), hopeless, 500);
    expect(found).toMatchObject({ front: [], failures: 500, evaluations: 500, stop: 'budget spent' });
    expect(found.leastInfeasible!.violation).toBe(Number.POSITIVE_INFINITY);
  });

  it('says what came nearest where nothing is feasible', () => {
    const closed: Problem = {
      bounds: { lower: [-1, -1], upper: [1, 1] },
      objectives: 2,
      constraints: 1,
      evaluate: ([x, y]) => ({ objectives: [x!, y!], constraints: [0.5 + x! * x! + y! * y!] }),
    };
    const { front, leastInfeasible } = minimise(new Genetic(closed, randomFrom(1)), closed, 3000);
    expect(front).toEqual([]);
    expect(leastInfeasible!.violation).toBeCloseTo(0.5, 3);
  });

  it('refuses what it cannot search', () => {
    const open = { ...problem('BNH'), bounds: { lower: [0, 0], upper: [1, Number.POSITIVE_INFINITY] } };
    expect(() => new Genetic(open, randomFrom(1))).toThrow('expected finite ends, received 1, Infinity');
    expect(() => new Genetic(problem('BNH'), randomFrom(1), { batch: Number.NaN })).toThrow(
      'batch: expected at least 1',
    );
  });
});
