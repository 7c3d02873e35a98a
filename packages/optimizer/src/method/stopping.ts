import { hypervolume, referenceFor } from '../front/index.js';
import type { Progress } from '../problem.js';

/** Looks at a search between batches; says why it should end, or nothing. */
export interface StoppingRule {
  reason(progress: Progress): string | undefined;
}

/** Ends a search after so many evaluations. */
export function evaluationBudget(evaluations: number): StoppingRule {
  if (!(evaluations >= 0)) throw new RangeError(`budget: expected a number of evaluations, received ${evaluations}`);
  return { reason: (progress) => (progress.evaluations >= evaluations ? 'budget spent' : undefined) };
}

/** Ends a search once a feasible solution is at least as good as `objectives` in every one of them. */
export function targetReached(objectives: ArrayLike<number>): StoppingRule {
  return {
    reason(progress) {
      const reached = progress.front().some((member) => member.objectives.every((value, i) => value <= objectives[i]!));
      return reached ? 'target reached' : undefined;
    },
  };
}

/** What is needed of an `AbortSignal`, so that environments without one can call off a search too. */
export interface AbortFlag {
  readonly aborted: boolean;
}

/** Ends a search when the caller has called it off. */
export function aborted(signal: AbortFlag): StoppingRule {
  return { reason: () => (signal.aborted ? 'aborted' : undefined) };
}

/** When a front counts as stalled. */
export interface StallOptions {
  /** Evaluations between two looks. */
  readonly window: number;
  /** Least gain in hypervolume over a window, as a share of the whole. */
  readonly tolerance: number;
}

/**
 * Ends a search whose front no longer gains hypervolume. Both looks at a front are measured against one reference point that
 * follows from both, so that the objectives' units and origin do not matter.
 */
export function frontStalled({ window, tolerance }: StallOptions): StoppingRule {
  if (!(window > 0)) throw new RangeError(`stall window: expected a number of evaluations, received ${window}`);
  let last = 0;
  let before: readonly (readonly number[])[] = [];
  return {
    reason(progress) {
      if (progress.evaluations < last + window) return undefined;
      const now = progress.front().map((member) => Array.from(member.objectives));
      const stalled = before.length > 0 && gain(before, now) < tolerance;
      last = progress.evaluations;
      before = now;
      return stalled ? 'front stalled' : undefined;
    },
  };
}

function gain(before: readonly (readonly number[])[], now: readonly (readonly number[])[]): number {
  const reference = referenceFor([...before, ...now]);
  const volume = hypervolume(now, reference);
  return (volume - hypervolume(before, reference)) / volume;
}
