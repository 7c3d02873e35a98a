/**
 * The other corners of a regular simplex with unit edges and one corner at the origin (Spendley, Hext & Himsworth,
 * Technometrics 4 (1962) 441-461), stretched by `edges` along the variables and moved to `origin`.
 */
export function regularSimplex(origin: ArrayLike<number>, edges: ArrayLike<number>): Float64Array[] {
  const n = origin.length;
  const far = (Math.sqrt(n + 1) + n - 1) / (n * Math.SQRT2);
  const near = (Math.sqrt(n + 1) - 1) / (n * Math.SQRT2);
  return Array.from({ length: n }, (_, corner) =>
    Float64Array.from(origin, (value, i) => value + edges[i]! * (i === corner ? far : near)),
  );
}
