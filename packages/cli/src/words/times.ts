/** How many times as much, in three digits: flow grows as the square of the area, so that its ratios span decades. */
export function timesText(ratio: number): string {
  return ratio.toFixed(ratio < 10 ? 2 : ratio < 100 ? 1 : 0);
}
