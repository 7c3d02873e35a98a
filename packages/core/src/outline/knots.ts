/**
 * Band-limited curves through equally spaced knots, as tables: value and derivatives at every node are sums over the
 * knots, so that a hot loop multiplies and adds. The mean over the knots is taken out: the curve of equal knots is zero.
 */
export interface KnotTable {
  readonly count: number;
  readonly knots: number;
  /** Contributions of the knots to the curve, its first and its second derivative: `[(3 * j + order) * knots + i]`. */
  readonly weights: Float64Array;
  /** What `curveThrough` fills: one value per row. */
  readonly result: KnotCurve;
}

/** A curve and its derivatives with respect to the node's angle, at the nodes of a table. */
export interface KnotCurve {
  readonly curve: Float64Array;
  readonly slope: Float64Array;
  readonly bend: Float64Array;
}

/** The curve through the knots `values[first]` and those after it; fills and returns the table's own buffers. */
export function curveThrough(values: ArrayLike<number>, first: number, table: KnotTable): KnotCurve {
  const { knots, weights, result } = table;
  const { curve, slope, bend } = result;
  const rows = curve.length;
  for (let j = 0, at = 0; j < rows; j++, at += 3 * knots) {
    let f = 0;
    let df = 0;
    let ddf = 0;
    for (let i = 0; i < knots; i++) {
      const knot = values[first + i]!;
      f += weights[at + i]! * knot;
      df += weights[at + knots + i]! * knot;
      ddf += weights[at + 2 * knots + i]! * knot;
    }
    curve[j] = f;
    slope[j] = df;
    bend[j] = ddf;
  }
  return result;
}

/**
 * Even curves of `v` through knots at `v_i = (i + 1/2) pi / knots`, bottom to top: the cosine series that the discrete
 * cosine transform gives. Rows for the right half's nodes only.
 */
export function evenKnotTable(count: number, knots: number): KnotTable {
  const factors: number[] = [];
  for (let k = 1; k < knots; k++) factors.push(2 / knots);
  return knotTable(count, count / 2, knots, factors, (k, v, i) => {
    const atKnot = Math.cos((k * (2 * i + 1) * Math.PI) / (2 * knots));
    return [atKnot * Math.cos(k * v), -atKnot * k * Math.sin(k * v), -atKnot * k * k * Math.cos(k * v)];
  });
}

/**
 * Periodic curves of `v` through an even number of knots at `v_i = (i + 1/2) 2 pi / knots`, counter-clockwise from the
 * bottom: trigonometric interpolation, the highest harmonic halved.
 */
export function periodicKnotTable(count: number, knots: number): KnotTable {
  const factors: number[] = [];
  for (let k = 1; k <= knots / 2; k++) factors.push(k === knots / 2 ? 1 / knots : 2 / knots);
  return knotTable(count, count, knots, factors, (k, v, i) => {
    const angle = k * (v - ((2 * i + 1) * Math.PI) / knots);
    return [Math.cos(angle), -k * Math.sin(angle), -k * k * Math.cos(angle)];
  });
}

function knotTable(
  count: number,
  rows: number,
  knots: number,
  factors: readonly number[],
  term: (harmonic: number, v: number, knot: number) => readonly [number, number, number],
): KnotTable {
  const weights = new Float64Array(rows * 3 * knots);
  for (let j = 0; j < rows; j++) {
    const v = ((2 * j + 1) * Math.PI) / count;
    for (let i = 0; i < knots; i++)
      factors.forEach((factor, index) => {
        term(index + 1, v, i).forEach((value, order) => {
          weights[(3 * j + order) * knots + i]! += factor * value;
        });
      });
  }
  const buffer = () => new Float64Array(rows);
  return { count, knots, weights, result: { curve: buffer(), slope: buffer(), bend: buffer() } };
}
