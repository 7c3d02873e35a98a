import type { SolvedEdge } from '../stress/index.js';
import type { SplitCase } from './case-split.js';
import type { EdgeStrength } from './edge-strength.js';
import { clearFailure, createFailure } from './first-failure.js';
import type { FailurePlace } from './place-strengths.js';
import type { SectionStrength } from './section-strength.js';

/** A case whose load factor counts: as `weight` over it, plus `offset`. */
export interface InverseTerm {
  readonly case: number;
  /** Read at every `write`. */
  readonly weight: number;
  readonly offset: number;
  /** Of the edge alone, not of every place that can fail. */
  readonly edgeOnly?: boolean;
}

/**
 * Load factors of one solved outline, turned upside down: what a descent lowers to make the least of them large. One over a load factor is
 * a stress over a strength, smooth in the outline wherever it is looked at, and 0 or less where nothing fails.
 */
export interface InverseFactors {
  /** Length of what `write` writes, of an outline of which so many nodes are seen. */
  count(seen: number): number;
  /** Term by term: along the edge, then for every place that can fail, the edge among them. A term's largest is that of its first failure. */
  write(out: Float64Array, at: number): void;
}

/**
 * No cost is larger: a thousandth of the load, or of the strength without channel, is less than the model knows. Keeps costs finite where a joint
 * fails under its pre-stress.
 */
export const mostInverse = 1000;

/** One over a load factor, within 0 and `mostInverse`. */
export function inverseOf(factor: number): number {
  return factor <= 0 ? mostInverse : Math.min(mostInverse, 1 / factor);
}

/** `solved` is the outline that edge and section have taken, with the number of its nodes that are seen. */
export function createInverseFactors(
  terms: readonly InverseTerm[],
  splits: readonly SplitCase[],
  edge: EdgeStrength,
  section: SectionStrength,
  solved: { readonly edge: SolvedEdge | undefined; readonly seen: number },
): InverseFactors {
  const first = createFailure();
  const none: readonly FailurePlace[] = [];
  const placesOf = ({ edgeOnly = false }: InverseTerm) => (edgeOnly ? none : section.places);
  return {
    count: (seen) => terms.reduce((sum, term) => sum + edge.perNode * seen + 1 + placesOf(term).length, 0),
    write(out, at) {
      const { edge: outline, seen } = solved;
      let next = at;
      for (const term of terms) {
        const { case: c, weight, offset } = term;
        const { fixed, scaled, holds } = splits[c]!;
        edge.writeInverse(fixed, scaled, weight, out, next);
        for (const end = next + edge.perNode * seen; next < end; next++) out[next]! += offset;
        clearFailure(first);
        edge.judge(fixed, scaled, first, holds ? undefined : outline!.cases[c]);
        out[next++] = weight * inverseOf(first.factor) + offset;
        for (const place of placesOf(term)) {
          clearFailure(first);
          section.judge(fixed, scaled, first, place);
          out[next++] = weight * inverseOf(first.factor) + offset;
        }
      }
    },
  };
}
