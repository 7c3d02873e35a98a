import type { Solution } from '../problem.js';

/** True where `a` is no worse in every objective and better in one. */
export function dominates(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  let better = false;
  for (let i = 0; i < a.length; i++) {
    if (a[i]! > b[i]!) return false;
    if (a[i]! < b[i]!) better = true;
  }
  return better;
}

/** True where `a` is no worse in every objective, equal points included. */
export function covers(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  for (let i = 0; i < a.length; i++) if (a[i]! > b[i]!) return false;
  return true;
}

/** The feasible solutions that no other dominates, in the order given; of equal ones the first. */
export function nonDominated<S extends Solution>(solutions: readonly S[]): S[] {
  const feasible = solutions.filter((candidate) => candidate.violation === 0);
  return feasible.filter((candidate, index) =>
    feasible.every(
      (other, place) =>
        place === index ||
        !covers(other.objectives, candidate.objectives) ||
        (place > index && covers(candidate.objectives, other.objectives)),
    ),
  );
}
