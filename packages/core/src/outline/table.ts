/** Tables made at the first use of a node count and kept, so that placing an outline calls no trigonometric function. */
export function perCount<Table extends { readonly count: number }>(
  make: (count: number) => Table,
): (count: number) => Table {
  const made = new Map<number, Table>();
  let latest: Table | undefined;
  return (count) => {
    if (latest?.count === count) return latest;
    latest = made.get(count);
    if (latest === undefined) {
      latest = make(count);
      made.set(count, latest);
    }
    return latest;
  };
}

/**
 * Cosine and sine of the nodes' angle `v = s + pi/2`, 0 at the bottom of an outline and pi at its top:
 * `cos s = sin v`, `sin s = -cos v`.
 */
export interface AngleTable {
  readonly count: number;
  readonly cos: Float64Array;
  readonly sin: Float64Array;
}

export function angleTable(count: number): AngleTable {
  const angles = Float64Array.from({ length: count }, (_, j) => ((2 * j + 1) * Math.PI) / count);
  return { count, cos: angles.map(Math.cos), sin: angles.map(Math.sin) };
}
