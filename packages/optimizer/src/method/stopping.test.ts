import { describe, expect, it } from 'vitest';
import { type Method, type Problem, type Progress, type Solution, solution } from '../problem.js';
import { minimise, minimiseAsync } from './minimise.js';
import { aborted, evaluationBudget, frontStalled, targetReached } from './stopping.js';

const problem: Problem = {
  bounds: { lower: [0], upper: [1] },
  objectives: 2,
  constraints: 0,
  evaluate: ([x]) => ({ objectives: [x!, 1 - x!] }),
};

const at = (...objectives: number[]): Solution => solution(problem, new Float64Array(1), { objectives });

function progress(evaluations: number, ...front: Solution[]): Progress {
  return { evaluations, failures: 0, front: () => front, leastInfeasible: undefined };
}

/** Asks for 10 points a time, for ever. */
function walk(): Method {
  const told: Solution[] = [];
  return {
    ask: (most = 10) => Array.from({ length: Math.min(10, most) }, (_, i) => Float64Array.of(((7 * i) % 10) / 10)),
    tell: (solutions) => void told.push(...solutions),
    stop: undefined,
    get evaluations() {
      return told.length;
    },
    failures: 0,
    front: () => told.slice(0, 3),
    leastInfeasible: undefined,
  };
}

describe('stopping rules', () => {
  it('end at the budget', () => {
    expect(evaluationBudget(10).reason(progress(9))).toBeUndefined();
    expect(evaluationBudget(10).reason(progress(10))).toBe('budget spent');
    expect(() => evaluationBudget(Number.NaN)).toThrow('received NaN');
  });

  it('end when one solution reaches the target in every objective', () => {
    const rule = targetReached([1, 2]);
    expect(rule.reason(progress(1, at(0, 3), at(2, 0)))).toBeUndefined();
    expect(rule.reason(progress(1, at(0, 3), at(1, 2)))).toBe('target reached');
  });

  it('end when the caller has called it off', () => {
    const controller = new AbortController();
    expect(aborted(controller.signal).reason(progress(1))).toBeUndefined();
    controller.abort();
    expect(aborted(controller.signal).reason(progress(1))).toBe('aborted');
  });

  it('end when the front gains less than the tolerance over a window, whatever the units', () => {
    for (const [scale, shift] of [
      [1, 0],
      [1e6, -3e7],
    ] as const) {
      const point = (x: number, y: number) => at(x * scale + shift, y / scale - shift);
      const ends = [point(0, 1), point(1, 0)];
      const rule = frontStalled({ window: 100, tolerance: 0.01 });
      expect(rule.reason(progress(100, ...ends))).toBeUndefined();
      expect(rule.reason(progress(150, ...ends))).toBeUndefined();
      expect(rule.reason(progress(200, ...ends, point(0.5, 0.5)))).toBeUndefined();
      expect(rule.reason(progress(320, ...ends, point(0.499, 0.5)))).toBe('front stalled');
    }
  });

  it('do not take the want of a front for a stall', () => {
    const rule = frontStalled({ window: 10, tolerance: 0.01 });
    for (const evaluations of [10, 20, 30]) expect(rule.reason(progress(evaluations))).toBeUndefined();
    expect(rule.reason(progress(40, at(1, 1)))).toBeUndefined();
    expect(rule.reason(progress(50, at(1, 1)))).toBe('front stalled');
    expect(() => frontStalled({ window: 0, tolerance: 1 })).toThrow('received 0');
  });
});

describe('minimise', () => {
  it('keeps to the budget exactly and says why it ended', () => {
    const { stop, evaluations, front } = minimise(walk(), problem, 25);
    expect({ stop, evaluations, members: front.length }).toEqual({ stop: 'budget spent', evaluations: 25, members: 3 });
  });

  it('ends by a rule, and tells of every batch', () => {
    const seen: number[] = [];
    const onBatch = (now: Progress) => void seen.push(now.evaluations);
    const rules = [targetReached([1, 1])];
    expect(minimise(walk(), problem, { evaluations: 100, rules, onBatch }).stop).toBe('target reached');
    expect(seen).toEqual([10]);
  });

  it('gives the same when batches are evaluated elsewhere, in any order', async () => {
    const backwards = async (batch: readonly Float64Array[]) => {
      const results = [...batch].reverse().map((x) => problem.evaluate(x));
      return results.reverse();
    };
    expect(await minimiseAsync(walk(), problem, backwards, 25)).toEqual(minimise(walk(), problem, 25));
  });

  it('ends where it is when called off, and refuses a batch that came back short', async () => {
    const controller = new AbortController();
    const { signal } = controller;
    const evaluate = async (batch: readonly Float64Array[]) => {
      controller.abort();
      return batch.map((x) => problem.evaluate(x));
    };
    const { stop, evaluations } = await minimiseAsync(walk(), problem, evaluate, { evaluations: 100, signal });
    expect({ stop, evaluations }).toEqual({ stop: 'aborted', evaluations: 10 });
    await expect(minimiseAsync(walk(), problem, async () => [], 100)).rejects.toThrow('10 points came back as 0');
  });
});
