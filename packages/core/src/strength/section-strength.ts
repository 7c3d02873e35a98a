import { halfSize } from '../edge/index.js';
import { type Host, hostKind, isMirrored, type ReducedModel, type SectionPoint } from '../host/index.js';
import { multiply } from '../linear/index.js';
import type { ActingLoad } from '../stress/index.js';
import type { ChannelStress } from './channel-stress.js';
import { delaminationFactor, principalFactor, withstandsDelamination, withstandsSplitting } from './criteria.js';
import type { FirstFailure } from './first-failure.js';
import type { FailurePlace } from './place-strengths.js';

/** First failure over the section points outside the control contour, from the moments of a channel's edge. */
export interface SectionStrength {
  /** The places that are judged. */
  readonly places: readonly FailurePlace[];
  /**
   * Takes the moments, one array per load, of the outline that the channel's stress holds; `undefined`: no channel. With `mirror`, moments
   * of the symmetric class only, and only the right half is judged. Of a host without mirror symmetry, all its points are. The moments must stay as they are until the last `judge`. Where
   * `spared`, the filler is not judged.
   */
  take(moments: readonly Float64Array[] | undefined, mirror: boolean, spared?: (x: number, y: number) => boolean): void;
  /** Lowers `first` where a point fails at a smaller factor: `fixed` and `scaled` are factors of the loads. `only`: one place. */
  judge(fixed: Float64Array, scaled: Float64Array, first: FirstFailure, only?: FailurePlace): void;
}

/** Of a row not all points are always looked at (`PlaceDefinition.stride`): the factor may dip by this between those that are. */
const nearLeast = 1.6;

/**
 * Where the channel passes near an interface, the moments do not tell all of its field, degree by degree less, and the map errs
 * by up to 7 % of the largest stress. There the field around the channel is continued beyond the control contour (`PlaceMaps.continued`),
 * which gives normal and shear stress three times as well. The field is dear: it is asked only where the map comes near the least factor.
 */
/** How near: by so much may the map's load factor be too high. Small tensions that delaminate err by more of themselves. */
const closeCall = { splitting: 1.15, delamination: 2 } as const;

/** One criterion along one row of points. */
interface Check {
  readonly place: FailurePlace;
  /** Largest principal stress of the filler; otherwise delamination. */
  readonly splitting: boolean;
  readonly tension: number;
  readonly shear: number;
  /** Numbers of the points in the buffers' order. `between[k]` to before `between[k + 1]` lie between points k and k + 1 of `always`. */
  readonly always: readonly number[];
  readonly between: readonly number[];
}

/**
 * @param channel the stress around the channel, which takes an outline before this does
 * @param keep whether a point is judged (those near the cusps are not)
 */
