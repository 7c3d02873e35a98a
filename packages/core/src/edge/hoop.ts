import { trigonometricRule } from '../linear/index.js';
import type { CurveNodes } from '../outline/index.js';
import { type AlongEdge, createSummitFinder, interpolated, seenAfter, seenBefore } from './summit.js';

/** Largest and smallest hoop stress around an edge, MPa, and where the largest is, mm. */
export interface HoopExtremes {
  peak: number;
  peakX: number;
  peakY: number;
  least: number;
}

export const createHoopExtremes = (): HoopExtremes => ({ peak: 0, peakX: 0, peakY: 0, least: 0 });

/** Hoop stress from the boundary values of phi, `4 Re(phi' / t') + offset`; buffers for outlines of one node count. */
export interface HoopRule {
  /** `d phi / ds` of boundary values (interleaved, node by node). */
  slope(phi: Float64Array, out: Float64Array): void;
  /** Takes an edge with its slope and a uniform stress beside it, MPa, which the others tell of until the next; phi was solved in lengths of `length`. */
  take(nodes: CurveNodes, slope: Float64Array, length: number, offset: number): void;
  /** Hoop stress at the nodes. */
  atNodes(out: Float64Array): void;
  /** Hoop stress half way from each node that `out` has room for to the next, interpolated as for the extremes. */
  halfway(out: Float64Array): void;
  /**
   * Extremes between the nodes, of which `hoop` is the stress: phi' and t' are interpolated by themselves and divided there (a polynomial through node values of
   * the quotient errs by up to 5 %), at sixths of the spacing first, then where a parabola through the best three has its top. Of the nodes `seen` are followed, the
   * right half of a mirror-symmetric edge; all where left out.
   */
  extremes(hoop: Float64Array, out: HoopExtremes, seen?: number): void;
}

/** Local maxima that are followed: those within this share of the range below the largest node. */
const followed = 0.2;

const hoopRules = new Map<number, HoopRule>();

export function hoopRule(count: number): HoopRule {
  const known = hoopRules.get(count);
  if (known !== undefined) return known;
  const rule = trigonometricRule(count);
  const summit = createSummitFinder(count);
  /** The outline in hand. */
  let outline: CurveNodes;
  let slopes: Float64Array;
  let scale = 1;
  let added = 0;
  let atNodes: Float64Array;
  const largest: AlongEdge = {
    atNode: (node) => atNodes[node]!,
    between(node, weights) {
      const { dx, dy } = outline;
      let px = 0;
      let py = 0;
      let tx = 0;
      let ty = 0;
      for (let m = 0, i = node; m < count; m++, i = i + 1 === count ? 0 : i + 1) {
        const w = weights[m]!;
        px += w * slopes[2 * i]!;
        py += w * slopes[2 * i + 1]!;
        tx += w * dx[i]!;
        ty += w * dy[i]!;
      }
      return (scale * (px * tx + py * ty)) / (tx * tx + ty * ty) + added;
    },
  };
  const smallest: AlongEdge = {
    atNode: (node) => -largest.atNode(node),
    between: (node, weights) => -largest.between(node, weights),
  };

  const created: HoopRule = {
    slope: (phi, out) => rule.differentiate(phi, out),
    take(nodes, slope, length, offset) {
      outline = nodes;
      slopes = slope;
      scale = 4 * length;
      added = offset;
    },
    atNodes(out) {
      const { dx, dy } = outline;
      for (let j = 0; j < count; j++) {
        const tx = dx[j]!;
        const ty = dy[j]!;
        out[j] = (scale * (slopes[2 * j]! * tx + slopes[2 * j + 1]! * ty)) / (tx * tx + ty * ty) + added;
      }
    },
    halfway(out) {
      for (let j = 0; j < out.length; j++) out[j] = summit.halfway(largest, j);
    },
    extremes(hoop, out, seen = count) {
      takeNodes(hoop, seen, out);
      const { peak: most, least } = out;
      if (Number.isNaN(most)) return;
      atNodes = hoop;
      const band = followed * (most - least) + 1e-12 * Math.abs(most);
      for (const sign of signs) {
        const from = sign === 1 ? most : -least;
        for (let j = 0; j < seen; j++) {
          const here = sign * hoop[j]!;
          if (here < from - band) continue;
          if (here < sign * hoop[seenBefore(j, seen, count)]! || here < sign * hoop[seenAfter(j, seen, count)]!)
            continue;
          if (sign === -1) {
            out.least = Math.min(out.least, -summit.climb(smallest, j));
            continue;
          }
          const top = summit.climb(largest, j);
          if (top < out.peak) continue;
          out.peak = top;
          out.peakX = interpolated(outline.x, j, summit.weights);
          out.peakY = interpolated(outline.y, j, summit.weights);
        }
      }
    },
  };

  hoopRules.set(count, created);
  return created;
}

/** Starts extremes from the nodes, without a place yet; NaN where one of them is, or all are infinite. */
function takeNodes(hoop: Float64Array, seen: number, out: HoopExtremes): void {
  let most = Number.NEGATIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < seen; j++) {
    const here = hoop[j]!;
    if (Number.isNaN(here)) {
      most = Number.NaN;
      break;
    }
    if (here > most) most = here;
    if (here < least) least = here;
  }
  const known = Number.isFinite(most);
  out.peak = known ? most : Number.NaN;
  out.least = known ? least : Number.NaN;
  out.peakX = Number.NaN;
  out.peakY = Number.NaN;
}

const signs = [1, -1] as const;
