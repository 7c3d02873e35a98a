import { describe, expect, it } from 'vitest';
import { hypervolume } from '../front/index.js';
import { type Problem, type Solution, solution } from '../problem.js';
import { randomFrom } from '../random.js';
import { Genetic } from './genetic/genetic.js';
import { type Goal, towards } from './goal.js';
import { minimise } from './minimise.js';
import { Polish, type PolishOptions, type PolishStart } from './polish.js';

/** Distances from two points, stretched, outside a ball around a third: a curved front with an active constraint. */
const problem: Problem = {
  bounds: { lower: new Array(6).fill(-2), upper: new Array(6).fill(2) },
  objectives: 2,
  constraints: 1,
  evaluate(x) {
    const distance = (to: number) => x.reduce((sum, value, i) => sum + (i + 1) * (value - to) ** 2, 0);
    return {
      objectives: [distance(0), distance(1)],
      constraints: [0.5 - x.reduce((sum, v) => sum + (v - 0.5) ** 2, 0)],
    };
  },
};
const reference = [25, 25];
const options: PolishOptions = { evaluations: 150, archive: { size: 100, reference }, steps: new Array(6).fill(0.1) };
const volume = (front: readonly Solution[]) =>
  hypervolume(
    front.map((member) => member.objectives),
    reference,
  );

function starts(): PolishStart[] {
  const { front } = minimise(new Genetic(problem, randomFrom(1), { reference }), problem, 1500);
  return front
    .filter((_, i) => i % 10 === 0)
    .map((from) => ({ from, goal: { objective: 0, limits: Array.from(from.objectives) } }));
}

describe('goals', () => {
  it('turn other objectives into normalised limits', () => {
    const found = solution(problem, new Float64Array(6), { objectives: [3, 5], constraints: [-1] });
    const goal: Goal = { objective: 1, limits: [2, 0] };
    expect(Array.from(towards(goal, problem, found).objectives)).toEqual([5]);
    expect(Array.from(towards(goal, problem, found).constraints)).toEqual([-1, 0.5]);
    const zero: Goal = { objective: 1, limits: [0, 0] };
    expect(towards(zero, problem, found).violation).toBe(3);
  });

  it('do not make a failure look well', () => {
    const found = solution(problem, new Float64Array(6), { objectives: [Number.NaN, 5], constraints: [-1] });
    const goal: Goal = { objective: 1, limits: [2, 0] };
    expect(towards(goal, problem, found).violation).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('polish', () => {
  it('improves every start towards its goal, all of them in one batch', () => {
    const from = starts();
    const method = new Polish(problem, from, options);
    const sizes: number[] = [];
    const found = minimise(method, problem, {
      evaluations: 1e5,
      onBatch: () => void sizes.push(method.ask().length),
    });
    expect(found.stop).toBe('polished');
    expect(found.evaluations).toBeLessThanOrEqual(from.length * options.evaluations);
    expect(Math.max(...sizes)).toBe(from.length);
    for (const start of from) {
      const before = towards(start.goal, problem, start.from).objectives[0]!;
      const after = found.front.map((member) => towards(start.goal, problem, member));
      const best = Math.min(...after.filter((each) => each.violation === 0).map((each) => each.objectives[0]!));
      expect(best).toBeLessThanOrEqual(before);
    }
    expect(volume(found.front)).toBeGreaterThan(1.0005 * volume(from.map((start) => start.from)));
  });

  it('keeps to a budget that is smaller than a batch', () => {
    const found = minimise(new Polish(problem, starts(), options), problem, 5);
    expect(found).toMatchObject({ evaluations: 5, stop: 'budget spent' });
  });

  it('counts failures, and tells the least infeasible point where nothing is feasible', () => {
    const far: Problem = { ...problem, evaluate: () => ({ objectives: [1, 1], constraints: [0.5] }) };
    const from = solution(far, new Float64Array(6), { objectives: [1, 1], constraints: [0.75] });
    const method = new Polish(far, [{ from, goal: { objective: 0, limits: [1, 1] } }], { ...options, penalty: 3 });
    expect(method.leastInfeasible).toBe(from);
    const [first, second] = method
      .ask()
      .map((x, i) => solution(far, x, i === 0 ? far.evaluate(x) : { objectives: [Number.NaN, 1], constraints: [0] }));
    method.tell([first!, second!]);
    expect([method.evaluations, method.failures]).toEqual([2, 1]);
    expect(method.leastInfeasible).toBe(first);
    expect(method.front()).toEqual([]);
  });

  it('refuses a budget that lets no search take a step', () => {
    expect(() => new Polish(problem, [], { ...options, evaluations: 0 })).toThrow('received 0');
    const none = new Polish(problem, [], options);
    expect([none.stop, none.leastInfeasible]).toEqual(['polished', undefined]);
  });
});
