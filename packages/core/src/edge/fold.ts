/**
 * What of all edges is solved for; the rest follows from the mirror symmetry in `x = 0`:
 *
 * - `whole`: one edge, all of it.
 * - `half`: the right half of an edge that is its own mirror image; symmetric fields.
 * - `pair`: the right one of two edges that are mirror images of each other; symmetric fields.
 * - `odd-pair`: the same for antisymmetric fields.
 */
export type EdgeFold = 'whole' | 'half' | 'pair' | 'odd-pair';

/** Nodes that are solved for, of `count` to an edge. */
export const solvedNodes = (fold: EdgeFold, count: number): number => (fold === 'half' ? count / 2 : count);

/** The values of phi at a mirror image are `-sign conj phi`; 0: there is no image. */
export function imageSign(fold: EdgeFold): -1 | 0 | 1 {
  if (fold === 'whole') return 0;
  return fold === 'odd-pair' ? -1 : 1;
}

/** Whether images lie on an edge of their own. */
export const isPair = (fold: EdgeFold): boolean => fold === 'pair' || fold === 'odd-pair';

/** Whether fields of a symmetry class are among those that are solved for. */
export const holdsClass = (fold: EdgeFold, symmetric: boolean): boolean =>
  fold === 'whole' || symmetric === (fold !== 'odd-pair');

/** Weight of a solved node in sums over all edges. */
export const shareOf = (fold: EdgeFold): number => (fold === 'whole' ? 1 : 2);
