import type { CaseFactors } from './case-split.js';
import {
  delaminationFactor,
  type PointStress,
  principalFactor,
  staysClosed,
  staysWhole,
  tensionFactor,
  withstandsDelamination,
  withstandsSplitting,
} from './criteria.js';
import type { FirstFailure } from './first-failure.js';
import type { JudgedPoint } from './judged-points.js';
import type { PlaceStress, SectionSide } from './place-stress.js';
import type { Check } from './row-checks.js';

/** Where a case failed first, if anywhere. */
export interface NotedPoint {
  check: Check | undefined;
  i: number;
}

export const noPoint = (): NotedPoint => ({ check: undefined, i: 0 });

/** Judges single points of checks, case by case. */
export interface PointJudge {
  /** Where the edge's criterion has the say, until the next call. */
  spare(spared: ((x: number, y: number) => boolean) | undefined): void;
  /** Takes a case, and what it lowers to the first failure. */
  begin(split: CaseFactors, first: FirstFailure): void;
  /** The last point that it was lowered to. */
  readonly noted: NotedPoint;
  /** Whether the edge's criterion has the say at a point. */
  spares(check: Check, i: number, side: SectionSide): boolean;
  /** Whether a point, or all of a check's row that is always looked at, withstands all up to a load factor, by a bound of its stress. */
  farFrom(check: Check, i: number | undefined, enough: number): boolean;
  /** Lowers the first failure to a point; its load factor is known to be right where it is below `enough`. */
  judgePoint(check: Check, i: number, side: SectionSide, enough: number): number;
  /** Load factor of a point; Infinity where the edge's criterion has the say. */
  factorOf(split: CaseFactors, check: Check, i: number, side: SectionSide): number;
}

export function createPointJudge(stresses: PlaceStress, points: readonly JudgedPoint[], loads: number): PointJudge {
  /** Stress at the point that is being judged. */
  const held: PointStress = { n: 0, t: 0, s: 0 };
  const grown: PointStress = { n: 0, t: 0, s: 0 };
  /** Factor of each load that no combination up to a load factor exceeds. */
  const reach = {
    factor: Number.NaN,
    split: undefined as CaseFactors | undefined,
    most: new Float64Array(loads),
  };
  const noted = noPoint();
  let spared: ((x: number, y: number) => boolean) | undefined;
  let split: CaseFactors;
  let first: FirstFailure;

  const spares: PointJudge['spares'] = ({ criterion }, i, { sign }) => {
    const { x, y } = points[i]!.at;
    return criterion === 'splitting' && spared !== undefined && spared(sign * x, y);
  };

  /** Of what is taken; Infinity where it is above `enough`, which is quicker to see. */
  const factorOfTaken = ({ criterion, tension, shear, kinking }: Check, i: number, enough: number): number => {
    if (criterion === 'kinking') return tensionFactor(-held.t, -grown.t, kinking![i]!);
    if (criterion === 'splitting')
      return withstandsSplitting(held, grown, tension, enough)
        ? Number.POSITIVE_INFINITY
        : principalFactor(held, grown, tension);
    return withstandsDelamination(held, grown, tension, shear, enough)
      ? Number.POSITIVE_INFINITY
      : delaminationFactor(held, grown, tension, shear);
  };

  const note = (check: Check, i: number, factor: number, side: SectionSide): void => {
    if (spares(check, i, side)) return;
    const { x, y } = points[i]!.at;
    first.factor = factor;
    first.place = check.place;
    first.criterion = check.criterion;
    first.x = side.sign * x;
    first.y = y;
    noted.check = check;
    noted.i = i;
  };

  const farFrom: PointJudge['farFrom'] = ({ criterion, tension, shear, kinking, row }, i, enough) => {
    if (enough === Number.POSITIVE_INFINITY) return false;
    if (enough !== reach.factor || split !== reach.split) {
      reach.factor = enough;
      reach.split = split;
      for (let l = 0; l < loads; l++) reach.most[l] = Math.abs(split.fixed[l]!) + enough * Math.abs(split.scaled[l]!);
    }
    if (i === undefined) stresses.boundRow(row, reach.most, held);
    else stresses.bound(i, reach.most, held);
    // Strengths against kinking differ along a row.
    if (criterion === 'kinking') return i !== undefined && held.t < kinking![i]!;
    if (criterion === 'splitting') return staysWhole(held, tension);
    return staysClosed(held, tension, shear);
  };

  return {
    spare(given) {
      spared = given;
    },
    begin(given, lowered) {
      split = given;
      first = lowered;
    },
    noted,
    spares,
    farFrom,
    judgePoint(check, i, side, enough) {
      if (farFrom(check, i, enough)) return Number.POSITIVE_INFINITY;
      stresses.combine(i, side, split, held, grown);
      const factor = factorOfTaken(check, i, enough);
      if (factor < first.factor) note(check, i, factor, side);
      return factor;
    },
    factorOf(given, check, i, side) {
      if (spares(check, i, side)) return Number.POSITIVE_INFINITY;
      stresses.combine(i, side, given, held, grown);
      return factorOfTaken(check, i, Number.POSITIVE_INFINITY);
    },
  };
}
