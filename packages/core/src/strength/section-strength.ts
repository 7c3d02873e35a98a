import { type Host, hostKind, type ReducedModel, splitsAt } from '../host/index.js';
import type { ActingLoad, CaseSlopes, SolvedEdge } from '../stress/index.js';
import type { CaseFactors } from './case-split.js';
import {
  delaminationFactor,
  type PointStress,
  principalFactor,
  tensionFactor,
  withstandsDelamination,
  withstandsSplitting,
} from './criteria.js';
import type { FailureCriterion, FirstFailure } from './first-failure.js';
import { type JudgedPoint, judgedRows } from './judged-points.js';
import type { FailurePlace } from './place-strengths.js';
import { createPlaceStress, type PlaceOrder, type SectionSide } from './place-stress.js';
import { type AddStretchRates, createStretchRates, type StretchFailures } from './stretch-rates.js';

/** Stress at a point of the section, MPa, and the angle of its normal from the x axis; the tangent lies 90 degrees clockwise of it. */
export interface FailureStress extends Readonly<PointStress> {
  readonly normalAngle: number;
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

/** Of a row not all points are always looked at (`PlaceDefinition.stride`): the factor may dip by this between those that are. */
const nearLeast = 1.6;

const unstressed: PointStress = { n: 0, t: 0, s: 0 };

/** One criterion along one row of points. */
interface Check {
  readonly place: FailurePlace;
  readonly criterion: FailureCriterion;
  readonly tension: number;
  readonly shear: number;
  /** Of what kinks, by the points' places in the buffers: along a row fibres lean more and less. */
  readonly kinking?: Float64Array;
  /** Number of the row in the buffers' order, and those of its points. `between[k]` to before `between[k + 1]` lie between points k and k + 1 of `always`. */
  readonly row: number;
  readonly always: readonly number[];
  readonly between: readonly number[];
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
  /** Of the points that are always looked at, one to a stretch: the last stretch of a row is its last point. */
  const checkOf = checks.flatMap((check) => check.always.map(() => check));
  const stretches = checkOf.length;
  const factors = new Float64Array(stretches);
  /** Stress at the point that is being judged. */
  const held: PointStress = { n: 0, t: 0, s: 0 };
  const grown: PointStress = { n: 0, t: 0, s: 0 };
  const addStretchRates = createStretchRates(stresses, stretches, (stretch, i) => {
    const { criterion, tension, shear, kinking } = checkOf[stretch]!;
    return { criterion, tension: kinking?.[i] ?? tension, shear };
  });
  /** Factor of each load that no combination up to a load factor exceeds. */
  const reach = {
    factor: Number.NaN,
    split: undefined as CaseFactors | undefined,
    most: new Float64Array(loads.length),
  };
  let spared: ((x: number, y: number) => boolean) | undefined;
  /** What is being judged. */
  let split: CaseFactors;
  let first: FirstFailure;

  /** Load factor of one point; Infinity where it is above `enough`, which is quicker to see. */
  const factorAt = (
    { criterion, tension, shear, kinking }: Check,
    i: number,
    side: SectionSide,
    enough: number,
  ): number => {
    stresses.combine(i, side, split, held, grown);
    if (criterion === 'kinking') return tensionFactor(-held.t, -grown.t, kinking![i]!);
    if (criterion === 'splitting')
      return withstandsSplitting(held, grown, tension, enough)
        ? Number.POSITIVE_INFINITY
        : principalFactor(held, grown, tension);
    return withstandsDelamination(held, grown, tension, shear, enough)
      ? Number.POSITIVE_INFINITY
      : delaminationFactor(held, grown, tension, shear);
  };

  /** Whether a point, or all of a check's row that is always looked at, withstands all up to a load factor, by a bound of its stress. */
  const farFrom = (
    { criterion, tension, shear, kinking, row }: Check,
    i: number | undefined,
    enough: number,
  ): boolean => {
    if (enough === Number.POSITIVE_INFINITY) return false;
    if (enough !== reach.factor || split !== reach.split) {
      reach.factor = enough;
      reach.split = split;
      for (let l = 0; l < loads.length; l++)
        reach.most[l] = Math.abs(split.fixed[l]!) + enough * Math.abs(split.scaled[l]!);
    }
    if (i === undefined) stresses.boundRow(row, reach.most, held);
    else stresses.bound(i, reach.most, held);
    // Strengths against kinking differ along a row.
    if (criterion === 'kinking') return i !== undefined && held.t < kinking![i]!;
    if (criterion === 'splitting') return withstandsSplitting(held, unstressed, tension, 0);
    return withstandsDelamination(held, unstressed, tension, shear, 0);
  };

  /** Lowers `first` to a point; its load factor is known to be right where it is below `enough`. */
  const judgePoint = (check: Check, i: number, side: SectionSide, enough: number): number => {
    if (farFrom(check, i, enough)) return Number.POSITIVE_INFINITY;
    const factor = factorAt(check, i, side, enough);
    if (factor < first.factor) note(check, i, factor, side);
    return factor;
  };

  /** Whether the edge's criterion has the say at a point. */
  const spares = ({ criterion }: Check, i: number, { sign }: SectionSide): boolean => {
    const { x, y } = order.points[i]!.at;
    return criterion === 'splitting' && spared !== undefined && spared(sign * x, y);
  };

  const note = (check: Check, i: number, factor: number, side: SectionSide): void => {
    const { sign } = side;
    const { x, y } = order.points[i]!.at;
    if (spares(check, i, side)) return;
    first.factor = factor;
    first.place = check.place;
    first.criterion = check.criterion;
    first.x = sign * x;
    first.y = y;
  };

