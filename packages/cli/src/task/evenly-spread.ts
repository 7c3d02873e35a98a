/** Places of at most `count` designs, spread evenly over their range in area, both ends among them; by growing area. */
export function evenlySpread(designs: readonly { readonly area: number }[], count: number): number[] {
  const byArea = designs.map((_, i) => i).sort((a, b) => designs[a]!.area - designs[b]!.area);
  if (byArea.length <= count) return byArea;
  if (count < 2) return byArea.slice(0, count);
  const areas = designs.map(({ area }) => area);
  const least = areas[byArea[0]!]!;
  const step = (areas[byArea.at(-1)!]! - least) / (count - 1);
  const nearest = (area: number) =>
    byArea.reduce((a, b) => (Math.abs(areas[b]! - area) < Math.abs(areas[a]! - area) ? b : a));
  return [...new Set(Array.from({ length: count }, (_, k) => nearest(least + k * step)))];
}
