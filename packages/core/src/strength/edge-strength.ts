import {
  type AlongEdge,
  createSummitFinder,
  type HoopExtremes,
  interpolated,
  type SummitFinder,
  seenAfter,
  seenBefore,
} from '../edge/index.js';
import { byCount } from '../outline/index.js';
import type { CaseSlopes, SolvedChannel } from '../stress/index.js';
import type { CaseFactors, SplitCase } from './case-split.js';
import { inverseTensionFactor, inverseTensionRates, tensionFactor } from './criteria.js';
import type { FirstFailure } from './first-failure.js';

/** Judges the edge of a channel by a tension along it against the strength of the material around. */
export interface EdgeStrength {
  /** Takes one solved outline; it must stay as it is until the last `judge`. */
  take(edge: SolvedChannel): void;
  /**
   * Lowers `first` where the edge fails at a smaller factor. Where nothing is fixed, extremes that are known of the case as given
   * spare the search.
   */
  judge(split: SplitCase, first: FirstFailure, known: HoopExtremes | undefined): void;
  /** Values that `writeInverse` gives for a seen node. */
  readonly perNode: number;
  /**
   * Writes `weight` over the load factor along the edge, smooth in the outline (see `inverseTensionFactor`), into `out` from `at` on.
   */
  writeInverse(factors: CaseFactors, weight: number, out: Float64Array, at: number): void;
  /**
   * Writes the rates of what `writeInverse` writes, one row to a value and one column to a motion, from row `row` of `out` on; `undefined`: they are not
   * known.
   */
  readonly writeInverseRates:
    | ((factors: CaseFactors, weight: number, slopes: CaseSlopes, out: Float64Array, row: number) => void)
    | undefined;
  /** Whether a place of the filler is so near the edge that only `judge` has a say there; `undefined`: nowhere. */
  readonly covers: ((x: number, y: number) => boolean) | undefined;
}

/** Nodes that are followed: at the load factor of the worst one, those within this share of the hoop stress's range of it. */
const followed = 0.2;

/** Tensions at the nodes of an edge, of what is held and of what is scaled, and room to climb among them. */
export interface EdgeTensions {
  readonly fixed: Float64Array;
  readonly scaled: Float64Array;
  readonly summit: SummitFinder;
}

export function createEdgeTensions(count: number): EdgeTensions {
  return { fixed: new Float64Array(count), scaled: new Float64Array(count), summit: createSummitFinder(count) };
}

export const seenNodes = ({ nodes, mirror }: SolvedChannel): number => (mirror ? nodes.count / 2 : nodes.count);

/** With derivatives of phi. */
interface Buffers extends EdgeTensions {
  readonly fixedSlope: Float64Array;
  readonly scaledSlope: Float64Array;
}

/**
 * By the peak: the hoop tension anywhere on the edge, between nodes too. phi' of what is held and of what is scaled and t' are
 * interpolated as for the peak of one case, which gives the load factor of any place in closed form; its least is climbed to
 * from the worst nodes. `offsets` and `length` as in the stress model.
 */
export function createPeakStrength(strength: number, length: number, offsets: readonly number[]): EdgeStrength {
  let edge: SolvedChannel | undefined;
  let hand: Buffers;
  let fixedOffset = 0;
  let scaledOffset = 0;

  const buffersOf = byCount(
    (count): Buffers => ({
      ...createEdgeTensions(count),
      fixedSlope: new Float64Array(2 * count),
      scaledSlope: new Float64Array(2 * count),
    }),
  );

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
  const perHeld = along((held, scaled) => inverseTensionRates(held, scaled, strength).held);
  const perScaled = along((held) => inverseTensionRates(held, 0, strength).scaled);

  const combineCase = ({ fixed, scaled }: CaseFactors): void => {
    hand = buffersOf(edge!.nodes.count);
    combine(edge!.hoop, fixed, hand.fixed);
    combine(edge!.hoop, scaled, hand.scaled);
    combine(edge!.slopes, fixed, hand.fixedSlope);
    combine(edge!.slopes, scaled, hand.scaledSlope);
    fixedOffset = weighted(offsets, fixed);
    scaledOffset = weighted(offsets, scaled);
  };

  return {
    covers: undefined,
    take(solved) {
      edge = solved;
    },
    judge(split, first, known) {
      if (split.own !== 0 && known !== undefined) {
        lower(first, tensionFactor(0, split.own * known.peak, strength), known.peakX, known.peakY);
        return;
      }
      combineCase(split);
      lowerAlongEdge(first, edge!, hand, weakness, strength);
    },
    perNode: 2,
    writeInverse(factors, weight, out, at) {
      combineCase(factors);
      const seen = seenNodes(edge!);
      for (let j = 0; j < seen; j++) {
        out[at + 2 * j] = weight * inverse.atNode(j);
        out[at + 2 * j + 1] = weight * hand.summit.halfway(inverse, j);
      }
    },
    writeInverseRates(factors, weight, { loads, howMany }, out, row) {
      combineCase(factors);
      const seen = seenNodes(edge!);
      out.fill(0, row * howMany, (row + 2 * seen) * howMany);
      for (let place = 0; place < 2; place++) {
        const rates = place === 0 ? loads.hoop : loads.halfway;
        for (let j = 0; j < seen; j++) {
          const read = (quantity: AlongEdge) => (place === 0 ? quantity.atNode(j) : hand.summit.halfway(quantity, j));
          const [held, scaled] = [weight * read(perHeld), weight * read(perScaled)];
          for (let l = 0; l < rates.length; l++) {
            const share = held * factors.fixed[l]! + scaled * factors.scaled[l]!;
            if (share === 0) continue;
            for (let p = 0, at = (row + 2 * j + place) * howMany; p < howMany; p++, at++)
              out[at]! += share * rates[l]![p * seen + j]!;
          }
        }
      }
    },
  };
}

/**
 * Lowers `first` to the least load factor along an edge, between nodes too: climbs from the worst nodes. `weakness` is the negative load
 * factor.
 */
export function lowerAlongEdge(
  first: FirstFailure,
  edge: SolvedChannel,
  { fixed, scaled, summit }: EdgeTensions,
  weakness: AlongEdge,
  strength: number,
): void {
  const { count, x, y } = edge.nodes;
  const seen = seenNodes(edge);
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
  first.criterion = 'splitting';
  first.x = x;
  first.y = y;
}

const weighted = (values: readonly number[], weights: Float64Array): number =>
  values.reduce((sum, value, l) => sum + weights[l]! * value, 0);

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