export function createSectionStrength(
  model: ReducedModel,
  host: Host,
  loads: readonly ActingLoad[],
  channel: ChannelStress,
  keep: (x: number, y: number) => boolean,
): SectionStrength {
  const { points, change } = model.places;
  const half = halfSize(model.basis.degree);
  const mirrored = isMirrored(model);
  const rows = rowsOf(model, keep);
  const { places } = hostKind(host.kind);
  const strideOf = (row: readonly number[]) => places[points[row[0]!]!.place]!.stride;
  const always = rows.flatMap((row) => row.filter((_, k) => isAlways(k, row.length, strideOf(row))));
  const others = rows.flatMap((row) => row.filter((_, k) => !isAlways(k, row.length, strideOf(row))));
  /** Point of each place in the buffers: those always looked at come first. */
  const order = [...always, ...others];
  const checks = rows.flatMap((row) => checksOf(row, order, strideOf(row), points[row[0]!]!, host));

  /** Where a point's stresses begin in the buffers: normal, shear and, only where the filler can split, tangential. */
  const starts = new Int32Array(order.length + 1);
  order.forEach((p, i) => {
    starts[i + 1] = starts[i]! + (Number.isFinite(host.strengthAt(points[p]!).principal) ? 3 : 2);
  });
  const size = starts[order.length]!;
  const firstSize = starts[always.length]!;
  const pick = (all: Float64Array, offset: number, columns: number) => {
    const out = new Float64Array(size * columns);
    order.forEach((p, i) => {
      for (let c = 0; c < starts[i + 1]! - starts[i]!; c++) {
        const from = offset + (3 * p + components[c]!) * columns;
        out.set(all.subarray(from, from + columns), (starts[i]! + c) * columns);
      }
    });
    return out;
  };
  const none = new Float64Array(0);
  /** Over the moments of the symmetric class and of the other; of a host without mirror symmetry, over all of them at once. */
  const maps = change.map((map) =>
    'whole' in map
      ? { even: pick(map.whole, 0, 2 * half), odd: none, columns: 2 * half }
      : { even: pick(map.symmetric, 0, half), odd: pick(map.antisymmetric, 0, half), columns: half },
  );
  const still = loads.map(({ atPlaces }) => {
    const [even, odd] = [pick(atPlaces, 0, 1), pick(atPlaces, 3 * points.length, 1)];
    return mirrored ? { even, odd } : { even: even.map((value, i) => value + odd[i]!), odd: none };
  });
  /** Stress of every load on the right and, in mirrored axes, on the left; without mirror symmetry, all over. */
  const right = loads.map(() => new Float64Array(size));
  const left = loads.map(() => new Float64Array(size));
  const odd = new Float64Array(firstSize);
  /** Evaluation in which a point's stress was worked out. */
  const worked = new Int32Array(order.length);
  const factors = new Float64Array(checks.reduce((sum, check) => sum + check.always.length, 0));
  const { continued } = model.places;
  const besideContour = Uint8Array.from(order, (p) => continued.points[p]!);
  /** Evaluations in which a point's stress was taken from the field, on the right and on the left. */
  const refined = { right: new Int32Array(order.length), left: new Int32Array(order.length) };
  let evaluation = 0;
  let moments: readonly Float64Array[] | undefined;
  let oneSide = false;
  let spared: ((x: number, y: number) => boolean) | undefined;

  /** Stress of a point that is not always looked at, under every load. */
  const workOut = (i: number): void => {
    if (worked[i] === evaluation) return;
    worked[i] = evaluation;
    for (let l = 0; l < loads.length; l++) {
      const map = moments && maps[loads[l]!.responseIndex];
      for (let at = starts[i]!; at < starts[i + 1]!; at++) {
        let even = still[l]!.even[at]!;
        if (map !== undefined) even += rowTimes(map.even, at, map.columns, moments![l]!, 0);
        right[l]![at] = even;
        if (oneSide) continue;
        let uneven = still[l]!.odd[at]!;
        if (map !== undefined) uneven += rowTimes(map.odd, at, half, moments![l]!, half);
        right[l]![at] = even + uneven;
        left[l]![at] = even - uneven;
      }
    }
  };

  /** Load factor of one point; Infinity where it is above `enough`, which is quicker to see. */
  const factorAt = (
    { splitting, tension, shear }: Check,
    i: number,
    side: readonly Float64Array[],
    fixed: Float64Array,
    scaled: Float64Array,
    enough: number,
  ): number => {
    const at = starts[i]!;
    let n0 = 0;
    let t0 = 0;
    let s0 = 0;
    let n1 = 0;
    let t1 = 0;
    let s1 = 0;
    for (let l = 0; l < side.length; l++) {
      const stress = side[l]!;
      const held = fixed[l]!;
      const grown = scaled[l]!;
      n0 += held * stress[at]!;
      s0 += held * stress[at + 1]!;
      n1 += grown * stress[at]!;
      s1 += grown * stress[at + 1]!;
      if (!splitting) continue;
      t0 += held * stress[at + 2]!;
      t1 += grown * stress[at + 2]!;
    }
    if (splitting)
      return withstandsSplitting(n0, t0, s0, n1, t1, s1, tension, enough)
        ? Number.POSITIVE_INFINITY
        : principalFactor(n0, t0, s0, n1, t1, s1, tension);
    return withstandsDelamination(n0, s0, n1, s1, tension, shear, enough)
      ? Number.POSITIVE_INFINITY
      : delaminationFactor(n0, s0, n1, s1, tension, shear);
  };

  /** Puts the field's stress in the place of the map's, if the edge is near; whether anything changed. */
  const refine = (i: number, side: readonly Float64Array[], sign: 1 | -1): boolean => {
    const done = sign === 1 ? refined.right : refined.left;
    if (done[i] === evaluation || moments === undefined) return false;
    done[i] = evaluation;
    const { x, y, normalAngle } = points[order[i]!]!;
    if (channel.distance(sign * x, y) > continued.within) return false;
    const c = Math.cos(normalAngle);
    const s = Math.sin(normalAngle);
    const stresses = channel.at(sign * x, y);
    for (let l = 0; l < loads.length; l++) {
      const { xx, yy } = stresses[l]!;
      // On the left in mirrored axes.
      const xy = sign * stresses[l]!.xy;
      side[l]![starts[i]!] = xx * c * c + yy * s * s + 2 * xy * c * s;
      side[l]![starts[i]! + 1] = (xx - yy) * c * s - xy * (c * c - s * s);
      if (starts[i]! + 2 < starts[i + 1]!) side[l]![starts[i]! + 2] = xx * s * s + yy * c * c - 2 * xy * c * s;
    }
    return true;
  };

  /** Load factor of one point, known to be right where it is below `enough`. */
  const judgePoint = (
    check: Check,
    i: number,
    side: readonly Float64Array[],
    sign: 1 | -1,
    fixed: Float64Array,
    scaled: Float64Array,
    first: FirstFailure,
    enough: number,
  ): number => {
    if (besideContour[i] === 0) return factorAt(check, i, side, fixed, scaled, enough);
    const near = (check.splitting ? closeCall.splitting : closeCall.delamination) * first.factor;
    const factor = factorAt(check, i, side, fixed, scaled, Math.max(enough, near));
    return factor < near && refine(i, side, sign) ? factorAt(check, i, side, fixed, scaled, enough) : factor;
  };

  const judgeSide = (
    side: readonly Float64Array[],
    sign: 1 | -1,
    fixed: Float64Array,
    scaled: Float64Array,
    first: FirstFailure,
    only: FailurePlace | undefined,
  ): void => {
    let n = 0;
    for (const check of checks) {
      if (only !== undefined && check.place !== only) continue;
      for (const i of check.always) {
        const factor = judgePoint(check, i, side, sign, fixed, scaled, first, nearLeast * first.factor);
        factors[n++] = factor;
        if (factor < first.factor) note(check, i, factor, sign, first);
      }
    }
    n = 0;
    for (const check of checks) {
      if (only !== undefined && check.place !== only) continue;
      const { length } = check.always;
      for (let k = 0; k + 1 < length; k++) {
        if (!(Math.min(factors[n + k]!, factors[n + k + 1]!) < nearLeast * first.factor)) continue;
        for (let i = check.between[k]!; i < check.between[k + 1]!; i++) {
          workOut(i);
          const factor = judgePoint(check, i, side, sign, fixed, scaled, first, first.factor);
          if (factor < first.factor) note(check, i, factor, sign, first);
        }
      }
      n += length;
    }
  };

  const note = (check: Check, i: number, factor: number, sign: 1 | -1, first: FirstFailure): void => {
    const { x, y } = points[order[i]!]!;
    if (check.splitting && spared?.(sign * x, y)) return;
    first.factor = factor;
    first.place = check.place;
    first.x = sign * x;
    first.y = y;
  };

  return {
    places: [...new Set(checks.map(({ place }) => place))],
    take(given, symmetric, isSpared) {
      moments = given;
      spared = isSpared;
      oneSide = symmetric || !mirrored;
      evaluation++;
      for (let l = 0; l < loads.length; l++) {
        const map = moments && maps[loads[l]!.responseIndex];
        const even = right[l]!;
        const { even: stillEven, odd: stillOdd } = still[l]!;
        if (map === undefined) even.fill(0, 0, firstSize);
        else multiply(map.even, firstSize, map.columns, moments![l]!, even);
        for (let i = 0; i < firstSize; i++) even[i]! += stillEven[i]!;
        if (oneSide) continue;
        if (map === undefined) odd.fill(0);
        else multiply(map.odd, firstSize, half, moments![l]!.subarray(half), odd);
        const other = left[l]!;
        for (let i = 0; i < firstSize; i++) {
          const uneven = odd[i]! + stillOdd[i]!;
          other[i] = even[i]! - uneven;
          even[i]! += uneven;
        }
      }
    },
    judge(fixed, scaled, first, only) {
      judgeSide(right, 1, fixed, scaled, first, only);
      if (!oneSide) judgeSide(left, -1, fixed, scaled, first, only);
    },
  };
}

