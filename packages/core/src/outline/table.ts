/**
 * Cosines and sines of the multiples of the nodes' angles, so that placing an outline calls no trigonometric function.
 * The angle is `v = s + pi/2`: 0 at the bottom of an outline, pi at its top.
 */
export interface AngleTable {
  readonly count: number;
  /** Highest multiple of the angle. */
  readonly order: number;
  /** `cos(k v_j)` at `j * (order + 1) + k`. */
  readonly cos: Float64Array;
  /** `sin(k v_j)` at `j * (order + 1) + k`. */
  readonly sin: Float64Array;
}

function createAngleTable(count: number, order: number): AngleTable {
  const cos = new Float64Array(count * (order + 1));
  const sin = new Float64Array(count * (order + 1));
  for (let j = 0; j < count; j++) {
    for (let k = 0; k <= order; k++) {
      // The multiple is reduced as an exact integer first: k (2 j + 1) half-steps, 2 count of them in a full turn.
      const angle = (((k * (2 * j + 1)) % (2 * count)) * Math.PI) / count;
      cos[j * (order + 1) + k] = Math.cos(angle);
      sin[j * (order + 1) + k] = Math.sin(angle);
    }
  }
  return { count, order, cos, sin };
}

/** Tables of one order, made at the first use of a node count and kept. */
export function angleTables(order: number): (count: number) => AngleTable {
  const made = new Map<number, AngleTable>();
  let latest: AngleTable | undefined;
  return (count) => {
    if (latest?.count === count) return latest;
    latest = made.get(count);
    if (latest === undefined) {
      latest = createAngleTable(count, order);
      made.set(count, latest);
    }
    return latest;
  };
}
