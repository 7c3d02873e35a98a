/** At most `count` of some designs, spread evenly over their range in area, both ends among them; by growing area. */
export function spreadOverArea<Design extends { readonly area: number }>(
  designs: readonly Design[],
  count: number,
): Design[] {
  const byArea = [...designs].sort((a, b) => a.area - b.area);
  if (byArea.length <= count) return byArea;
  const least = byArea[0]!.area;
  const step = (byArea.at(-1)!.area - least) / (count - 1);
  const nearest = (area: number) =>
    byArea.reduce((a, b) => (Math.abs(b.area - area) < Math.abs(a.area - area) ? b : a));
  return [...new Set(Array.from({ length: count }, (_, k) => nearest(least + k * step)))];
}

/** The designs that no other beats in both area and value, by growing area; those of value Infinity are left out. */
export function bestForArea<Design extends { readonly area: number }>(
  designs: readonly Design[],
  value: (design: Design) => number,
): Design[] {
  let least = Number.POSITIVE_INFINITY;
  return [...designs]
    .sort((a, b) => b.area - a.area || value(a) - value(b))
    .filter((design) => {
      const kept = value(design) < least;
      least = Math.min(least, value(design));
      return kept;
    })
    .reverse();
}
