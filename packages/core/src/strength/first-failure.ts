import type { FailurePlace } from './place-strengths.js';

/** What a place fails by: tension across what splits, compression along fibres, or what parts plies from each other and from what lies beside them. */
export type FailureCriterion = 'splitting' | 'kinking' | 'delamination';

/** Where and at which load factor a joint fails first. Written again by the next evaluation. */
export interface FirstFailure {
  /** 0: the pre-stress alone fails; Infinity: nothing fails, whatever the load. */
  factor: number;
  /** 'none' where nothing fails. */
  place: FailurePlace | 'none';
  criterion: FailureCriterion | 'none';
  /** mm */
  x: number;
  y: number;
}

export function clearFailure(first: FirstFailure): void {
  first.factor = Number.POSITIVE_INFINITY;
  first.place = 'none';
  first.criterion = 'none';
  first.x = Number.NaN;
  first.y = Number.NaN;
}

export function copyFailure(from: FirstFailure, into: FirstFailure): void {
  into.factor = from.factor;
  into.place = from.place;
  into.criterion = from.criterion;
  into.x = from.x;
  into.y = from.y;
}

export function createFailure(): FirstFailure {
  return { factor: Number.POSITIVE_INFINITY, place: 'none', criterion: 'none', x: Number.NaN, y: Number.NaN };
}
