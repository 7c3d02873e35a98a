import type { FamilySearch, Known, SizedStart } from './family-search.js';

/** Gaps of a front that are closed: wider than this share of its range, or with a cost higher by this share at the end. */
const widestGap = 0.02;
const highestStep = 0.01;
/** …but no gap narrower than this share of the range: the front has a step there. */
const leastGap = 0.004;
const gapsAtOnce = 8;

/**
 * Descents into the widest gaps of a family's front and beyond its end, up to the size `end`; from either side in turn, and from each
 * once as long as the gap stays as it is: `tried` remembers. Where the family is `beaten` by others, gaps stay.
 */
export function gapStarts(
  search: FamilySearch,
  end: number,
  tried: Set<string>,
  beaten: (size: number) => boolean,
): SizedStart[] {
  const own: readonly Known[] = search.known().sort((a, b) => a.size - b.size);
  if (own.length === 0) return [];
  const range = end - own[0]!.size;
  const nameOf = ({ size, cost }: Known) => `${Math.round(size / (leastGap * range))} ${cost.toPrecision(2)}`;
  const gaps = own.flatMap((below, i) => {
    const above: Known | undefined = own[i + 1];
    const breadth = (above?.size ?? end) - below.size;
    const height = above === undefined ? 0 : above.cost / below.cost - 1;
    const width = Math.max(breadth / (widestGap * range), height / highestStep);
    const size = below.size + breadth / 2;
    if (breadth < leastGap * range || width <= 1 || beaten(size)) return [];
    const sides = above === undefined ? [below] : [above, below];
    const names = sides.map((_, side) => `${nameOf(below)} ${above && nameOf(above)} ${side}`);
    const untried = names.findIndex((name) => !tried.has(name));
    return untried < 0 ? [] : [{ width, name: names[untried]!, start: { from: sides[untried]!, goal: { size } } }];
  });
  return gaps
    .sort((a, b) => b.width - a.width)
    .slice(0, gapsAtOnce)
    .map(({ name, start }) => {
      tried.add(name);
      return start;
    });
}