/** Normal, shear, tangential among the model's `(n, t, nt)`. */
const components = [0, 2, 1] as const;

const isAlways = (k: number, length: number, stride: number): boolean => k % stride === 0 || k === length - 1;

/** Rows of judged points; where points in the middle of a row are left out, it goes on beyond the gap. */
function rowsOf({ places }: ReducedModel, keep: (x: number, y: number) => boolean): number[][] {
  let next = 0;
  return places.rows
    .map((length) => Array.from({ length }, () => next++).filter((p) => keep(places.points[p]!.x, places.points[p]!.y)))
    .filter((row) => row.length > 0);
}

function checksOf(
  row: readonly number[],
  order: readonly number[],
  stride: number,
  point: SectionPoint,
  host: Host,
): Check[] {
  const { tension, shear, principal } = host.strengthAt(point);
  const placeOf = new Map(order.map((p, i) => [p, i]));
  const places = row.map((p) => placeOf.get(p)!);
  const always = places.filter((_, k) => isAlways(k, row.length, stride));
  const others = places.filter((_, k) => !isAlways(k, row.length, stride));
  // The others of a row lie one after the other in the buffers.
  const start = others[0] ?? 0;
  const between = always.map((_, k) => start + Math.min(others.length, k * (stride - 1)));
  const shared = { always, between };
  const checks: Check[] = [];
  if (Number.isFinite(tension)) checks.push({ place: point.place, splitting: false, tension, shear, ...shared });
  if (Number.isFinite(principal))
    checks.push({ place: 'filler', splitting: true, tension: principal, shear: Number.POSITIVE_INFINITY, ...shared });
  return checks;
}

function rowTimes(matrix: Float64Array, row: number, columns: number, x: Float64Array, offset: number): number {
  let sum = 0;
  for (let j = 0, at = row * columns; j < columns; j++, at++) sum += matrix[at]! * x[offset + j]!;
  return sum;
}
