import type { Host, ReducedModel } from '../host/index.js';
import type { ActingLoad, CaseSlopes, SolvedEdge } from '../stress/index.js';
import type { CaseFactors } from './case-split.js';
import type { PointStress } from './criteria.js';
import type { FirstFailure } from './first-failure.js';
import type { JudgedPoint } from './judged-points.js';
import type { FailurePlace } from './place-strengths.js';
import { createPlaceStress } from './place-stress.js';
import { layOut, othersOf } from './row-checks.js';
import { createSectionJudge } from './section-judge.js';
import { type AddStretchRates, createStretchRates, type StretchFailures } from './stretch-rates.js';

/** Stress at a point of the section, MPa, and the angle of its normal from the x axis; the tangent lies 90 degrees clockwise of it. */
export interface FailureStress extends Readonly<PointStress> {
  readonly normalAngle: number;
}

/** The largest tension along an edge, MPa, and where it is, mm. */
export interface EdgeTension {
  readonly stress: number;
  readonly x: number;
  readonly y: number;
}

/** First failure over the section points outside the control contour, from the moments of a channel's edge. */
export interface SectionStrength {
  /** The places that are judged. */
  readonly places: readonly FailurePlace[];
  /**
   * Takes a solved edge; `undefined`: no channel. With `oneSide`, only the right half is judged. Of a host without mirror symmetry, all its points are.
   * Where `spared`, the filler is not judged.
   */
  take(edge: SolvedEdge | undefined, oneSide: boolean, spared?: (x: number, y: number) => boolean): void;
  /** Lowers `first` where a point fails at a smaller factor. `only`: one place, of which no point is passed over. */
  judge(factors: CaseFactors, first: FirstFailure, only?: FailurePlace): void;
  /** Stress where a failure that was judged so starts, at its load factor; `undefined` where it starts at none of the points. */
  stressAt(factors: CaseFactors, first: Readonly<FirstFailure>): FailureStress | undefined;
  /** Largest tension along a free edge in one case with its loads as given, and where; `undefined` where that is no place of the section. */
  tensionAlong(factors: CaseFactors, place: FailurePlace): EdgeTension | undefined;
  /** All that is judged, row by row. */
  readonly rows: readonly (readonly JudgedPoint[])[];
  /** Lowers `out`, a number to each point of `rows`, to the load factors at which the points fail; none is passed over. */
  lowerEach(factors: CaseFactors, out: Float64Array): void;
  /** Stretches of the section's rows of points, a criterion each, on one side. */
  readonly stretches: number;
  /** Sides that are judged of what was taken last. */
  sides(): number;
  /** As `judge`, all places, and writes the first failures of stretches. */
  judgeStretches(factors: CaseFactors, first: FirstFailure, out: StretchFailures): void;
  /** Takes the slopes of the edge that was taken last. */
  takeSlopes(slopes: CaseSlopes): void;
  readonly addStretchRates: AddStretchRates;
}

/**
 * @param keep whether a point is judged (those near the cusps are not)
 */
export function createSectionStrength(
  model: ReducedModel,
  host: Host,
  loads: readonly ActingLoad[],
  keep: (x: number, y: number) => boolean,
): SectionStrength {
  const { rows, order, placeOf, checks } = layOut(model, host, keep);
  const stresses = createPlaceStress(model, loads, order);
  const judge = createSectionJudge(checks, order, stresses, loads.length);
  /** Of the points that are always looked at, one to a stretch: the last stretch of a row is its last point. */
  const checkOf = checks.flatMap((check) => check.always.map(() => check));
  const stretches = checkOf.length;
  const addStretchRates = createStretchRates(stresses, stretches, (stretch, i) => {
    const { criterion, tension, shear, kinking } = checkOf[stretch]!;
    return { criterion, tension: kinking?.[i] ?? tension, shear };
  });

  return {
    places: [...new Set(checks.map(({ place }) => place))],
    take(edge, oneSide, isSpared) {
      judge.spare(isSpared);
      stresses.take(edge, oneSide);
    },
    judge: (split, first, only) => judge.judge({ split, first, only }),
    stressAt(given, { place, criterion, factor, x, y }) {
      const held: PointStress = { n: 0, t: 0, s: 0 };
      const grown: PointStress = { n: 0, t: 0, s: 0 };
      for (const side of stresses.sides()) {
        const { sign } = side;
        for (const check of checks) {
          if (check.place !== place || check.criterion !== criterion) continue;
          const i = [...check.always, ...othersOf(check)].find((p) => {
            const { at } = order.points[p]!;
            return sign * at.x === x && at.y === y;
          });
          if (i === undefined) continue;
          stresses.combine(i, side, given, held, grown);
          const { normalAngle } = order.points[i]!.at;
          const [n, t, s] = (['n', 't', 's'] as const).map((of) => held[of] + factor * grown[of]) as [
            number,
            number,
            number,
          ];
          // A point on the left is told in mirrored axes.
          return { n, t, s: sign * s, normalAngle: sign === 1 ? normalAngle : Math.PI - normalAngle };
        }
      }
      return undefined;
    },
    tensionAlong(given, place) {
      const held: PointStress = { n: 0, t: 0, s: 0 };
      const grown: PointStress = { n: 0, t: 0, s: 0 };
      let largest: EdgeTension | undefined;
      for (const side of stresses.sides())
        for (const check of checks) {
          if (check.place !== place) continue;
          for (const i of [...check.always, ...othersOf(check)]) {
            stresses.combine(i, side, given, held, grown);
            const stress = held.t + grown.t;
            if (largest !== undefined && stress <= largest.stress) continue;
            const { x, y } = order.points[i]!.at;
            largest = { stress, x: side.sign * x, y };
          }
        }
      return largest;
    },
    rows,
    lowerEach(split, out) {
      const numbers = rows.flat().map((point) => placeOf.get(point)!);
      const found = new Float64Array(numbers.length).fill(Number.POSITIVE_INFINITY);
      for (const side of stresses.sides())
        for (const check of checks)
          for (const i of [...check.always, ...othersOf(check)])
            found[i] = Math.min(found[i]!, judge.factorOf(split, check, i, side));
      numbers.forEach((i, n) => {
        out[n] = Math.min(out[n]!, found[i]!);
      });
    },
    stretches,
    sides: () => stresses.sides().length,
    judgeStretches: (split, first, found) => judge.judge({ split, first, found }),
    takeSlopes: stresses.takeSlopes,
    addStretchRates,
  };
}
