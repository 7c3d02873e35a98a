/** A corner turns by this much (rad) within two neighbouring points … */
const sharp = 0.6;
/** … and the two points on either side of them together by no more than this share of it: a rounding needs three points. */
const beside = 0.25;
/** In doubt, four points on either side count: units that an edge is long, inverted. */
const little = 0.1;
/** Rounding turns crowded points this way and that: they are also looked at thinned out to so many units apart. */
const unitsApart = [0, 10, 30] as const;

/** Where an outline turns sharply: number of the point, and by how much, rad. */
export interface Corner {
  readonly point: number;
  readonly turn: number;
}

/**
 * The sharpest corner of a closed polygon through the points of an outline, if any. A smooth outline spreads its bends over several points;
 * where one or two take all of a bend, its radius is not told, and stress has no finite value at a corner. `unit` is that of the
 * last decimal, 0 if the points were not rounded.
 */
export function findCorner(x: Float64Array, y: Float64Array, unit: number): Corner | undefined {
  const spacings = unit === 0 ? [0] : unitsApart;
  const corners = spacings.flatMap((units) => cornerAmong(x, y, thinned(x, y, units * unit), unit) ?? []);
  return corners.sort((a, b) => Math.abs(b.turn) - Math.abs(a.turn))[0];
}

function cornerAmong(x: Float64Array, y: Float64Array, points: readonly number[], unit: number): Corner | undefined {
  const count = points.length;
  // A corner and all that count around it.
  if (count < 10) return undefined;
  const turns = new Float64Array(count);
  /** Whether rounding can turn the polygon by more than little. */
  const doubtful = new Uint8Array(count);
  points.forEach((point, k) => {
    const [before, after] = [points[(k + count - 1) % count]!, points[(k + 1) % count]!];
    const [ax, ay] = [x[point]! - x[before]!, y[point]! - y[before]!];
    const [bx, by] = [x[after]! - x[point]!, y[after]! - y[point]!];
    turns[k] = Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
    if (unit > little * Math.min(Math.hypot(ax, ay), Math.hypot(bx, by))) doubtful[k] = 1;
  });
  const size = (k: number) => Math.abs(turns[(k + count) % count]!);
  let found: Corner | undefined;
  for (let k = 0; k < count; k++) {
    const next = (k + 1) % count;
    const turn = turns[k]! + turns[next]!;
    if (Math.abs(turn) < sharp || Math.abs(turn) <= Math.abs(found?.turn ?? 0)) continue;
    let around = 0;
    for (let reach = 1; reach <= (doubtful[k] === 1 || doubtful[next] === 1 ? 4 : 2); reach++)
      around += size(k - reach) + size(next + reach);
    if (around <= beside * Math.abs(turn)) found = { point: points[size(k) >= size(next) ? k : next]!, turn };
  }
  return found;
}

/** Points at least `apart` from the one before, and from the first. */
function thinned(x: Float64Array, y: Float64Array, apart: number): number[] {
  const kept = [0];
  for (let i = 1; i < x.length; i++) {
    const isFar = (j: number) => Math.hypot(x[i]! - x[j]!, y[i]! - y[j]!) >= apart;
    if (isFar(kept.at(-1)!) && isFar(0)) kept.push(i);
  }
  return kept;
}
