/**
 * Where `rising` passes from at most 0 to above, between `lower` and `upper`, by bisection down to rounding. An end is
 * returned where it does not pass: `lower` if it is above 0 there, `upper` if it is at most 0 there. Infinity counts.
 */
export function risingRoot(rising: (at: number) => number, lower: number, upper: number): number {
  if (!(rising(lower) <= 0) || !(upper > lower)) return lower;
  if (rising(upper) <= 0) return upper;
  let below = lower;
  let above = upper;
  for (;;) {
    const middle = (below + above) / 2;
    if (!(middle > below && middle < above)) return below;
    if (rising(middle) <= 0) below = middle;
    else above = middle;
  }
}
