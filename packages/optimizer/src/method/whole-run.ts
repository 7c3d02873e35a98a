import { type Problem, type Solution, solution } from '../problem.js';
import { type FminCorner, type FminRun, loadFmin } from './fmin.js';
import { type MinimiseOptions, minimise, type Outcome, outcomeOf, stoppingOf } from './minimise.js';
import { NelderMead, type NelderMeadOptions, type PresentRun } from './nelder-mead.js';
import { simplexPoint } from './simplex-step.js';

/** Thrown through fmin to leave its loop; carries nothing, so that it costs no stack trace. */
const leave = Symbol('leave');

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
    if (method.isOpen) method.handOver((run) => byFmin(fmin, run, evaluate));
    else method.tell(method.ask(stopping.left(method)).map((x) => solution(problem, x, problem.evaluate(x))));
    options.onBatch?.(method);
  }
}

/**
 * Carries out a run by fmin (its own shrink step throws in strict mode; `sigma: 1` makes it stop instead). fmin starts from a simplex of its own making:
 * it works in coordinates in which the present one is the unit one, best corner at 0; steps are the same in any (Lagarias et al. 1998).
 *
 * @param evaluate a point; `undefined` ends the run
 */
function byFmin(fmin: FminRun, run: PresentRun, evaluate: (x: Float64Array) => Solution | undefined) {
  const { simplex, coefficients, inside, learn, hasCollapsed } = run;
  let best = simplex[0]!;
  let calls = 0;
  const value = (weights: readonly number[]): number => {
    const known = simplex[calls++];
    if (known !== undefined) return known.value;
    const at = simplexPoint(simplex, weights);
    const found = evaluate(inside(at));
    if (found === undefined) throw leave;
    const corner = learn(at, found);
    if (corner.value < best.value) best = corner;
    return corner.value;
  };
  const history = {
    push: ({ simplex: now }: { readonly simplex: readonly FminCorner[] }) => {
      const corners = now.map((weights) => ({ at: simplexPoint(simplex, weights), value: weights.fx }));
      if (hasCollapsed(corners.sort((a, b) => a.value - b.value))) throw leave;
    },
  };
  const start = new Array<number>(simplex.length - 1).fill(0);
  const options = { maxIterations: Number.POSITIVE_INFINITY, minErrorDelta: Number.MIN_VALUE, zeroDelta: 1, sigma: 1 };
  try {
    fmin(value, start, { ...options, ...coefficients, history });
  } catch (reason) {
    if (reason !== leave) throw reason;
  }
  return best;
}
