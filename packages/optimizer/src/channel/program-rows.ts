import type { EdgeProfile } from '@lumenfront/core';
import type { ProgramRows } from '../method/index.js';
import type { Linearised } from './curvature-program.js';
import { margin, roomWeight } from './outline-limits.js';

/** Numbers of a program's rows: equations (closure), cost, room, limits on strength, area, lack, normal moves, boxes of the values. */
export interface RowNumbers {
  readonly cost: number;
  readonly room: number;
  readonly limits: number;
  readonly area: number;
  readonly lack: number;
  readonly normal: number;
  readonly box: number;
  readonly count: number;
}

/** Rows that a later program of the same outline can begin with. */
export interface HintedRows extends ProgramRows {
  /** A row that holds, and the side to which it does: the row, or of the lower side its bitwise complement. */
  hintOf(row: number): number;
}

/** By so much rows may be passed; those of moves by a share of the radius. */
const slack = 1e-6;
const moveSlack = 0.02;
/** Rows that are looked at again and again until they are met: most of the others, their neighbours on the edge, are met with them. */
const mostPassed = 24;
/** What cannot come above this share of the cost is not looked at. */
const lowest = 0.5;

export function rowNumbers(
  { slopes, closures, values }: Linearised,
  { functions, room, limits }: EdgeProfile,
): RowNumbers {
  const size = values.length;
  const at = { cost: closures.length / size, room: 0, limits: 0, area: 0, lack: 0, normal: 0, box: 0, count: 0 };
  at.room = at.cost + functions.length;
  at.limits = at.room + room.length;
  at.area = at.limits + limits.length;
  at.lack = at.area + 1;
  at.normal = at.lack + 1;
  at.box = at.normal + slopes.normal.length / size;
  at.count = at.box + size;
  return at;
}

/** Rows of one kind: slopes by the changes of the values. */
interface RowKind {
  readonly first: number;
  readonly end: number;
  readonly slopes: Float64Array;
  /** The unknown that gives way where a row of the kind is passed. */
  readonly yields?: number;
  /** What row `i` of the slopes counts. */
  factor(i: number): number;
  limit(i: number): number;
  /** By how much a move to `z` that changes what row `i` holds by `change` passes it. */
  passedBy(i: number, change: number, z: Float64Array): number;
}

/**
 * The rows of a linearised outline. Unknowns: the changes of the values, in units; the cost beyond that of `from`, as a share of the scale; what lacks.
 */
export function programRows(linearised: Linearised, from: EdgeProfile, radius: number): HintedRows {
  const { closures, values, limits, hints, lacking = 0 } = linearised;
  const { units } = limits;
  const size = values.length;
  const lack = size + 1;
  const at = rowNumbers(linearised, from);
  const ends = limits.endsWithin(radius, values);
  const { lower, upper } = ends;
  /** To which end a value, and to which side a normal move, has passed its limit: -1 or 1. */
  const sides = new Int8Array(at.count);
  const kinds = rowKinds(linearised, from, radius, at, sides);
  const kindOf = (row: number): RowKind => {
    let k = 0;
    while (row >= kinds[k]!.end) k++;
    return kinds[k]!;
  };
  const watched = watchedRows(linearised, from, radius, at, ends);
  const likely = hints.map((hint) => {
    const row = hint < 0 ? ~hint : hint;
    sides[row] = hint < 0 ? -1 : 1;
    return row;
  });
  /** Those that were passed when all were looked at last; at first, those that held the last program's answer. */
  let passed = likely.filter((row) => row < at.box && row !== at.area && row !== at.lack);

  const move = new Float64Array(size);
  const passedBy = (row: number, z: Float64Array): number => {
    const kind = kindOf(row);
    let change = 0;
    for (let k = 0, i = (row - kind.first) * size; k < size; k++, i++) change += kind.slopes[i]! * move[k]!;
    return kind.passedBy(row - kind.first, change, z);
  };
  const writeSlopes = (slopes: Float64Array, i: number, factor: number, out: Float64Array): void => {
    for (let k = 0, j = i * size; k < size; k++, j++) out[k] = factor * slopes[j]! * units[k]!;
  };

  return {
    equations: at.cost,
    count: at.count,
    likely,
    hintOf: (row) => (sides[row]! < 0 ? ~row : row),
    write(row, out) {
      out.fill(0);
      if (row < at.cost) {
        writeSlopes(closures, row, 1, out);
        return 0;
      }
      if (row === at.lack) {
        out[lack] = -1;
        return -lacking;
      }
      if (row >= at.box) {
        const k = row - at.box;
        out[k] = sides[row]!;
        return sides[row]! > 0 ? upper[k]! : -lower[k]!;
      }
      const { first, slopes, yields, factor, limit } = kindOf(row);
      writeSlopes(slopes, row - first, factor(row - first), out);
      if (yields !== undefined) out[yields] = -1;
      return limit(row - first);
    },
    mostPassed(z, held) {
      for (let k = 0; k < size; k++) move[k] = units[k]! * z[k]!;
      let worst = -1;
      let most = slack;
      const look = (row: number, over: number): void => {
        if (over <= most || held[row] === 1) return;
        worst = row;
        most = over;
      };
      for (let k = 0; k < size; k++) look(at.box + k, Math.max(z[k]! - upper[k]!, lower[k]! - z[k]!));
      if (worst >= 0) sides[worst] = z[worst - at.box]! > 0 ? 1 : -1;
      look(at.lack, lacking - z[lack]!);
      look(at.area, passedBy(at.area, z));
      for (const row of passed) if (held[row] === 0) look(row, passedBy(row, z));
      if (worst >= 0) return worst;
      // All are looked at once none of the few is passed any more.
      const found: { row: number; over: number }[] = [];
      for (const row of watched) {
        if (held[row] === 1) continue;
        const over = passedBy(row, z);
        if (over > slack) found.push({ row, over });
        look(row, over);
      }
      passed = found
        .sort((a, b) => b.over - a.over)
        .slice(0, mostPassed)
        .map(({ row }) => row);
      return worst;
    },
  };
}

