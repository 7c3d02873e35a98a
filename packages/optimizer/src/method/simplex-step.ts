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

/** The coefficients of Gao & Han (Comput. Optim. Appl. 51 (2012) 259-277, eq. 4.1) for five variables and more, the usual ones below. */
export function simplexCoefficients(size: number): Coefficients {
  return size < 5 ? { rho: 1, chi: 2, psi: -0.5 } : { rho: 1, chi: 1 + 2 / size, psi: -(0.75 - 1 / (2 * size)) };
}

/** The point at `weights` of the other vertices as seen from the first. */
export function simplexPoint(simplex: readonly Vertex[], weights: readonly number[]): Float64Array {
  const size = simplex.length - 1;
  const origin = simplex[0]!.at;
  const at = Float64Array.from(origin);
  for (let vertex = 1; vertex <= size; vertex++) {
    const corner = simplex[vertex]!.at;
    const weight = weights[vertex - 1]!;
    for (let i = 0; i < size; i++) at[i]! += weight * (corner[i]! - origin[i]!);
  }
  return at;
}

/**
 * One iteration of Nelder & Mead's search (Comput. J. 7 (1965) 308-313, in the order of Lagarias, Reeds, Wright & Wright, SIAM J. Optim. 9
 * (1998) 112-147) on a simplex sorted by value, best first, given the `trials` of this iteration that are known already, in their order.
 */
export function simplexStep<V extends Vertex>(
  simplex: readonly V[],
  trials: readonly V[],
  { rho, chi, psi }: Coefficients,
): Step<V> {
  const size = simplex.length - 1;
  const worst = simplex[size]!;
  /** `by` times the centroid of all but the worst, and `worstBy` times the worst, in weights of the vertices. */
  const towards = (by: number, worstBy: number): Step<V> => {
    const weights = new Array<number>(size).fill(by * (1 / size));
    weights[size - 1] = worstBy;
    return { kind: 'try', at: simplexPoint(simplex, weights) };
  };
  const replace = (vertex: V): Step<V> => ({ kind: 'replace', vertex });

  const [reflected, second] = trials;
  if (reflected === undefined) return towards(1 + rho, -rho);
  if (reflected.value < simplex[0]!.value) {
    if (second === undefined) return towards(1 + chi, -chi);
    return replace(second.value < reflected.value ? second : reflected);
  }
  if (reflected.value < simplex[size - 1]!.value) return replace(reflected);
  const inside = reflected.value > worst.value;
  if (second === undefined) return inside ? towards(1 + psi, -psi) : towards(1 - psi * rho, psi * rho);
  return second.value < (inside ? worst : reflected).value ? replace(second) : { kind: 'shrink' };
}
