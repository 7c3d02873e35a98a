/** A closed outline sampled counter-clockwise at equal steps of its parameter, with first derivatives. mm */
export interface OutlineSample {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  readonly dx: ArrayLike<number>;
  readonly dy: ArrayLike<number>;
}

/**
 * The outline at `count` equal steps of a parameter that runs over `2 pi`, the first half a step after its start whatever the count
 * (core's `CurveNodes` is such a sample).
 */
export type OutlineSampler = (count: number) => OutlineSample;

/** Area (mm²) and perimeter (mm) of a closed outline. */
export interface Extent {
  readonly area: number;
  readonly perimeter: number;
}

/**
 * A closed chain of cubic Bézier curves, first derivatives continuous: `x, y` of start, two handles, next start, two
 * handles, and so on; the end of the last curve is the first point. mm
 */
export type BezierChain = Float64Array;

/** Area and perimeter by the trapezoidal rule, which converges spectrally on smooth closed outlines. */
export function sampleExtent({ x, y, dx, dy }: OutlineSample): Extent {
  let twiceArea = 0;
  let perimeter = 0;
  for (let j = 0; j < x.length; j++) {
    twiceArea += x[j]! * dy[j]! - y[j]! * dx[j]!;
    perimeter += Math.hypot(dx[j]!, dy[j]!);
  }
  const step = (2 * Math.PI) / x.length;
  return { area: (twiceArea * step) / 2, perimeter: perimeter * step };
}

/** Cubic Hermite interpolation of the sample, which is a Bézier chain with handles a third of the derivative away. */
export function bezierChain({ x, y, dx, dy }: OutlineSample): BezierChain {
  const count = x.length;
  const third = (2 * Math.PI) / count / 3;
  const chain = new Float64Array(6 * count);
  for (let j = 0; j < count; j++) {
    const next = (j + 1) % count;
    chain.set(
      [
        x[j]!,
        y[j]!,
        x[j]! + third * dx[j]!,
        y[j]! + third * dy[j]!,
        x[next]! - third * dx[next]!,
        y[next]! - third * dy[next]!,
      ],
      6 * j,
    );
  }
  return chain;
}

/** A closed chain the other way round, from the same point on: that of a mirror image is counter-clockwise so. */
export function reversedChain(chain: BezierChain): BezierChain {
  const out = new Float64Array(chain.length);
  for (let i = 0; i < chain.length; i += 2) {
    const from = (chain.length - i) % chain.length;
    out[i] = chain[from]!;
    out[i + 1] = chain[from + 1]!;
  }
  return out;
}

/** The chain at the nodes of an outline sampled four times as finely as the one it was made of. */
export function quarterChain(chain: BezierChain): OutlineSample {
  const curves = chain.length / 6;
  const count = 4 * curves;
  const step = (2 * Math.PI) / curves;
  const sample = {
    x: new Float64Array(count),
    y: new Float64Array(count),
    dx: new Float64Array(count),
    dy: new Float64Array(count),
  };
  // Node parameters start half a step after -pi/2, so the fine nodes sit at the odd eighths of the curves between coarse ones.
  for (let k = 0; k < count; k++) {
    const at = ((k + 0.5) / 4 - 0.5 + curves) % curves;
    const start = 6 * Math.floor(at);
    const u = at - Math.floor(at);
    const v = 1 - u;
    for (const axis of [0, 1]) {
      const [a, b, c, d] = [0, 2, 4, 6].map((i) => chain[(start + i + axis) % chain.length]!) as [
        number,
        number,
        number,
        number,
      ];
      (axis === 0 ? sample.x : sample.y)[k] = v * v * v * a + 3 * v * v * u * b + 3 * v * u * u * c + u * u * u * d;
      (axis === 0 ? sample.dx : sample.dy)[k] = (3 * (v * v * (b - a) + 2 * v * u * (c - b) + u * u * (d - c))) / step;
    }
  }
  return sample;
}

