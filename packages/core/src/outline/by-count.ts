/**
 * Squares of node counts that are kept, summed: what is made for slopes holds matrices. All of what a search asks for just fits (48 to
 * 416 nodes in steps of 16), and of what a report asks for the last few (up to 1,024 nodes: to make them anew is little beside solving with them).
 */
const mostKept = 1_586_176;

/** Matrices made once for each number of nodes, and used again for every outline of as many; of large ones, those used last. Rows of numbers are `perCount`'s. */
export function byCount<Made>(make: (count: number) => Made): (count: number) => Made {
  /** In the order of their last use. */
  const known = new Map<number, Made>();
  let kept = 0;
  let latest: number | undefined;
  return (count) => {
    if (count === latest) return known.get(count)!;
    latest = count;
    let made = known.get(count);
    if (made === undefined) {
      made = make(count);
      kept += count * count;
    } else known.delete(count);
    known.set(count, made);
    for (const oldest of known.keys()) {
      if (kept <= mostKept || oldest === count) break;
      known.delete(oldest);
      kept -= oldest * oldest;
    }
    return made;
  };
}