  /** `found`: the failures of stretches, from `at` on. */
  const judgeSide = (side: SectionSide, only: FailurePlace | undefined, found?: StretchFailures, at = 0): void => {
    let n = 0;
    for (const check of checks) {
      if (only !== undefined && check.place !== only) continue;
      const isFar = farFrom(check, undefined, nearLeast * first.factor);
      for (const i of check.always) {
        const factor = isFar ? Number.POSITIVE_INFINITY : judgePoint(check, i, side, nearLeast * first.factor);
        if (found !== undefined) {
          found.factors[at + n] = spares(check, i, side) ? Number.POSITIVE_INFINITY : factor;
          found.points[at + n] = i;
        }
        factors[n++] = factor;
      }
    }
    n = 0;
    for (const check of checks) {
      if (only !== undefined && check.place !== only) continue;
      const { length } = check.always;
      for (let k = 0; k + 1 < length; k++) {
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
    places: [...new Set(checks.map(({ place }) => place))],
    take(edge, oneSide, isSpared) {
      spared = isSpared;
      stresses.take(edge, oneSide);
    },
    judge(given, into, only) {
      split = given;
      first = into;
      for (const side of stresses.sides()) judgeSide(side, only);
    },
    stressAt(given, { place, criterion, factor, x, y }) {
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
    rows,
    lowerEach(given, out) {
      split = given;
      const numbers = rows.flat().map((point) => placeOf.get(point)!);
      const found = new Float64Array(numbers.length).fill(Number.POSITIVE_INFINITY);
      for (const side of stresses.sides())
        for (const check of checks)
          for (const i of [...check.always, ...othersOf(check)])
            if (!spares(check, i, side))
              found[i] = Math.min(found[i]!, factorAt(check, i, side, Number.POSITIVE_INFINITY));
      numbers.forEach((i, n) => {
        out[n] = Math.min(out[n]!, found[i]!);
      });
    },
    stretches,
    sides: () => stresses.sides().length,
    judgeStretches(given, into, out) {
      split = given;
      first = into;
      for (const [s, side] of stresses.sides().entries()) judgeSide(side, undefined, out, s * stretches);
    },
    takeSlopes: stresses.takeSlopes,
    addStretchRates,
  };
}

/** The judged points and what is checked of them. */
function layOut(model: ReducedModel, host: Host, keep: (x: number, y: number) => boolean) {
  const { places } = hostKind(host.kind);
  const judged = judgedRows(model, keep);
  const rows = judged.map((row) => {
    const { stride } = places[row[0]!.at.place]!;
    return {
      always: row.filter((_, k) => isAlways(k, row.length, stride)),
      others: row.filter((_, k) => !isAlways(k, row.length, stride)),
      stride,
    };
  });
  const always = rows.flatMap((row) => row.always);
  const order: PlaceOrder = {
    points: [...always, ...rows.flatMap((row) => row.others)],
    rows: startsOf(rows.map((row) => row.always.length)),
    tangential: (p) => {
      const { principal, kinking } = host.strengthAt(p);
      return Number.isFinite(principal) || kinking !== undefined;
    },
  };
  const placeOf = new Map(order.points.map((p, i) => [p, i]));
  const checks = rows.flatMap((row, r) => checksOf(row, r, placeOf, host));
  return { rows: judged, order, placeOf, checks };
}

/** Numbers of a check's points that are not always looked at. */
const othersOf = ({ between }: Check): number[] =>
  Array.from({ length: between.at(-1)! - between[0]! }, (_, k) => between[0]! + k);

/** Where parts of given lengths begin one after the other, and where the last one ends. */
function startsOf(lengths: readonly number[]): number[] {
  const starts = [0];
  for (const length of lengths) starts.push(starts.at(-1)! + length);
  return starts;
}

/** Of a row of points: those that are always looked at, every `stride`th and the last, and the others. */
interface Row {
  readonly always: readonly JudgedPoint[];
  readonly others: readonly JudgedPoint[];
  readonly stride: number;
}

const isAlways = (k: number, length: number, stride: number): boolean => k % stride === 0 || k === length - 1;

function checksOf(row: Row, number: number, placeOf: ReadonlyMap<JudgedPoint, number>, host: Host): Check[] {
  const { at } = row.always[0]!;
  const { place } = at;
  const { tension, shear, principal, kinking } = host.strengthAt(at);
  const always = row.always.map((p) => placeOf.get(p)!);
  // The others of a row lie one after the other in the buffers.
  const start = row.others.length > 0 ? placeOf.get(row.others[0]!)! : 0;
  const between = always.map((_, k) => start + Math.min(row.others.length, k * (row.stride - 1)));
  const unlimited = Number.POSITIVE_INFINITY;
  const common = { place, tension: unlimited, shear: unlimited, row: number, always, between };
  const checks: Check[] = [];
  if (Number.isFinite(tension)) checks.push({ ...common, criterion: 'delamination', tension, shear });
  if (Number.isFinite(principal))
    checks.push({ ...common, place: splitsAt(host.kind, place), criterion: 'splitting', tension: principal });
  if (kinking !== undefined) {
    const strengths = new Float64Array(placeOf.size);
    for (const p of [...row.always, ...row.others])
      strengths[placeOf.get(p)!] = host.strengthAt(p.at).kinking ?? unlimited;
    checks.push({ ...common, criterion: 'kinking', kinking: strengths });
  }
  return checks;
}
