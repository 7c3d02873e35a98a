import type { Problem } from '../problem.js';
import { solution } from '../problem.js';
import { loadFmin } from './fmin.js';
import { type MinimiseOptions, minimise, type Outcome, outcomeOf, stoppingOf } from './minimise.js';
import { NelderMead, type NelderMeadOptions } from './nelder-mead.js';

/**
 * Minimises a problem with one objective from a start by whole runs of fmin's Nelder-Mead, with the bounds, penalty and restarts of
 * `NelderMead`. Where fmin cannot be loaded without harm (beside an AMD loader, with a frozen `globalThis`), `NelderMead` takes the
 * same steps by itself.
 *
 * @throws RangeError for a start or a space that does not fit
 */
export async function nelderMead(
  problem: Problem,
  start: ArrayLike<number>,
  options: NelderMeadOptions & MinimiseOptions,
): Promise<Outcome> {
  const method = new NelderMead(problem, start, options);
  const fmin = await loadFmin();
  if (fmin === undefined) return minimise(method, problem, options);
  const stopping = stoppingOf(options);
  let stop: string | undefined;
  const evaluate = (x: Float64Array) => {
    stop = stopping.reason(method);
    return stop === undefined ? solution(problem, x, problem.evaluate(x)) : undefined;
  };
  for (;;) {
    stop ??= stopping.reason(method);
    if (stop !== undefined) return outcomeOf(method, stop);
    if (method.isOpen) method.wholeRun(fmin, evaluate);
    else method.tell(method.ask(stopping.left(method)).map((x) => solution(problem, x, problem.evaluate(x))));
    options.onBatch?.(method);
  }
}
