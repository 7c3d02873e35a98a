/**
 * What of an edge is solved for; the rest follows from the mirror symmetry of all edges in `x = 0`:
 *
 * - `whole`: all of it; there is no symmetry.
 * - `half`: the right half of an edge that is its own mirror image; symmetric fields.
 * - `pair`: the right one of two edges that are mirror images of each other; symmetric fields.
 * - `odd-half`, `odd-pair`: the same for antisymmetric fields.
 *
 * Edges that are solved together have one kind of fields.
 */
export type EdgeFold = 'whole' | 'half' | 'pair' | 'odd-half' | 'odd-pair';

/** Whether an edge is its own mirror image. */
export const isHalf = (fold: EdgeFold): boolean => fold === 'half' || fold === 'odd-half';

/** Nodes that are solved for, of `count` to an edge. */
export const solvedNodes = (fold: EdgeFold, count: number): number => (isHalf(fold) ? count / 2 : count);

/** The values of phi at a mirror image are `-sign conj phi`; 0: there is no image. */
export function imageSign(fold: EdgeFold): -1 | 0 | 1 {
  if (fold === 'whole') return 0;
  return fold === 'odd-pair' || fold === 'odd-half' ? -1 : 1;
}

/** Whether images lie on an edge of their own. */
export const isPair = (fold: EdgeFold): boolean => fold === 'pair' || fold === 'odd-pair';

/** Whether fields of a symmetry class are among those that are solved for. */
export const holdsClass = (fold: EdgeFold, symmetric: boolean): boolean =>
  fold === 'whole' || symmetric === (imageSign(fold) === 1);

/** Weight of a solved node in sums over all edges. */
export const shareOf = (fold: EdgeFold): number => (fold === 'whole' ? 1 : 2);
