import {
  type AlongEdge,
  createSummitFinder,
  type HoopExtremes,
  interpolated,
  type SummitFinder,
  seenAfter,
  seenBefore,
} from '../edge/index.js';
import { byCount, type CurveNodes } from '../outline/index.js';
import type { SolvedEdge } from '../stress/index.js';
import { inverseTensionFactor, tensionFactor } from './criteria.js';
import type { FirstFailure } from './first-failure.js';

/** Judges the edge of a channel by a tension along it against the strength of the material around. */
export interface EdgeStrength {
  /** Takes one solved outline; it must stay as it is until the last `judge`. */
  take(edge: SolvedEdge): void;
  /**
   * Lowers `first` where the edge fails at a smaller factor. `fixed` and `scaled` are factors of the loads; where nothing is fixed and
   * extremes are known of which the scaled loads have `times` as much, they spare the search.
   */
  judge(fixed: Float64Array, scaled: Float64Array, first: FirstFailure, known?: HoopExtremes, times?: number): void;
  /** Values that `writeInverse` gives for a seen node. */
  readonly perNode: number;
  /**
   * Writes `weight` over the load factor along the edge, smooth in the outline (see `inverseTensionFactor`), into `out` from `at` on.
   */
  writeInverse(fixed: Float64Array, scaled: Float64Array, weight: number, out: Float64Array, at: number): void;
  /** Whether a place of the filler is so near the edge that only `judge` has a say there; `undefined`: nowhere. */
  readonly covers: ((x: number, y: number) => boolean) | undefined;
}

/** Nodes that are followed: at the load factor of the worst one, those within this share of the hoop stress's range of it. */
const followed = 0.2;

/** Hoop stress at the nodes and derivatives of phi, of what is held and of what is scaled. */
interface Buffers {
  readonly fixed: Float64Array;
  readonly scaled: Float64Array;
  readonly fixedSlope: Float64Array;
  readonly scaledSlope: Float64Array;
  readonly summit: SummitFinder;
}

/**
 * By the peak: the hoop tension anywhere on the edge, between nodes too. phi' of what is held and of what is scaled and t' are
 * interpolated as for the peak of one case, which gives the load factor of any place in closed form; its least is climbed to
 * from the worst nodes. `offsets` and `length` as in the stress model.
 */
export function createPeakStrength(strength: number, length: number, offsets: readonly number[]): EdgeStrength {
  let edge: SolvedEdge | undefined;
  let seen = 0;
  let hand: Buffers;
  let fixedOffset = 0;
  let scaledOffset = 0;

  const buffersOf = byCount((count): Buffers => {
    const buffer = (size: number) => new Float64Array(size);
    return {
      fixed: buffer(count),
      scaled: buffer(count),
      fixedSlope: buffer(2 * count),
      scaledSlope: buffer(2 * count),
      summit: createSummitFinder(count),
    };
  });

  /** A function of the tensions held and scaled, as a quantity along the edge. */
  const along = (of: (held: number, scaled: number) => number): AlongEdge => ({
    atNode: (node) => of(hand.fixed[node]!, hand.scaled[node]!),
    between(node, weights) {
      const { count, dx, dy } = edge!.nodes;
      const { fixedSlope, scaledSlope } = hand;
      let fixedX = 0;
      let fixedY = 0;
      let scaledX = 0;
      let scaledY = 0;
      let tx = 0;
      let ty = 0;
      for (let m = 0, i = node; m < count; m++, i = i + 1 === count ? 0 : i + 1) {
        const w = weights[m]!;
        fixedX += w * fixedSlope[2 * i]!;
        fixedY += w * fixedSlope[2 * i + 1]!;
        scaledX += w * scaledSlope[2 * i]!;
        scaledY += w * scaledSlope[2 * i + 1]!;
        tx += w * dx[i]!;
        ty += w * dy[i]!;
      }
      const scale = (4 * length) / (tx * tx + ty * ty);
      const held = scale * (fixedX * tx + fixedY * ty) + fixedOffset;
      return of(held, scale * (scaledX * tx + scaledY * ty) + scaledOffset);
    },
  });
  /** Largest where the load factor is least: its negative, and its inverse. */
  const weakness = along((held, scaled) => -tensionFactor(held, scaled, strength));
  const inverse = along((held, scaled) => inverseTensionFactor(held, scaled, strength));

  const combineCase = (fixedFactors: Float64Array, scaledFactors: Float64Array): void => {
    hand = buffersOf(edge!.nodes.count);
    combine(edge!.hoop, fixedFactors, hand.fixed);
    combine(edge!.hoop, scaledFactors, hand.scaled);
    combine(edge!.slopes, fixedFactors, hand.fixedSlope);
    combine(edge!.slopes, scaledFactors, hand.scaledSlope);
    fixedOffset = 0;
    scaledOffset = 0;
    for (let l = 0; l < offsets.length; l++) {
      fixedOffset += fixedFactors[l]! * offsets[l]!;
      scaledOffset += scaledFactors[l]! * offsets[l]!;
    }
  };

  return {
    covers: undefined,
    take(solved) {
      edge = solved;
      const { count } = solved.nodes;
      seen = solved.mirror ? count / 2 : count;
    },
    judge(fixedFactors, scaledFactors, first, known, times = 1) {
      if (known !== undefined) {
        lower(first, tensionFactor(0, times * known.peak, strength), known.peakX, known.peakY);
        return;
      }
      combineCase(fixedFactors, scaledFactors);
      lowerAlongEdge(first, edge!.nodes, seen, hand.fixed, hand.scaled, strength, weakness, hand.summit);
    },
    perNode: 2,
    writeInverse(fixedFactors, scaledFactors, weight, out, at) {
      combineCase(fixedFactors, scaledFactors);
      for (let j = 0; j < seen; j++) {
        out[at + 2 * j] = weight * inverse.atNode(j);
        out[at + 2 * j + 1] = weight * hand.summit.halfway(inverse, j);
      }
    },
  };
}

/**
 * Lowers `first` to the least load factor along an edge, between nodes too: climbs from the worst nodes. `fixed` and `scaled` are tensions at all
 * nodes, of which the first `seen` are looked at; `weakness` is the negative load factor.
 */
export function lowerAlongEdge(
  first: FirstFailure,
  { count, x, y }: CurveNodes,
  seen: number,
  fixed: Float64Array,
  scaled: Float64Array,
  strength: number,
  weakness: AlongEdge,
  summit: SummitFinder,
): void {
  let factor = Number.POSITIVE_INFINITY;
  let at = -1;
  for (let j = 0; j < seen; j++) {
    const here = tensionFactor(fixed[j]!, scaled[j]!, strength);
    if (here >= factor) continue;
    factor = here;
    at = j;
  }
  if (at < 0) return;
  lower(first, factor, x[at]!, y[at]!);
  // A pre-stress that fails at a node stays at 0.
  if (!(factor > 0)) return;
  let least = strength;
  for (let j = 0; j < seen; j++) least = Math.min(least, fixed[j]! + factor * scaled[j]!);
  const enough = strength - followed * (strength - least) - 1e-12 * strength;
  for (let j = 0; j < seen; j++) {
    const here = fixed[j]! + factor * scaled[j]!;
    if (here < enough) continue;
    const before = seenBefore(j, seen, count);
    const after = seenAfter(j, seen, count);
    if (here < fixed[before]! + factor * scaled[before]! || here < fixed[after]! + factor * scaled[after]!) continue;
    const found = -summit.climb(weakness, j);
    if (found < first.factor)
      lower(first, found, interpolated(x, j, summit.weights), interpolated(y, j, summit.weights));
  }
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
