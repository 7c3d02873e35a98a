import type { Solution } from '../problem.js';
import { thinOut } from './contribution.js';
import { covers } from './dominance.js';

/** How many points an archive keeps, and which reference its volumes count from. */
export interface ArchiveOptions {
  /** Solutions kept. */
  readonly size: number;
  /** Reference point of the hypervolume; left out, see `thinOut`. */
  readonly reference?: ArrayLike<number>;
}

/**
 * All feasible non-dominated solutions that were ever seen, thinned out by hypervolume contribution when there are too
 * many. Solutions that a caller attached data to come back with it.
 */
export class Archive<S extends Solution = Solution> {
  readonly size: number;
  readonly #reference: ArrayLike<number> | undefined;
  /** With two objectives sorted by the first one, otherwise in the order of arrival. */
  #members: S[] = [];

  constructor({ size, reference }: ArchiveOptions) {
    if (!(size >= 1)) throw new RangeError(`archive size: expected at least 1, received ${size}`);
    this.size = size;
    this.#reference = reference;
  }

  /** Returns whether the solution is among the best so far: feasible, and covered by no other. */
  add(candidate: S): boolean {
    if (candidate.violation > 0) return false;
    if (!(candidate.objectives.length === 2 ? this.#addPair(candidate) : this.#addAny(candidate))) return false;
    // Thinning by steps of a quarter costs little, and a newcomer can prove itself before it is weighed.
    if (this.#members.length > 1.25 * this.size) this.#members = this.front(this.size);
    return true;
  }

  /** At most `most` members, those that together hold most of the hypervolume; does not change the archive. */
  front(most: number = this.size): S[] {
    if (this.#members.length <= most) return [...this.#members];
    const points = this.#members.map((member) => member.objectives);
    return thinOut(points, most, this.#reference).map((index) => this.#members[index]!);
  }

  #addPair(candidate: S): boolean {
    const members = this.#members;
    const [first, second] = [candidate.objectives[0]!, candidate.objectives[1]!];
    let low = 0;
    let high = members.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (members[middle]!.objectives[0]! < first) low = middle + 1;
      else high = middle;
    }
    if (low > 0 && members[low - 1]!.objectives[1]! <= second) return false;
    if (low < members.length && covers(members[low]!.objectives, candidate.objectives)) return false;
    let end = low;
    while (end < members.length && members[end]!.objectives[1]! >= second) end++;
    members.splice(low, end - low, candidate);
    return true;
  }

  #addAny(candidate: S): boolean {
    if (this.#members.some((member) => covers(member.objectives, candidate.objectives))) return false;
    this.#members = this.#members.filter((member) => !covers(candidate.objectives, member.objectives));
    this.#members.push(candidate);
    return true;
  }
}
