import { createHoopExtremes, type HoopExtremes, hoopRule, type InnerPoint } from '../edge/index.js';
import type { CurveNodes } from '../outline/index.js';
import type { EdgeStress } from '../stress/index.js';
import { tensionFactor } from './criteria.js';
import type { FirstFailure } from './first-failure.js';

/** Judges the edge of a channel by a tension along it against the strength of the material around. */
export interface EdgeStrength {
  /** Takes one solved outline; the stress must stay as it is until the last `judge`. */
  take(stress: EdgeStress, nodes: CurveNodes, mirror: boolean, inner: InnerPoint): void;
  /**
   * Lowers `first` where the edge fails at a smaller factor. `fixed` and `scaled` are factors of the loads; `known` are the extremes
   * of the scaled loads where they are known and nothing is fixed.
   */
  judge(fixed: Float64Array, scaled: Float64Array, first: FirstFailure, known?: HoopExtremes): void;
  /** Whether a place of the filler is so near the edge that only `judge` has a say there; `undefined`: nowhere. */
  readonly covers: ((x: number, y: number) => boolean) | undefined;
}

/** Relative distance of the peak from the strength at which one last step ends the search: then 99 of 100 factors are good to 0.2 %. */
const closeEnough = 0.02;
const mostSteps = 6;

interface Buffers {
  readonly fixed: Float64Array;
  readonly scaled: Float64Array;
  readonly both: Float64Array;
  readonly slope: Float64Array;
}

/** By the peak: the largest hoop tension anywhere on the edge, between nodes too. `offsets` and `length` as in the stress model. */
export function createPeakStrength(strength: number, length: number, offsets: readonly number[]): EdgeStrength {
  const buffers = new Map<number, Buffers>();
  const peak: HoopExtremes = createHoopExtremes();
  let stress: EdgeStress | undefined;
  let nodes: CurveNodes | undefined;

  const buffersOf = (count: number): Buffers => {
    let found = buffers.get(count);
    if (found === undefined) {
      const buffer = (size: number) => new Float64Array(size);
      found = { fixed: buffer(count), scaled: buffer(count), both: buffer(count), slope: buffer(2 * count) };
      buffers.set(count, found);
    }
    return found;
  };

  return {
    covers: undefined,
    take(solved, at) {
      stress = solved;
      nodes = at;
    },
    judge(fixedFactors, scaledFactors, first, known) {
      if (known !== undefined) {
        lower(first, tensionFactor(0, known.peak, strength), known.peakX, known.peakY);
        return;
      }
      const { count, x, y } = nodes!;
      const { fixed, scaled, both, slope } = buffersOf(count);
      combine(stress!.hoop, fixedFactors, fixed);
      combine(stress!.hoop, scaledFactors, scaled);
      let factor = Number.POSITIVE_INFINITY;
      let at = -1;
      for (let j = 0; j < count; j++) {
        const here = tensionFactor(fixed[j]!, scaled[j]!, strength);
        if (here >= factor) continue;
        factor = here;
        at = j;
      }
      if (at < 0) return;
      let placeX = x[at]!;
      let placeY = y[at]!;
      // Newton's method on the peak between nodes, from the factor of the worst node; a pre-stress that fails stays at 0.
      for (let step = 0; step < mostSteps && factor > 0; step++) {
        for (let j = 0; j < count; j++) both[j] = fixed[j]! + factor * scaled[j]!;
        slope.fill(0);
        let offset = 0;
        for (let l = 0; l < fixedFactors.length; l++) {
          const weight = fixedFactors[l]! + factor * scaledFactors[l]!;
          if (weight === 0) continue;
          const part = stress!.slopes[l]!;
          for (let i = 0; i < slope.length; i++) slope[i]! += weight * part[i]!;
          offset += weight * offsets[l]!;
        }
        hoopRule(count).extremes(nodes!, slope, length, offset, both, peak);
        at = nearest(nodes!, peak.peakX, peak.peakY);
        placeX = peak.peakX;
        placeY = peak.peakY;
        const rate = (scaled[at]! * peak.peak) / both[at]!;
        if (!(rate > 0)) break;
        factor = Math.max(0, factor + (strength - peak.peak) / rate);
        if (Math.abs(peak.peak - strength) <= closeEnough * strength) break;
      }
      lower(first, factor, placeX, placeY);
    },
  };
}

/** Notes a failure at the edge if it is the first. */
export function lower(first: FirstFailure, factor: number, x: number, y: number): void {
  if (!(factor < first.factor)) return;
  first.factor = factor;
  first.place = 'edge';
  first.x = x;
  first.y = y;
}

/** `out = sum of factors times parts`. */
export function combine(parts: readonly Float64Array[], factors: Float64Array, out: Float64Array): void {
  out.fill(0);
  for (let l = 0; l < factors.length; l++) {
    const factor = factors[l]!;
    if (factor === 0) continue;
    const part = parts[l]!;
    for (let i = 0; i < out.length; i++) out[i]! += factor * part[i]!;
  }
}

function nearest({ count, x, y }: CurveNodes, px: number, py: number): number {
  let at = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < count; j++) {
    const distance2 = (x[j]! - px) ** 2 + (y[j]! - py) ** 2;
    if (distance2 >= least) continue;
    least = distance2;
    at = j;
  }
  return at;
}
