import { nelderMead } from './fmin.js';

/** One corner of the simplex and its value. */
export interface Vertex {
  readonly at: Float64Array;
  readonly value: number;
}

/** Reflection, expansion, contraction, in fmin's signs. */
export interface Coefficients {
  readonly rho: number;
  readonly chi: number;
  readonly psi: number;
}

/**
 * What one iteration comes to: a point whose value it needs, the vertex that takes the place of the worst one, or that
 * neither reflection nor contraction helps and the simplex would have to shrink.
 */
export type Step<V extends Vertex> =
  | { readonly kind: 'try'; readonly at: Float64Array }
  | { readonly kind: 'replace'; readonly vertex: V }
  | { readonly kind: 'shrink' };

/** Thrown through fmin to leave its loop; carries nothing, so that it costs no stack trace. */
const leave = Symbol('leave');

/**
 * One iteration of fmin's Nelder-Mead on a simplex sorted by value, best first.
 *
 * fmin runs its loop itself and starts from a simplex of its own making. But its step is linear in the vertices, and so the
 * same in any coordinates: here it works in those in which the simplex is the unit one, best vertex at 0 (Lagarias, Reeds,
 * Wright & Wright, SIAM J. Optim. 9 (1998) 112-147: iterates are invariant under affine maps). Values already known (those of
 * the vertices and of this iteration's earlier `trials`, in their order) are played back to it; where it asks for another
 * one, the iteration is left, to be played again once the value is known.
 *
 * fmin's own shrink step throws in strict mode; `sigma: 1` makes it stop instead.
 */
export function fminStep<V extends Vertex>(
  simplex: readonly V[],
  trials: readonly V[],
  coefficients: Coefficients,
): Step<V> {
  const size = simplex.length - 1;
  const origin = simplex[0]!.at;

  function place(weights: readonly number[]): Float64Array {
    const at = Float64Array.from(origin);
    for (let vertex = 1; vertex <= size; vertex++) {
      const corner = simplex[vertex]!.at;
      const weight = weights[vertex - 1]!;
      for (let i = 0; i < size; i++) at[i]! += weight * (corner[i]! - origin[i]!);
    }
    return at;
  }

  let step: Step<V> = { kind: 'shrink' };
  let calls = 0;
  let iterations = 0;
  const value = (weights: readonly number[]): number => {
    const call = calls++;
    const known = call <= size ? simplex[call] : trials[call - size - 1];
    if (known !== undefined) return known.value;
    step = { kind: 'try', at: place(weights) };
    throw leave;
  };
  const history = {
    push(iteration: { readonly simplex: ReadonlyArray<readonly number[] & { readonly fx: number }> }) {
      if (iterations++ === 0) return;
      const replaced = iteration.simplex[size]!;
      // The trial itself, not its image: played back, a trial must be the very point that was evaluated.
      const vertex = trials.find((trial) => trial.value === replaced.fx)!;
      step = { kind: 'replace', vertex };
      throw leave;
    },
  };

  try {
    const start = new Array<number>(size).fill(0);
    nelderMead(value, start, { maxIterations: 2, zeroDelta: 1, sigma: 1, ...coefficients, history });
  } catch (reason) {
    if (reason !== leave) throw reason;
  }
  return step;
}
