import type { SectionPoint } from '../host/index.js';
import type { CaseSlopes } from '../stress/index.js';
import type { ChannelStress } from './channel-stress.js';

/** A load's map of moments to the stresses of all points: of the symmetric class, or of both at once, and of the other one. */
export interface PlaceMap {
  readonly even: Float64Array;
  readonly odd: Float64Array;
  readonly columns: number;
}

/** A point on one side of the section, and what its stress was taken from. */
export interface RatedPoint {
  readonly at: SectionPoint;
  /** Its rows among those of the maps: normal stress, shear and, where it is wanted, tangential stress. */
  readonly rows: readonly [from: number, to: number];
  readonly sign: 1 | -1;
  /** From the field around the channel, not from the moments. */
  readonly byField: boolean;
  /** Whether the moments are those of both symmetry classes, and the maps by class. */
  readonly byClass: boolean;
}

/** Rates of the stress at places. */
export interface PlaceRates {
  take(slopes: CaseSlopes): void;
  /** As `PlaceStress.addRates`. */
  add(point: RatedPoint, weights: Float64Array, out: Float64Array, at: number): void;
}

/** Normal, shear, tangential among the model's `(n, t, nt)`. */
export const components = [0, 2, 1] as const;

/** `maps`: load by load; undefined where the host does not answer. */
export function createPlaceRates(
  maps: readonly (PlaceMap | undefined)[],
  half: number,
  channel: ChannelStress,
): PlaceRates {
  const functional = new Float64Array(2 * half);
  const plane = new Float64Array(3 * maps.length);
  let slopes: CaseSlopes;

  /** Writes what a load's weighted stress is of its moments; gives their number. */
  const writeFunctional = (map: PlaceMap, l: number, point: RatedPoint, weights: Float64Array): number => {
    const { rows, sign, byClass } = point;
    const { even, odd, columns } = map;
    functional.fill(0);
    for (let row = rows[0]; row < rows[1]; row++) {
      const weight = weights[3 * l + components[row - rows[0]]!]!;
      for (let j = 0, from = row * columns; j < columns; j++) functional[j]! += weight * even[from + j]!;
      if (!byClass) continue;
      for (let j = 0, from = row * half; j < half; j++) functional[half + j]! += sign * weight * odd[from + j]!;
    }
    return byClass ? 2 * half : columns;
  };

  return {
    take(given) {
      slopes = given;
    },
    add(point, weights, out, at) {
      if (point.byField) {
        writePlaneWeights(point, weights, plane);
        channel.rates.add(point.sign * point.at.x, point.at.y, plane, out, at);
        return;
      }
      for (let l = 0; l < maps.length; l++) {
        const map = maps[l];
        if (map === undefined) continue;
        const seen = writeFunctional(map, l, point, weights);
        const rates = slopes.loads.moments(l);
        for (let p = 0, from = 0; p < slopes.howMany; p++)
          for (let j = 0; j < seen; j++, from++) out[at + p]! += functional[j]! * rates[from]!;
      }
    },
  };
}

/** Weights of xx, yy and xy, load by load, that come to given ones of a point's own normal, tangential and shear stress. */
function writePlaneWeights({ at: { normalAngle }, sign }: RatedPoint, own: Float64Array, out: Float64Array): void {
  const c = Math.cos(normalAngle);
  const s = Math.sin(normalAngle);
  for (let l = 0; l < own.length; l += 3) {
    const [n, t, nt] = [own[l]!, own[l + 1]!, own[l + 2]!];
    out[l] = n * c * c + nt * c * s + t * s * s;
    out[l + 1] = n * s * s - nt * c * s + t * c * c;
    out[l + 2] = sign * (2 * (n - t) * c * s - nt * (c * c - s * s));
  }
}
