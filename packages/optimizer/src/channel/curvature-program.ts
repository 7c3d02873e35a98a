import type { EdgeProfile, ProfileSlopes } from '@lumenfront/core';
import { quadraticProgram } from '../method/index.js';
import { type OutlineLimits, roomWeight } from './outline-limits.js';
import { programRows, rowNumbers } from './program-rows.js';

/** Slopes at an outline, and what it is to keep. */
export interface Linearised {
  readonly slopes: ProfileSlopes;
  /** Rates of the closure conditions, one row to a condition. */
  readonly closures: Float64Array;
  readonly values: Float64Array;
  /** Cost that counts as 1. */
  readonly scale: number;
  readonly limits: OutlineLimits;
  /** What lacks counts so much against the cost as a share. */
  readonly penalty: number;
  /** What may lack at no cost; 0 where left out. */
  readonly lacking?: number;
  /** Rows that held the last program's answer, as `hintOf` gives them: the next one begins with them. Overwritten. */
  readonly hints: number[];
}

/** What holds a move: rows of slopes, and the share of each in the slopes of the Lagrangian. */
export interface Holding {
  readonly cost: readonly Share[];
  readonly room: readonly Share[];
  readonly limits: readonly Share[];
  readonly area: number;
  readonly closures: readonly Share[];
}

interface Share {
  readonly row: number;
  readonly share: number;
}

/** An answer of a program. */
export interface Move {
  /** Change of every value. */
  readonly step: Float64Array;
  /** The linearised merit at its end; with the bend of the Lagrangian. */
  readonly linear: number;
  readonly merit: number;
  /** What lacks there, to first order. */
  readonly lack: number;
  readonly holding: Holding;
}

/**
 * Second derivatives of cost and lack, which a strictly convex program needs. Costs that fall by less than the whole and lacks that grow are both still what
 * costs: `top + top^2/2` grows with `top > -1`.
 */
const topBend = 1;
const lackBend = 10;
/** Added to the bend in every unit, more where a program loses its digits. */
const evenly = 1e-6;
const mostEvenly = 10;

/**
 * The move that makes the linearised merit of `from` with the Lagrangian's `bend` (lower triangle, in units of the values) least, no node further than `radius`
 * (mean radii) along its normal.
 */
export function bestMove(linearised: Linearised, from: EdgeProfile, radius: number, bend: Float64Array): Move {
  const { values, scale, limits, hints, penalty } = linearised;
  const size = values.length;
  const width = size + 2;
  const rows = programRows(linearised, from, radius);
  const cost = new Float64Array(width);
  cost[size] = 1;
  cost[size + 1] = penalty;
  const hessian = new Float64Array(width * width);
  const solved = (even: number) => {
    hessian.fill(0);
    for (let k = 0; k < size; k++) {
      for (let l = 0; l <= k; l++) hessian[k * width + l] = bend[k * size + l]!;
      hessian[k * width + k]! += even;
    }
    hessian[size * width + size] = topBend;
    hessian[(size + 1) * width + size + 1] = lackBend;
    return quadraticProgram(hessian, cost, rows);
  };
  let even = evenly;
  let solution = solved(even);
  while (!solution.solved && even < mostEvenly) {
    even *= 10;
    solution = solved(even);
  }
  const { z, holding, multipliers } = solution;
  const at = rowNumbers(linearised, from);
  hints.splice(0, hints.length, ...holding.filter((row) => row >= at.cost).map((row) => rows.hintOf(row)));
  const shares = (first: number, end: number, factor: number): Share[] =>
    holding.flatMap((row, i) =>
      row >= first && row < end ? [{ row: row - first, share: factor * multipliers[i]! }] : [],
    );
  const linear = from.cost / scale + z[size]! + penalty * z[size + 1]!;
  return {
    step: limits.units.map((unit, k) => unit * z[k]!),
    linear,
    merit: linear + bentBy(bend, z, size) / 2,
    lack: z[size + 1]!,
    holding: {
      cost: shares(at.cost, at.room, 1 / scale),
      room: shares(at.room, at.limits, -roomWeight / limits.unit),
      limits: shares(at.limits, at.area, 1),
      area: shares(at.area, at.lack, -1 / limits.area)[0]?.share ?? 0,
      closures: shares(0, at.cost, 1),
    },
  };
}

/** A move, and the penalty on what lacks with which it was found. */
export interface KeepingMove extends Move {
  readonly penalty: number;
}

/** What may come to lack, by a program, before its penalty counts as too small; by how much it is raised, and how far. */
const traded = 1e-5;
const raise = 3;
const mostPenalty = 1000;

/** The best move whose limits are not traded for a lower cost: where more would lack than `may`, what lacks counts for more. */
export function keepingMove(
  linearised: Linearised,
  from: EdgeProfile,
  { radius, bend, may }: { readonly radius: number; readonly bend: Float64Array; readonly may: number },
): KeepingMove {
  const lacks = Math.max(traded, may);
  let { penalty } = linearised;
  let move = bestMove(linearised, from, radius, bend);
  while (move.lack > lacks && penalty < mostPenalty) {
    penalty *= raise;
    move = bestMove({ ...linearised, penalty }, from, radius, bend);
  }
  return { ...move, penalty };
}

function bentBy(bend: Float64Array, z: Float64Array, size: number): number {
  let sum = 0;
  for (let k = 0; k < size; k++) {
    sum += bend[k * size + k]! * z[k]! * z[k]!;
    for (let l = 0; l < k; l++) sum += 2 * bend[k * size + l]! * z[k]! * z[l]!;
  }
  return sum;
}

/** The profile that linearises, where a move began, to what was seen at its end. */
export function shiftedBack(seen: EdgeProfile, slopes: ProfileSlopes, step: Float64Array): EdgeProfile {
  const size = step.length;
  const before = (value: number, rows: Float64Array, row: number): number => {
    let change = 0;
    for (let k = 0; k < size; k++) change += rows[row * size + k]! * step[k]!;
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
