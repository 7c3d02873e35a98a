import { slopesCost } from '@lumenfront/core';
import { bestBySize } from '../front/index.js';
import type { RefineRequest, RefineResult, RefineStart, SolvedDesign } from './refine.js';

/** Size and cost, in the units of the task's objective. */
export interface Sized {
  readonly size: number;
  readonly cost: number;
}

/** An outline to begin from, with its figures. */
export interface KnownOutline extends Sized {
  readonly start: RefineStart;
}

/** A refined design; its cost with twice the nodes of the descent. */
export interface Refined extends Sized {
  readonly design: SolvedDesign;
  readonly locallyOptimalWithin: number;
}

/** What a refinement works with. */
export interface RefinePlan {
  refine(requests: readonly RefineRequest[]): Promise<readonly RefineResult[]>;
  /** Evaluations that are left. */
  left(): number;
  /** Told of every result; false when the search is to end. */
  note(result: RefineResult): void;
  goOn(): boolean;
}

/**
 * Coefficients of the designs that count, slopes of those that begin a way through a gap and of those on it, near or far apart, and the share that is to be gained by another.
 */
export const finish = { pieces: 40, slopes: 12, slopesBeyond: 2, slopesFar: 4, enough: 5e-4 };
/** Values of such a design. */
export const mostValues = finish.pieces + 2;
/** What a set of slopes and the steps after it cost, in evaluations. */
export const perSlopes = (pieces: number): number => slopesCost(pieces + 2) + 4;
/** A design may lack as much of its area, as a share, or of its walls, mm. */
const mostLack = 1e-5;

/** The designs of a result that keep their limits. */
export function refinedOf({ reached }: RefineResult): Refined[] {
  return reached
    .filter(({ violation, cost }) => violation <= mostLack && cost > 0)
    .map(({ design, area, cost, locallyOptimalWithin }) => ({ design, size: area, cost, locallyOptimalWithin }));
}

export const isFinished = ({ design }: Refined): boolean => design.form.knots.length + 1 === finish.pieces;

/** Those of many coefficients, from which a front can be followed; all where there are none. */
export function finishedOf(found: readonly Refined[]): readonly Refined[] {
  const finished = found.filter(isFinished);
  return finished.length > 1 ? finished : found;
}

export const sizeOf = ({ size }: Sized): number => size;
export const costOf = ({ cost }: Sized): number => cost;

/** By growing size, those that no other one is as good as. */
export const frontOf = <T extends Sized>(found: readonly T[]): T[] => bestBySize(found, sizeOf, costOf);

export function nearestTo<T extends Sized>(size: number, known: readonly T[]): T {
  return known.reduce((a, b) => (Math.abs(b.size - size) < Math.abs(a.size - size) ? b : a));
}

/** Cost at a size on the straight line between the designs of a front on both sides of it: that of the smallest below it, infinite above the largest. */
export function costBetween(front: readonly Sized[], size: number): number {
  const k = front.findIndex((one) => one.size >= size);
  if (k < 0) return Number.POSITIVE_INFINITY;
  const [below, above] = [front[k - 1] ?? front[k]!, front[k]!];
  const share = above === below ? 0 : (size - below.size) / (above.size - below.size);
  return below.cost + share * (above.cost - below.cost);
}