/**
 * Vertices (`x, y` in turn) of a closed polygon inscribed in the chain, no chord further than `tolerance` (mm) from
 * its curve: a curve is halved until its handles lie within 4/3 of the tolerance of its chord, which bounds the curve
 * itself (the weights of the handles never sum to more than 3/4).
 */
export function flatten(chain: BezierChain, tolerance: number): Float64Array {
  const vertices: number[] = [];
  const halve = (p: readonly number[], depth: number): void => {
    const [x0, y0, x1, y1, x2, y2, x3, y3] = p as [number, number, number, number, number, number, number, number];
    const chord = Math.hypot(x3 - x0, y3 - y0);
    const offset = (x: number, y: number) =>
      chord > 0 ? Math.abs((x - x0) * (y3 - y0) - (y - y0) * (x3 - x0)) / chord : Math.hypot(x - x0, y - y0);
    if (depth === 0 || Math.max(offset(x1, y1), offset(x2, y2)) <= (4 / 3) * tolerance) {
      vertices.push(x0, y0);
      return;
    }
    const middle = (a: number, b: number) => (a + b) / 2;
    const [ax, ay, bx, by] = [middle(x0, x1), middle(y0, y1), middle(x1, x2), middle(y1, y2)];
    const [cx, cy] = [middle(x2, x3), middle(y2, y3)];
    const [dx, dy, ex, ey] = [middle(ax, bx), middle(ay, by), middle(bx, cx), middle(by, cy)];
    const [fx, fy] = [middle(dx, ex), middle(dy, ey)];
    halve([x0, y0, ax, ay, dx, dy, fx, fy], depth - 1);
    halve([fx, fy, ex, ey, cx, cy, x3, y3], depth - 1);
  };
  for (let j = 0; j < chain.length; j += 6) {
    const end = (j + 6) % chain.length;
    halve([...chain.subarray(j, j + 6), chain[end]!, chain[end + 1]!], 12);
  }
  return Float64Array.from(vertices);
}

/** Area and perimeter of a closed polygon, vertices `x, y` in turn. */
export function polygonExtent(vertices: Float64Array): Extent {
  let twiceArea = 0;
  let perimeter = 0;
  for (let i = 0; i < vertices.length; i += 2) {
    const next = (i + 2) % vertices.length;
    const [x, y, u, v] = [vertices[i]!, vertices[i + 1]!, vertices[next]!, vertices[next + 1]!];
    twiceArea += x * v - y * u;
    perimeter += Math.hypot(u - x, v - y);
  }
  return { area: twiceArea / 2, perimeter };
}

/** Chords beside the last point's own in which the next point's is looked for: samples stand closer than chords. */
const WALK = 12;

/** Largest distance (mm) from points sampled along a closed polygon to it, each to the chords near its place along it. */
export function farthestFrom(vertices: Float64Array, { x, y }: Pick<OutlineSample, 'x' | 'y'>): number {
  const count = vertices.length / 2;
  const squared = (chord: number, j: number) => {
    const i = 2 * (((chord % count) + count) % count);
    const next = (i + 2) % vertices.length;
    const [ax, ay] = [vertices[i]!, vertices[i + 1]!];
    const [ux, uy] = [vertices[next]! - ax, vertices[next + 1]! - ay];
    const along = ((x[j]! - ax) * ux + (y[j]! - ay) * uy) / (ux * ux + uy * uy);
    const clamped = Math.min(1, Math.max(0, along));
    return (x[j]! - ax - clamped * ux) ** 2 + (y[j]! - ay - clamped * uy) ** 2;
  };
  let farthest = 0;
  let chord = 0;
  for (let j = 0; j < x.length; j++) {
    // The first point may lie anywhere.
    const [from, to] = j === 0 ? [0, count - 1] : [chord - WALK, chord + WALK];
    let nearest = Infinity;
    for (let k = from; k <= to; k++) {
      const distance = squared(k, j);
      if (distance >= nearest) continue;
      nearest = distance;
      chord = k;
    }
    farthest = Math.max(farthest, nearest);
  }
  return Math.sqrt(farthest);
}
