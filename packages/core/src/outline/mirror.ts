import {
  createSplinePoint,
  type PeriodicSpline,
  pointAt,
  type SplinePoint,
  splinePoint,
  wrapped,
} from './periodic-spline.js';

/** Where a mirror-symmetric spline meets `x = 0`: below and above. */
interface MirrorLine {
  readonly bottom: number;
  readonly top: number;
}

/**
 * The mirror-symmetric spline that differs from `spline` by less than `tolerance` (mm), with its first knot at the bottom, on `x = 0`;
 * undefined if there is none.
 */
export function mirrored(spline: PeriodicSpline, tolerance: number): PeriodicSpline | undefined {
  const line = mirrorLine(spline);
  if (line === undefined || !isMirrored(spline, line, tolerance)) return undefined;
  return symmetrised(spline, line.bottom);
}

function mirrorLine(spline: PeriodicSpline): MirrorLine | undefined {
  const crossings = axisCrossings(spline);
  if (crossings.length !== 2) return undefined;
  const [one, two] = crossings as [Crossing, Crossing];
  return one.y < two.y ? { bottom: one.t, top: two.t } : { bottom: two.t, top: one.t };
}

function isMirrored(spline: PeriodicSpline, { bottom, top }: MirrorLine, tolerance: number): boolean {
  const right = createSplinePoint();
  const left = createSplinePoint();
  const upwards = wrapped(spline, top - bottom + spline.knots[0]!) - spline.knots[0]!;
  // Both halves may differ in length by as much as rounding makes them.
  const stretch = (spline.period - upwards) / upwards;
  // Four places per piece and more: differences of cubic pieces cannot hide between them.
  const steps = 4 * spline.knots.length;
  for (let i = 0; i <= steps; i++) {
    const away = (i * upwards) / steps;
    pointAt(spline, bottom + away, right);
    pointAt(spline, bottom - away * stretch, left);
    // Across the outline only: along it, both halves may be told apart by their parameters, which says nothing of their shape.
    const across = (right.dx * (right.y - left.y) - right.dy * (right.x + left.x)) / Math.hypot(right.dx, right.dy);
    if (!(Math.abs(across) <= tolerance)) return false;
  }
  return true;
}

/** Knots nearer than this share of the period are one. */
const sameKnot = 1e-7;

/** The mean of a spline and its mirror image, which is a spline with the knots of both. */
function symmetrised(spline: PeriodicSpline, bottom: number): PeriodicSpline {
  const { knots, period } = spline;
  const half = period / 2;
  const offsets = [...knots].map((knot) => {
    const away = knot - bottom - period * Math.floor((knot - bottom) / period);
    return Math.min(away, period - away);
  });
  const right = [0, ...offsets.sort((a, b) => a - b), half].filter(
    (away, i, all) => i === 0 || away - all[i - 1]! > sameKnot * period,
  );
  if (half - right.at(-1)! < 2 * sameKnot * period) right[right.length - 1] = half;
  const ring = [
    ...right,
    ...right
      .slice(1, -1)
      .reverse()
      .map((away) => period - away),
  ];
  const out = { x: [] as number[], y: [] as number[], bendX: [] as number[], bendY: [] as number[] };
  const here = createSplinePoint();
  const there = createSplinePoint();
  for (const away of ring) {
    pointAt(spline, bottom + away, here);
    pointAt(spline, bottom - away, there);
    out.x.push((here.x - there.x) / 2);
    out.y.push((here.y + there.y) / 2);
    out.bendX.push((here.ddx - there.ddx) / 2);
    out.bendY.push((here.ddy + there.ddy) / 2);
  }
  return {
    knots: Float64Array.from(ring),
    period,
    x: Float64Array.from(out.x),
    y: Float64Array.from(out.y),
    bendX: Float64Array.from(out.bendX),
    bendY: Float64Array.from(out.bendY),
  };
}

interface Crossing {
  readonly t: number;
  readonly y: number;
}

/** Where the spline crosses `x = 0`, by the signs at the knots and bisection within the piece. */
function axisCrossings(spline: PeriodicSpline): Crossing[] {
  const { knots, period, x } = spline;
  const found: Crossing[] = [];
  const at: SplinePoint = createSplinePoint();
  for (let i = 0; i < knots.length; i++) {
    const next = (i + 1) % knots.length;
    if (x[i]! < 0 === x[next]! < 0) continue;
    let low = 0;
    let high = (next === 0 ? knots[0]! + period : knots[next]!) - knots[i]!;
    for (let halving = 0; halving < 60; halving++) {
      const middle = (low + high) / 2;
      splinePoint(spline, i, middle, at);
      if (at.x < 0 === x[i]! < 0) low = middle;
      else high = middle;
    }
    splinePoint(spline, i, low, at);
    found.push({ t: knots[i]! + low, y: at.y });
  }
  return found;
}
