/** Places of at most `count` designs of the given sizes, spread evenly over their range, both ends among them; by growing size. */
export function evenlySpread(sizes: readonly number[], count: number): number[] {
  const bySize = sizes.map((_, i) => i).sort((a, b) => sizes[a]! - sizes[b]!);
  if (bySize.length <= count) return bySize;
  if (count < 2) return bySize.slice(0, count);
  const least = sizes[bySize[0]!]!;
  const step = (sizes[bySize.at(-1)!]! - least) / (count - 1);
  const nearest = (size: number) =>
    bySize.reduce((a, b) => (Math.abs(sizes[b]! - size) < Math.abs(sizes[a]! - size) ? b : a));
  return [...new Set(Array.from({ length: count }, (_, k) => nearest(least + k * step)))];
}

/** The designs that no other beats in both size (large) and cost (small), by growing size; those of cost Infinity are left out. */
export function bestBySize<Design>(
  designs: readonly Design[],
  size: (design: Design) => number,
  cost: (design: Design) => number,
): Design[] {
  let least = Number.POSITIVE_INFINITY;
  return [...designs]
    .sort((a, b) => size(b) - size(a) || cost(a) - cost(b))
    .filter((design) => {
      const kept = cost(design) < least;
      least = Math.min(least, cost(design));
      return kept;
    })
    .reverse();
}
