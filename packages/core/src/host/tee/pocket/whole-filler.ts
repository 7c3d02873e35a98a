import { type Block, graded, withMiddles } from '../../../mesh/quad/index.js';
import { cube } from '../../../power.js';
import type { Point } from './site.js';

export type FillerPart =
  | 'square-left'
  | 'square-right'
  | 'cusp-left'
  | 'cusp-right'
  | 'cusp-top-left'
  | 'cusp-top-right';

/** Where columns stand on the filler's border, all with middles: x along the base, angles from the foot up along each arc, heights on the axis. */
export interface FillerColumns {
  readonly base: readonly number[];
  readonly right: readonly number[];
  readonly left: readonly number[];
  readonly axis: readonly number[];
  /** Places in `base` at which the squares in the middle begin, meet and end; edges of each arc below its middle. */
  readonly squares: readonly [number, number, number];
}

/** In bend radii: half width of the squares in the middle and their heights there and at their corners. */
const width = 0.22;
const height = 0.24;
const corner = 0.17;

/** Distance from a tip on one side of a cusp where the other has `d`: alike at the tip, `other` where this one has `start`. */
const abreast = (d: number, start: number, other: number) => d + (other - start) * cube(d / start);

/** Even place in a list that lies nearest to a value. */
function nearestEnd(list: readonly number[], value: number): number {
  let best = 0;
  for (let i = 0; i < list.length; i += 2) if (Math.abs(list[i]! - value) < Math.abs(list[best]! - value)) best = i;
  return best;
}

/** From columns that are given on the base. */
export function columnsFromBase(R: number, base: readonly number[], step: number): FillerColumns {
  const squares = squaresOf(R, base);
  const last = base.length - 1;
  const lower = (distances: readonly number[]) =>
    distances.map((d) => Math.asin(Math.min(1, abreast(d, distances[0]!, R * Math.SQRT1_2) / R)));
  // From the middle of the arc to its foot.
  const right = lower(base.slice(squares[2], last + 1).map((x) => R - x));
  const left = lower(
    base
      .slice(0, squares[0] + 1)
      .reverse()
      .map((x) => R + x),
  );
  const axis = withMiddles(graded((1 - height) * R, () => step)).map((s) => height * R + s);
  const upper = axis.map((y) => Math.acos(Math.min(1, abreast(R - y, R - axis[0]!, R * Math.SQRT1_2) / R)));
  const arc = (half: readonly number[]) => [...half.toReversed(), ...upper.slice(1)];
  return { base, right: arc(right), left: arc(left), axis, squares };
}

/** From columns that are given on both arcs alike. */
export function columnsFromArc(R: number, arc: readonly number[], step: number): FillerColumns {
  const middle = nearestEnd(arc, Math.PI / 4);
  const lower = arc.slice(0, middle + 1).map((angle) => R * Math.sin(angle));
  const start = lower.at(-1)!;
  const toTip = lower.map((d) => R - abreast(d, start, (1 - width) * R));
  const between = withMiddles(graded(2 * width * R, () => step, 2)).map((s) => s - width * R);
  const base = [...toTip.map((x) => -x), ...between.slice(1, -1), ...toTip.toReversed()];
  const upper = arc.slice(middle).map((angle) => R * Math.cos(angle));
  const axis = upper.map((d) => R - abreast(d, upper[0]!, (1 - height) * R));
  return { base, right: arc, left: arc, axis, squares: squaresOf(R, base) };
}

function squaresOf(R: number, base: readonly number[]): FillerColumns['squares'] {
  const left = nearestEnd(base, -width * R);
  const right = nearestEnd(base, width * R);
  return [left, Math.min(right - 2, Math.max(left + 2, nearestEnd(base, 0))), right];
}

const lerp = (a: Point, b: Point, f: number): Point => [a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1])];

/** Columns from a broken edge to the tip; `near` and `far`: its two sides at a column. */
const cusp = (
  edge: readonly Point[],
  near: (column: number) => Point,
  far: (column: number) => Point,
  share: (column: number) => number,
): ((column: number, row: number) => Point) => {
  const [a, b] = [near(0), far(0)];
  return (column, row) => {
    const g = row / (edge.length - 1);
    const [x, y] = lerp(near(column), far(column), g);
    const plain = lerp(a, b, g);
    // None in the last elements: they are as thin as the square of their length, and a cube there would turn them inside out.
    const weight = cube(Math.max(0, 1 - 1.25 * share(column)));
    return [x + weight * (edge[row]![0] - plain[0]), y + weight * (edge[row]![1] - plain[1])];
  };
};

const steps = (a: Point, b: Point, count: number) =>
  Array.from({ length: 2 * count + 1 }, (_, k) => lerp(a, b, k / (2 * count)));

/** Columns of the three cusps that lie nearer to their tips than given lengths: all that stays of a filler around a channel. */
export interface TipColumns {
  readonly left: number;
  readonly right: number;
  readonly top: number;
}

