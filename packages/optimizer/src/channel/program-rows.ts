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

/**
 * The rows of a linearised outline. Unknowns: the changes of the values, in units; the cost beyond that of `from`, as a share of the scale; what lacks.
 */
export function programRows(linearised: Linearised, from: EdgeProfile, radius: number): HintedRows {
  const { slopes, closures, values, scale, limits, hints, lacking = 0 } = linearised;
  const { unit, units, area } = limits;
  const size = values.length;
  const [top, lack] = [size, size + 1];
  const at = rowNumbers(linearised, from);
  const { lower, upper } = limits.endsWithin(radius, values);
  /** To which end a value, and to which side a normal move, has passed its limit. */
  const boxSide = new Int8Array(size);
  const normalSide = new Int8Array(at.box - at.normal);
  const move = new Float64Array(size);
  const times = (rows: Float64Array, row: number): number => {
    let sum = 0;
    for (let k = 0, i = row * size; k < size; k++, i++) sum += rows[i]! * move[k]!;
    return sum;
  };
  const watched = watchedRows(linearised, from, radius, at, { lower, upper });
  const likely = hints.map((hint) => {
    const row = hint < 0 ? ~hint : hint;
    const side = hint < 0 ? -1 : 1;
    if (row >= at.box) boxSide[row - at.box] = side;
    else if (row >= at.normal) normalSide[row - at.normal] = side;
    return row;
  });
  /** Those that were passed when all were looked at last; at first, those that held the last program's answer. */
  let passed = likely.filter((row) => row < at.box && row !== at.area && row !== at.lack);

  const copy = (rows: Float64Array, row: number, factor: number, out: Float64Array): void => {
    for (let k = 0, i = row * size; k < size; k++, i++) out[k] = factor * rows[i]! * units[k]!;
    out[top] = 0;
    out[lack] = 0;
  };
  const areaPassed = (z: Float64Array): number => 1 + margin - (from.area + times(slopes.area, 0)) / area - z[lack]!;
  const passedBy = (row: number, z: Float64Array): number => {
    if (row < at.room) {
      const i = row - at.cost;
      return (from.functions[i]! + times(slopes.functions, i) - from.cost) / scale - z[top]!;
    }
    if (row < at.limits) {
      const i = row - at.room;
      return roomWeight * (margin - (from.room[i]! + times(slopes.room, i)) / unit) - z[lack]!;
    }
    if (row < at.area) {
      const i = row - at.limits;
      return from.limits[i]! + times(slopes.limits, i) + margin - z[lack]!;
    }
    const i = row - at.normal;
    const along = times(slopes.normal, i) / unit;
    const over = Math.abs(along) - radius;
    if (over <= moveSlack * radius) return 0;
    normalSide[i] = Math.sign(along);
    return over;
  };

  return {
    equations: at.cost,
    count: at.count,
    likely,
    hintOf(row) {
      const side = row >= at.box ? boxSide[row - at.box]! : row >= at.normal ? normalSide[row - at.normal]! : 1;
      return side < 0 ? ~row : row;
    },
    write(row, out) {
      if (row < at.cost) copy(closures, row, 1, out);
      else if (row < at.room) {
        copy(slopes.functions, row - at.cost, 1 / scale, out);
        out[top] = -1;
        return (from.cost - from.functions[row - at.cost]!) / scale;
      } else if (row < at.limits) {
        copy(slopes.room, row - at.room, -roomWeight / unit, out);
        out[lack] = -1;
        return roomWeight * (from.room[row - at.room]! / unit - margin);
      } else if (row < at.area) {
        copy(slopes.limits, row - at.limits, 1, out);
        out[lack] = -1;
        return -from.limits[row - at.limits]! - margin;
      } else if (row === at.area) {
        copy(slopes.area, 0, -1 / area, out);
        out[lack] = -1;
        return from.area / area - 1 - margin;
      } else if (row === at.lack) {
        out.fill(0);
        out[lack] = -1;
        return -lacking;
      } else if (row < at.box) {
        copy(slopes.normal, row - at.normal, normalSide[row - at.normal]! / unit, out);
        return radius;
      } else {
        const k = row - at.box;
        out.fill(0);
        out[k] = boxSide[k]!;
        return boxSide[k]! > 0 ? upper[k]! : -lower[k]!;
      }
      return 0;
    },
    mostPassed(z, held) {
      for (let k = 0; k < size; k++) move[k] = units[k]! * z[k]!;
      let worst = -1;
      let most = slack;
      for (let k = 0; k < size; k++) {
        const over = Math.max(z[k]! - upper[k]!, lower[k]! - z[k]!);
        if (over <= most || held[at.box + k] === 1) continue;
        boxSide[k] = z[k]! > 0 ? 1 : -1;
        worst = at.box + k;
        most = over;
      }
      const look = (row: number, over: number): void => {
        if (over <= most || held[row] === 1) return;
        worst = row;
        most = over;
      };
      look(at.lack, lacking - z[lack]!);
      look(at.area, areaPassed(z));
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
