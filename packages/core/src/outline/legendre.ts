/** Gauss-Legendre points of a cell: where integrands are read, and how integrals up to any place of the cell follow from what was read. */
export interface CellRule {
  readonly count: number;
  /** Points in (0, 1), ascending, and their weights, which sum to 1. */
  readonly points: Float64Array;
  readonly weights: Float64Array;
  /** Writes weights of the integral from the cell's start to `to` (0 to 1), times the cell's length, of the polynomial through what was read. */
  weightsUpTo(to: number, out: Float64Array, at: number): void;
}

/** A rule of `count` points: whole cells are exact for polynomials of degree `2 count - 1`, parts of cells for `count - 1`. */
export function cellRule(count: number): CellRule {
  const points = new Float64Array(count);
  const weights = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    // Newton from the asymptotic root (Press et al., Numerical Recipes, 1986, section 4.5).
    let x = -Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let turn = 0; turn < 100; turn++) {
      const p = legendre(x, count);
      slope = (count * (x * p[count]! - p[count - 1]!)) / (x * x - 1);
      const step = p[count]! / slope;
      x -= step;
      if (Math.abs(step) < 1e-16) break;
    }
    points[i] = (1 + x) / 2;
    weights[i] = 1 / ((1 - x * x) * slope * slope);
  }
  const atPoints = Array.from(points, (x) => legendre(2 * x - 1, count));
  return {
    count,
    points,
    weights,
    weightsUpTo(to, out, at) {
      const here = legendre(2 * to - 1, count);
      for (let i = 0; i < count; i++) {
        const p = atPoints[i]!;
        // Legendre series of the polynomial that is 1 at this point and 0 at the others, integrated term by term.
        let sum = here[1]! + 1;
        for (let k = 1; k < count; k++) sum += p[k]! * (here[k + 1]! - here[k - 1]!);
        out[at + i] = (weights[i]! * sum) / 2;
      }
    },
  };
}

/** Legendre polynomials of degree 0 to `most` at x. */
function legendre(x: number, most: number): Float64Array {
  const p = new Float64Array(most + 1);
  p[0] = 1;
  p[1] = x;
  for (let k = 1; k < most; k++) p[k + 1] = ((2 * k + 1) * x * p[k]! - k * p[k - 1]!) / (k + 1);
  return p;
}