export function tipColumns(
  R: number,
  { base, axis }: FillerColumns,
  lengths: { readonly left: number; readonly right: number; readonly top: number },
): TipColumns {
  const nearer = (places: readonly number[], from: (place: number) => number, length: number) =>
    Math.max(1, places.filter((place, i) => i % 2 === 0 && from(place) > 0 && from(place) <= length).length);
  return {
    left: nearer(base, (x) => x + R, lengths.left),
    right: nearer(base, (x) => R - x, lengths.right),
    top: nearer(axis, (y) => R - y, lengths.top),
  };
}

/**
 * The whole filler of a tee: two squares on the middle of its base, four cusps meshed to their tips (the last elements collapse there).
 * `rows`: elements across half a cusp. `tips`: only so many columns of the cusps.
 */
export function fillerBlocks(
  R: number,
  { base, right, left, axis, squares }: FillerColumns,
  {
    rows,
    material,
    tips,
  }: { readonly rows: number; readonly material: number; readonly tips?: TipColumns | undefined },
): [FillerPart, Block][] {
  const [from, middle, to] = squares;
  const bottom = (i: number): Point => [base[i]!, 0];
  const arcAt = (side: 1 | -1, angle: number): Point => [side * (R - R * Math.sin(angle)), R - R * Math.cos(angle)];
  const top: Point = [0, axis[0]!];
  const cornerAt = (side: 1 | -1): Point => [side * corner * R, corner * R];
  const block = (columns: number, rowCount: number, at: Block['at']): Block => ({
    columns,
    rows: rowCount,
    at,
    material: () => material,
    axes: { kind: 'straight', angle: 0 },
  });
  const square = (first: number, last: number, side: 1 | -1): Block => {
    const [a, b] = [bottom(first), bottom(last)];
    const [d, c] = side === 1 ? [top, cornerAt(1)] : [cornerAt(-1), top];
    return block((last - first) / 2, rows, (column, row) => {
      const u = (base[first + column]! - a[0]) / (b[0] - a[0]);
      return lerp(lerp(a, b, u), lerp(d, c, u), row / (2 * rows));
    });
  };
  const lowerCusp = (side: 1 | -1): Block => {
    const arc = side === 1 ? right : left;
    const start = side === 1 ? to : from;
    const columns = side === 1 ? (base.length - 1 - to) / 2 : from / 2;
    const baseOf = (column: number) => start + side * column;
    const edge = [
      ...steps(bottom(start), cornerAt(side), rows),
      ...steps(cornerAt(side), arcAt(side, arc[2 * columns]!), rows).slice(1),
    ];
    const length = R - Math.abs(base[start]!);
    const at = cusp(
      edge,
      (column) => bottom(baseOf(column)),
      (column) => arcAt(side, arc[2 * columns - column]!),
      (column) => 1 - (R - Math.abs(base[baseOf(column)]!)) / length,
    );
    const kept = (side === 1 ? tips?.right : tips?.left) ?? columns;
    const gone = 2 * (columns - kept);
    return block(kept, 2 * rows, (column, row) => at(side === 1 ? gone + column : 2 * columns - column, row));
  };
  const upperCusp = (side: 1 | -1): Block => {
    const arc = side === 1 ? right : left;
    const columns = (axis.length - 1) / 2;
    const start = arc.length - 1 - 2 * columns;
    const [first, last] = side === 1 ? [middle, to] : [from, middle];
    // Along the square's upper side from its corner to the axis.
    const along = Array.from({ length: last - first + 1 }, (_, k) => {
      const i = side === 1 ? last - k : first + k;
      return lerp(
        cornerAt(side),
        top,
        (base[i]! - base[side === 1 ? last : first]!) / (base[middle]! - base[side === 1 ? last : first]!),
      );
    });
    const edge = [...steps(arcAt(side, arc[start]!), cornerAt(side), rows), ...along.slice(1)];
    const at = cusp(
      edge,
      (column) => arcAt(side, arc[start + column]!),
      (column) => [0, axis[column]!],
      (column) => (axis[column]! - axis[0]!) / (R - axis[0]!),
    );
    const count = (edge.length - 1) / 2;
    const kept = tips?.top ?? columns;
    return block(kept, count, (column, row) => at(2 * (columns - kept) + column, side === 1 ? row : 2 * count - row));
  };
  const middles: [FillerPart, Block][] =
    tips === undefined
      ? [
          ['square-left', square(from, middle, -1)],
          ['square-right', square(middle, to, 1)],
        ]
      : [];
  return [
    ...middles,
    ['cusp-left', lowerCusp(-1)],
    ['cusp-right', lowerCusp(1)],
    ['cusp-top-left', upperCusp(-1)],
    ['cusp-top-right', upperCusp(1)],
  ];
}