/** In the order of their numbers: all but closure, what lacks and boxes. `sides` is written where a normal move is passed. */
function rowKinds(
  { slopes, values, scale, limits: { unit, area } }: Linearised,
  from: EdgeProfile,
  radius: number,
  at: RowNumbers,
  sides: Int8Array,
): RowKind[] {
  const top = values.length;
  const lack = top + 1;
  return [
    {
      first: at.cost,
      end: at.room,
      slopes: slopes.functions,
      yields: top,
      factor: () => 1 / scale,
      limit: (i) => (from.cost - from.functions[i]!) / scale,
      passedBy: (i, change, z) => (from.functions[i]! + change - from.cost) / scale - z[top]!,
    },
    {
      first: at.room,
      end: at.limits,
      slopes: slopes.room,
      yields: lack,
      factor: () => -roomWeight / unit,
      limit: (i) => roomWeight * (from.room[i]! / unit - margin),
      passedBy: (i, change, z) => roomWeight * (margin - (from.room[i]! + change) / unit) - z[lack]!,
    },
    {
      first: at.limits,
      end: at.area,
      slopes: slopes.limits,
      yields: lack,
      factor: () => 1,
      limit: (i) => -from.limits[i]! - margin,
      passedBy: (i, change, z) => from.limits[i]! + change + margin - z[lack]!,
    },
    {
      first: at.area,
      end: at.lack,
      slopes: slopes.area,
      yields: lack,
      factor: () => -1 / area,
      limit: () => from.area / area - 1 - margin,
      passedBy: (_, change, z) => 1 + margin - (from.area + change) / area - z[lack]!,
    },
    {
      first: at.normal,
      end: at.box,
      slopes: slopes.normal,
      factor: (i) => sides[at.normal + i]! / unit,
      limit: () => radius,
      passedBy(i, change) {
        const along = change / unit;
        const over = Math.abs(along) - radius;
        if (over <= moveSlack * radius) return 0;
        sides[at.normal + i] = Math.sign(along);
        return over;
      },
    },
  ];
}

/** Rows that a move may pass, but for area, lack and boxes. */
function watchedRows(
  { slopes, values, limits }: Linearised,
  from: EdgeProfile,
  radius: number,
  at: RowNumbers,
  { lower, upper }: { readonly lower: Float64Array; readonly upper: Float64Array },
): number[] {
  const { unit, units } = limits;
  const size = values.length;
  const reach = units.map((one, k) => one * Math.max(upper[k]!, -lower[k]!));
  const watched: number[] = [];
  for (let i = 0; i < from.functions.length; i++) {
    let highest = from.functions[i]!;
    for (let k = 0, j = i * size; k < size; k++, j++) highest += Math.abs(slopes.functions[j]!) * reach[k]!;
    if (highest > lowest * from.cost) watched.push(at.cost + i);
  }
  for (let i = 0; i < from.room.length; i++)
    if (from.room[i]! < 2 * (radius + margin) * unit) watched.push(at.room + i);
  for (let row = at.limits; row < at.area; row++) watched.push(row);
  for (let row = at.normal; row < at.box; row++) watched.push(row);
  return watched;
}
