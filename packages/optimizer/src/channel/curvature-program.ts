import type { CurvatureOutline, EdgeProfile, ProfileSlopes } from '@lumenfront/core';
import { linearProgram } from '../method/index.js';

/** What an outline is to keep. */
export interface OutlineLimits {
  /** Mean radius of the outline at the start, mm: the unit of moves. */
  readonly unit: number;
  /** Largest curvature of either sign, 1/mm. */
  readonly bound: number;
  /** Least area, mm2. */
  readonly area: number;
  /** Index of the first coefficient among the values. */
  readonly first: number;
  /** The worst that a profile lacks: of the area as a share, of the room in mean radii, weighted, of the strength as a share; 0 where it keeps all. */
  lackOf(profile: EdgeProfile): number;
}

/** What lacks, against the peak as a share of that at the start: above what more area costs, or it would be traded. */
export const penalty = 10;
/** Kept from every limit, so that an outline that has come to it is admissible after rounding and between the nodes. */
export const margin = 0.0005;
/** A missing mean radius of room counts as so many areas. */
const roomWeight = 5;

export function limitsOf(
  { lengthAt }: CurvatureOutline,
  values: Float64Array,
  area: number,
  edgeRadius: number,
): OutlineLimits {
  const unit = values[lengthAt]! / (2 * Math.PI);
  return {
    unit,
    bound: edgeRadius > 0 ? 1 / (edgeRadius * (1 + margin)) : Number.POSITIVE_INFINITY,
    area,
    first: lengthAt + 1,
    lackOf(profile) {
      let lack = 1 + margin - profile.area / area;
      for (const excess of profile.limits) lack = Math.max(lack, excess + margin);
      for (const room of profile.room) lack = Math.max(lack, roomWeight * (margin - room / unit));
      return Math.max(0, lack);
    },
  };
}

/** Slopes at an outline, and what it is to keep. */
export interface Linearised {
  readonly slopes: ProfileSlopes;
  /** Rates of the closure conditions, one row to a condition. */
  readonly closures: Float64Array;
  readonly values: Float64Array;
  /** Peak that counts as 1. */
  readonly scale: number;
  readonly limits: OutlineLimits;
  /** Rows that held the last program's answer: the next one begins with them. Overwritten. */
  readonly holding: Set<number>;
}

/** Rows of the cost within this share of the peak are in a program from the start. */
const near = 0.1;
/** …one of so many neighbours, which say nearly the same, and of the moves one of so many. */
const costStride = 3;
const roomStride = 4;
const moveStride = 8;
/** Multipliers above this share of the largest count as holding. */
const holds = 1e-4;
/** How well a program is solved: by so much a row may be missed, and the gap to its best. */
export interface Exactness {
  readonly slack: number;
  readonly gap: number;
}
/** For steps: tight programs cost more and end in corners, from which they jump. */
export const loose: Exactness = { slack: 1e-4, gap: 1e-5 };
/** For certificates. */
export const tight: Exactness = { slack: 1e-6, gap: 1e-7 };
const moveSlack = 0.05;
const mostRounds = 5;
const hair = 1e-9;

/** One row of a program: `factor * slopes z - top * peak - lack * lacking <= limit`. */
interface Row {
  readonly slopes: Float64Array;
  readonly at: number;
  readonly factor: number;
  readonly limit: number;
  readonly top: 0 | 1;
  readonly lack: 0 | 1;
}

/**
 * The move that makes the linearised merit of `from` least: no node further than `radius` along its normal, coefficients within boxes. Not all rows are
 * in the program: those that its answer violates are added, again and again.
 */
export function linearisedStep(
  { slopes, closures, values, scale, limits, holding }: Linearised,
  from: EdgeProfile,
  radius: number,
  { slack, gap }: Exactness = loose,
): { move: Float64Array; merit: number } {
  const size = values.length;
  const width = size + 2;
  const box = boxOf(values, limits, radius);
  const kept = new Float64Array((closures.length / size) * width);
  for (let r = 0; r * size < closures.length; r++)
    for (let k = 0; k < size; k++) kept[r * width + k] = closures[r * size + k]! * box[k]!;
  const { lower, upper } = endsOf(values, limits, box);
  const { rowAt, count, first } = rowsOf(slopes, from, scale, limits, radius, size);

  const chosen: number[] = [];
  const isChosen = new Uint8Array(count);
  const choose = (row: number) => {
    if (isChosen[row] === 0) chosen.push(row);
    isChosen[row] = 1;
  };
  first.forEach(choose);
  holding.forEach(choose);
  const cost = new Float64Array(width);
  cost[size] = 1;
  cost[size + 1] = penalty;
  const highest = from.cost / scale;
  for (let round = 0; ; round++) {
    const rows = new Float64Array(chosen.length * width);
    const ends = new Float64Array(chosen.length);
    let lack = 0;
    chosen.forEach((index, i) => {
      const row = rowAt(index);
      for (let k = 0; k < size; k++) rows[i * width + k] = row.factor * row.slopes[row.at * size + k]! * box[k]!;
      rows[i * width + size] = -row.top;
      rows[i * width + size + 1] = -row.lack;
      ends[i] = row.limit;
      if (row.lack === 1) lack = Math.max(lack, -row.limit);
    });
    const start = new Float64Array(width);
    start[size] = highest + 0.01;
    start[size + 1] = lack + 0.001;
    const { z, multipliers } = linearProgram({ cost, rows, limits: ends, lower, upper, kept, gap }, start);
    const before = chosen.length;
    for (let index = 0; index < count; index++) {
      if (isChosen[index] === 1) continue;
      const row = rowAt(index);
      let over = -row.limit - row.top * z[size]! - row.lack * z[size + 1]!;
      for (let k = 0; k < size; k++) over += row.factor * row.slopes[row.at * size + k]! * box[k]! * z[k]!;
      if (over > (row.top === 1 ? slack : row.lack === 1 ? slack / penalty : moveSlack)) choose(index);
    }
    if (chosen.length > before && round < mostRounds) continue;
    holding.clear();
    const least = holds * multipliers.reduce((a, b) => Math.max(a, b));
    multipliers.forEach((one, i) => {
      if (one > least) holding.add(chosen[i]!);
    });
    return { move: z.slice(0, size).map((share, k) => share * box[k]!), merit: z[size]! + penalty * z[size + 1]! };
  }
}

