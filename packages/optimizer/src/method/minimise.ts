import {
  type Evaluation,
  type Method,
  type Problem,
  type Progress,
  type Solution,
  type Space,
  solution,
} from '../problem.js';
import { type AbortFlag, aborted, evaluationBudget, type StoppingRule } from './stopping.js';

/** When a loop ends, and who is told. */
export interface MinimiseOptions {
  /** Evaluations at most; kept to exactly. */
  readonly evaluations: number;
  readonly signal?: AbortFlag;
  /** Further reasons to end. */
  readonly rules?: readonly StoppingRule[];
  /** Called after every batch. */
  readonly onBatch?: (progress: Progress) => void;
}

/** What a search found and why it ended. */
export interface Outcome {
  readonly front: readonly Solution[];
  /** Where the front is empty: what came nearest to being feasible. */
  readonly leastInfeasible: Solution | undefined;
  readonly stop: string;
  readonly evaluations: number;
  /** Evaluations with a value that is not finite. */
  readonly failures: number;
}

/**
 * Runs a method on a problem until the method, the budget or a rule ends it.
 *
 * `options` may be just the number of evaluations.
 */
export function minimise(method: Method, problem: Problem, options: number | MinimiseOptions): Outcome {
  const { onBatch, ...run } = prepared(options);
  for (;;) {
    const stop = run.reason(method);
    if (stop !== undefined) return outcomeOf(method, stop);
    const batch = method.ask(run.left(method));
    method.tell(batch.map((x) => solution(problem, x, problem.evaluate(x))));
    onBatch?.(method);
  }
}

/**
 * The same with batches evaluated elsewhere, in workers for instance. `evaluate` answers in the order of the batch; since a
 * batch is told as a whole, the result does not depend on who evaluated what, nor when.
 */
export async function minimiseAsync(
  method: Method,
  space: Space,
  evaluate: (batch: readonly Float64Array[]) => Promise<readonly Evaluation[]>,
  options: number | MinimiseOptions,
): Promise<Outcome> {
  const { onBatch, ...run } = prepared(options);
  for (;;) {
    const stop = run.reason(method);
    if (stop !== undefined) return outcomeOf(method, stop);
    const batch = method.ask(run.left(method));
    const evaluations = await evaluate(batch);
    if (evaluations.length !== batch.length) {
      throw new Error(`a batch of ${batch.length} points came back as ${evaluations.length} evaluations`);
    }
    method.tell(batch.map((x, i) => solution(space, x, evaluations[i]!)));
    onBatch?.(method);
  }
}

function prepared(options: number | MinimiseOptions) {
  const given: MinimiseOptions = typeof options === 'number' ? { evaluations: options } : options;
  return { onBatch: given.onBatch, ...stoppingOf(given) };
}

/** When to end: the first reason of the method, the rules, the budget and the signal. */
export function stoppingOf({ evaluations, signal, rules = [] }: MinimiseOptions) {
  const all = [...rules, evaluationBudget(evaluations), ...(signal ? [aborted(signal)] : [])];
  return {
    left: (progress: Progress) => evaluations - progress.evaluations,
    reason(method: Method): string | undefined {
      let first = method.stop;
      // Every rule looks every time, so that those that remember miss nothing.
      for (const rule of all) {
        const reason = rule.reason(method);
        first ??= reason;
      }
      return first;
    },
  };
}

/** What a method found, and why it ended. */
export function outcomeOf(method: Method, stop: string): Outcome {
  const { evaluations, failures, leastInfeasible } = method;
  return { front: method.front(), leastInfeasible, stop, evaluations, failures };
}
