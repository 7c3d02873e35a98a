import type { CaseFactors } from './case-split.js';
import type { FirstFailure } from './first-failure.js';
import type { FailurePlace } from './place-strengths.js';
import type { PlaceStress, SectionSide } from './place-stress.js';
import type { PlaceOrder } from './place-table.js';
import { createPointJudge, type NotedPoint, noPoint, type PointJudge } from './point-judge.js';
import type { Check } from './row-checks.js';
import type { StretchFailures } from './stretch-rates.js';

/** Of a row not all points are always looked at (`PlaceDefinition.stride`): the factor may dip by this between those that are. */
const nearLeast = 1.6;

/** What is judged: one case, or one place of it. */
export interface SectionCase {
  readonly split: CaseFactors;
  /** Lowered to the first failure. */
  readonly first: FirstFailure;
  /** Of this place alone, no point is passed over. */
  readonly only?: FailurePlace | undefined;
  /** Where to write the first failures of stretches, side by side. */
  readonly found?: StretchFailures;
}

/** Judges the checks of a section, case by case. */
export interface SectionJudge extends Pick<PointJudge, 'spare' | 'factorOf'> {
  judge(one: SectionCase): void;
}

export function createSectionJudge(
  checks: readonly Check[],
  { points }: PlaceOrder,
  stresses: PlaceStress,
  loads: number,
): SectionJudge {
  const stretches = checks.reduce((sum, { always }) => sum + always.length, 0);
  const factors = new Float64Array(stretches);
  /** Checks of which no point that is always looked at comes near the first failure of the case. */
  const far = new Uint8Array(checks.length);
  /** Of the outline that was judged last: a bound to begin with. What is found does not depend on it. */
  const hints = new WeakMap<CaseFactors, readonly NotedPoint[]>();
  const point = createPointJudge(stresses, points, loads);
  const { judgePoint, farFrom, spares } = point;
  /** What is being judged. */
  let split: CaseFactors;
  let first: FirstFailure;

  /** A load factor that the first failure of a side does not exceed once its points that are always looked at are judged. */
  const foretold = ({ check, i }: NotedPoint, side: SectionSide): number =>
    check === undefined ? Number.POSITIVE_INFINITY : point.factorOf(split, check, i, side);

  const hintsOf = (given: CaseFactors): readonly NotedPoint[] => {
    const known = hints.get(given) ?? [noPoint(), noPoint()];
    hints.set(given, known);
    return known;
  };

  /** The points that are always looked at. */
  const judgeAlways = (side: SectionSide, { only, found }: SectionCase, most: number, at: number): void => {
    let n = 0;
    for (let c = 0; c < checks.length; c++) {
      const check = checks[c]!;
      if (only !== undefined && check.place !== only) continue;
      const { always } = check;
      // What is far stays so: the first failure only comes nearer.
      if (far[c] === 0 && farFrom(check, undefined, nearLeast * Math.min(first.factor, most))) far[c] = 1;
      if (far[c] === 1) {
        found?.factors.fill(Number.POSITIVE_INFINITY, at + n, at + n + always.length);
        if (found !== undefined) found.points.set(always, at + n);
        n += always.length;
        continue;
      }
      for (const i of always) {
        const factor = judgePoint(check, i, side, nearLeast * Math.min(first.factor, most));
        if (found !== undefined) {
          found.factors[at + n] = spares(check, i, side) ? Number.POSITIVE_INFINITY : factor;
          found.points[at + n] = i;
        }
        factors[n++] = factor;
      }
    }
  };

  /** Those between two of which one comes near the first failure, or all. */
  const judgeBetween = (side: SectionSide, { only, found }: SectionCase, at: number): void => {
    let n = 0;
    for (let c = 0; c < checks.length; c++) {
      const check = checks[c]!;
      if (only !== undefined && check.place !== only) continue;
      const { length } = check.always;
      for (let k = 0; k + 1 < length && (only !== undefined || far[c] === 0); k++) {
        const near = Math.min(factors[n + k]!, factors[n + k + 1]!) < nearLeast * first.factor;
        if (only === undefined && !near) continue;
        for (let i = check.between[k]!; i < check.between[k + 1]!; i++) {
          const factor = judgePoint(check, i, side, found === undefined ? first.factor : nearLeast * first.factor);
          if (found === undefined || !(factor < found.factors[at + n + k]!) || spares(check, i, side)) continue;
          found.factors[at + n + k] = factor;
          found.points[at + n + k] = i;
        }
      }
      n += length;
    }
  };

  return {
    spare: point.spare,
    judge(one) {
      split = one.split;
      first = one.first;
      point.begin(split, first);
      far.fill(0);
      const known = one.only === undefined && one.found === undefined ? hintsOf(split) : undefined;
      const sides = stresses.sides();
      for (let s = 0; s < sides.length; s++) {
        const side = sides[s]!;
        const hint = known?.[s];
        point.noted.check = undefined;
        judgeAlways(side, one, hint === undefined ? Number.POSITIVE_INFINITY : foretold(hint, side), s * stretches);
        if (hint !== undefined) Object.assign(hint, point.noted);
        judgeBetween(side, one, s * stretches);
      }
    },
    factorOf: point.factorOf,
  };
}
