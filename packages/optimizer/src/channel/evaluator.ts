import { type ChannelTask, createChannelScorer, isTaskLoaded, loadTask, scoreSize } from '@lumenfront/core';
import { pause } from '../pause.js';
import { createDescender } from './descent.js';
import { createRefiner, type RefineRequest, type RefineResult } from './refine.js';

/** What a descent is to do: the least cost at no less than `size` (may be 0), or the largest size at no more than `cost` (may be Infinity). */
export type DescentGoal = { readonly size: number } | { readonly cost: number };

/** A descent (see `Minimax`) from one outline of a family. Plain data. */
export interface DescentRequest {
  readonly x: Float64Array;
  readonly goal: DescentGoal;
  /** First radius of trust, as a share of each parameter's range. */
  readonly radius: number;
  /** Slopes to take at most. */
  readonly slopes: number;
  /** Gain of a set of slopes, as a share, that makes another worth its cost. */
  readonly gain: number;
  /** Outlines to evaluate at most. */
  readonly most: number;
}

/** An evaluated outline: parameters and score (see core's `scoreAt`). */
export interface ScoredOutline {
  readonly x: Float64Array;
  readonly score: Float64Array;
}

/** Where a descent came to. Plain data. */
export interface DescentResult {
  readonly x: Float64Array;
  /** Largest function and largest violation there. */
  readonly value: number;
  readonly violation: number;
  readonly stop: string;
  readonly evaluations: number;
  /** The admissible outlines on its way of which none beats another, and the one that came nearest to being admissible. */
  readonly passed: readonly ScoredOutline[];
}

/**
 * Who evaluates outlines of the families of one task: this thread, workers, another machine. Everything is answered in the order in
 * which it was asked; the result of a search does not depend on where.
 */
export interface ChannelEvaluator {
  readonly task: ChannelTask;
  /** Scores of parameter vectors of family number `family`. */
  score(family: number, vectors: readonly Float64Array[]): Promise<readonly ArrayLike<number>[]>;
  descend(family: number, requests: readonly DescentRequest[]): Promise<readonly DescentResult[]>;
  refine(requests: readonly RefineRequest[]): Promise<readonly RefineResult[]>;
}

/** Evaluates in this thread, which it leaves to others between two descents or batches of scores. */
export function createChannelEvaluator(task: ChannelTask): ChannelEvaluator {
  const make = () => {
    const scorer = createChannelScorer(task);
    return { scorer, descend: createDescender(scorer) };
  };
  /** At once, with what is wrong with a task, but where something must be loaded for it. */
  let made = isTaskLoaded(task) ? make() : undefined;
  const whenMade = async () => {
    if (made === undefined) await loadTask(task);
    made ??= make();
    return made;
  };
  /** Made when it is asked for: not every task has the slopes that it needs. */
  let refine: ReturnType<typeof createRefiner> | undefined;
  return {
    task,
    async score(family, vectors) {
      await pause();
      const { scorer } = await whenMade();
      return vectors.map((x) => {
        const score = new Float64Array(scoreSize);
        scorer.score(family, x, score);
        return score;
      });
    },
    async descend(family, requests) {
      const { descend } = await whenMade();
      return oneByOne(requests, (request) => descend(family, request));
    },
    async refine(requests) {
      await whenMade();
      refine ??= createRefiner(task);
      return oneByOne(requests, refine);
    },
  };
}

async function oneByOne<Request, Result>(
  requests: readonly Request[],
  answer: (request: Request) => Result,
): Promise<Result[]> {
  const results: Result[] = [];
  for (const request of requests) {
    await pause();
    results.push(answer(request));
  }
  return results;
}