/** Where every value may go at most: positions and half the length by the radius, a turn as far around, coefficients relatively further. */
function boxOf(values: Float64Array, { unit, first }: OutlineLimits, radius: number): Float64Array {
  const turnAt = first === 4 ? 2 : -1;
  return values.map((value, k) => {
    if (k >= first) return (10 * radius * (Math.abs(value) * unit + 1)) / (unit * unit);
    if (k === turnAt) return ((radius / unit) * 180) / Math.PI;
    return k === first - 1 ? 2 * radius : radius;
  });
}

/** Ends of the program's variables, in boxes: the values', then peak and lack. */
function endsOf(values: Float64Array, { first, bound }: OutlineLimits, box: Float64Array) {
  const lower = new Float64Array(values.length + 2).fill(-1);
  const upper = new Float64Array(values.length + 2).fill(1);
  for (let k = first; k < values.length; k++) {
    upper[k] = Math.min(1, Math.max(hair, (bound - values[k]!) / box[k]!));
    lower[k] = -Math.min(1, Math.max(hair, (values[k]! + bound) / box[k]!));
  }
  lower[values.length] = Number.NEGATIVE_INFINITY;
  upper[values.length] = Number.POSITIVE_INFINITY;
  lower[values.length + 1] = 0;
  upper[values.length + 1] = Number.POSITIVE_INFINITY;
  return { lower, upper };
}

/** All rows of a program by number: cost, room, limits on strength, area, normal moves outwards, inwards; and those to begin with. */
function rowsOf(
  slopes: ProfileSlopes,
  from: EdgeProfile,
  scale: number,
  { unit, area }: OutlineLimits,
  radius: number,
  size: number,
) {
  const costs = from.functions.length;
  const limitsAt = costs + from.room.length;
  const areaAt = limitsAt + from.limits.length;
  const normals = slopes.normal.length / size;
  const count = areaAt + 1 + 2 * normals;
  const rowAt = (index: number): Row => {
    if (index < costs) {
      const limit = -from.functions[index]! / scale;
      return { slopes: slopes.functions, at: index, factor: 1 / scale, limit, top: 1, lack: 0 };
    }
    if (index < limitsAt) {
      const at = index - costs;
      const limit = roomWeight * (from.room[at]! / unit - margin);
      return { slopes: slopes.room, at, factor: -roomWeight / unit, limit, top: 0, lack: 1 };
    }
    if (index < areaAt) {
      const at = index - limitsAt;
      return { slopes: slopes.limits, at, factor: 1, limit: -from.limits[at]! - margin, top: 0, lack: 1 };
    }
    if (index === areaAt)
      return { slopes: slopes.area, at: 0, factor: -1 / area, limit: from.area / area - 1 - margin, top: 0, lack: 1 };
    const side = index - areaAt - 1;
    const outwards = side < normals;
    return {
      slopes: slopes.normal,
      at: outwards ? side : side - normals,
      factor: (outwards ? 1 : -1) / radius,
      limit: 1,
      top: 0,
      lack: 0,
    };
  };
  const first = [areaAt];
  for (let i = 0; i < costs; i += costStride) if (from.functions[i]! > (1 - near) * from.cost) first.push(i);
  for (let i = 0; i < from.room.length; i += roomStride) if (from.room[i]! < radius) first.push(costs + i);
  for (let side = 0; side < 2 * normals; side += moveStride) first.push(areaAt + 1 + side);
  return { rowAt, count, first };
}

/** The profile that linearises, where a move began, to what was seen at its end. */
export function shiftedBack(seen: EdgeProfile, slopes: ProfileSlopes, move: Float64Array): EdgeProfile {
  const size = move.length;
  const before = (value: number, rows: Float64Array, row: number): number => {
    let change = 0;
    for (let k = 0; k < size; k++) change += rows[row * size + k]! * move[k]!;
    return value - change;
  };
  const functions = seen.functions.map((value, i) => before(value, slopes.functions, i));
  return {
    area: before(seen.area, slopes.area, 0),
    functions,
    cost: functions.reduce((a, b) => Math.max(a, b)),
    limits: seen.limits.map((value, i) => before(value, slopes.limits, i)),
    room: seen.room.map((value, i) => before(value, slopes.room, i)),
  };
}
