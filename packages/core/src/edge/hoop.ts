import type { CurveNodes } from '../outline/nodes.js';
import { trigonometricRule } from './trigonometric.js';

/** Largest and smallest hoop stress around an edge, MPa, and where the largest is, mm. */
export interface HoopExtremes {
  peak: number;
  peakX: number;
  peakY: number;
  least: number;
}

export const createHoopExtremes = (): HoopExtremes => ({ peak: 0, peakX: 0, peakY: 0, least: 0 });

/** Hoop stress from the boundary values of phi; buffers for outlines of one node count. */
export interface HoopRule {
  /** `d phi / ds` of boundary values (interleaved, node by node). */
  slope(phi: Float64Array, out: Float64Array): void;
  /** Hoop stress `4 Re(phi' / t') + offset` at the nodes; `phi` was solved in lengths of `length`. */
  atNodes(nodes: CurveNodes, slope: Float64Array, length: number, offset: number, out: Float64Array): void;
  /** Hoop stress half way from each of the first `seen` nodes to the next, interpolated as for the extremes. */
  halfway(
    nodes: CurveNodes,
    slope: Float64Array,
    length: number,
    offset: number,
    seen: number,
    out: Float64Array,
  ): void;
  /**
   * Extremes between the nodes: phi' and t' are interpolated by themselves and divided there (a polynomial through node values of
   * the quotient errs by up to 5 %), at sixths of the spacing first, then where a parabola through the best three has its top.
   */
  extremes(
    nodes: CurveNodes,
    slope: Float64Array,
    length: number,
    offset: number,
    hoop: Float64Array,
    out: HoopExtremes,
  ): void;
}

/** Sixths of the spacing at which the quotient is formed around the largest nodes. */
const fine = 6;
/** Local maxima that are followed: those within this share of the range below the largest node. */
const followed = 0.2;

const hoopRules = new Map<number, HoopRule>();

export function hoopRule(count: number): HoopRule {
  const known = hoopRules.get(count);
  if (known !== undefined) return known;
  const rule = trigonometricRule(count);
  const tables = Array.from({ length: fine - 1 }, (_, f) => {
    const weights = new Float64Array(count);
    rule.weightsAt((f + 1) / fine, weights);
    return weights;
  });
  const weightsAtTop = new Float64Array(count);
  const place = { x: 0, y: 0 };

  /** Hoop where the weights, turned on by `node`, interpolate; the place is left in `place`. */
  const interpolate = (
    nodes: CurveNodes,
    slope: Float64Array,
    length: number,
    offset: number,
    node: number,
    weights: Float64Array,
  ): number => {
    let px = 0;
    let py = 0;
    let tx = 0;
    let ty = 0;
    let x = 0;
    let y = 0;
    for (let m = 0, i = node; m < count; m++, i = i + 1 === count ? 0 : i + 1) {
      const w = weights[m]!;
      px += w * slope[2 * i]!;
      py += w * slope[2 * i + 1]!;
      tx += w * nodes.dx[i]!;
      ty += w * nodes.dy[i]!;
      x += w * nodes.x[i]!;
      y += w * nodes.y[i]!;
    }
    place.x = x;
    place.y = y;
    return (4 * length * (px * tx + py * ty)) / (tx * tx + ty * ty) + offset;
  };

  /** Hoop `step` sixths after node j; a whole number of spacings reads the node. */
  const between = (
    nodes: CurveNodes,
    slope: Float64Array,
    length: number,
    offset: number,
    hoop: Float64Array,
    j: number,
    step: number,
  ): number => {
    const node = (j + Math.floor(step / fine) + count) % count;
    const fraction = ((step % fine) + fine) % fine;
    if (fraction === 0) return hoop[node]!;
    return interpolate(nodes, slope, length, offset, node, tables[fraction - 1]!);
  };

  const created: HoopRule = {
    slope: (phi, out) => rule.differentiate(phi, out),
    atNodes(nodes, slope, length, offset, out) {
      for (let j = 0; j < count; j++) {
        const tx = nodes.dx[j]!;
        const ty = nodes.dy[j]!;
        out[j] = (4 * length * (slope[2 * j]! * tx + slope[2 * j + 1]! * ty)) / (tx * tx + ty * ty) + offset;
      }
    },
    halfway(nodes, slope, length, offset, seen, out) {
      for (let j = 0; j < seen; j++) out[j] = between(nodes, slope, length, offset, out, j, fine / 2);
    },
    extremes(nodes, slope, length, offset, hoop, out) {
      let most = Number.NEGATIVE_INFINITY;
      let least = Number.POSITIVE_INFINITY;
      for (let j = 0; j < count; j++) {
        const here = hoop[j]!;
        if (Number.isNaN(here)) {
          most = Number.NaN;
          break;
        }
        if (here > most) most = here;
        if (here < least) least = here;
      }
      out.peak = most;
      out.least = least;
      out.peakX = Number.NaN;
      out.peakY = Number.NaN;
      if (!Number.isFinite(most)) {
        out.peak = Number.NaN;
        out.least = Number.NaN;
        return;
      }
      const band = followed * (most - least) + 1e-12 * Math.abs(most);
      for (const sign of signs) {
        const from = sign === 1 ? most : -least;
        for (let j = 0; j < count; j++) {
          const here = sign * hoop[j]!;
          if (here < from - band) continue;
          if (here < sign * hoop[j === 0 ? count - 1 : j - 1]! || here < sign * hoop[j + 1 === count ? 0 : j + 1]!)
            continue;
          follow(nodes, slope, length, offset, hoop, j, sign, out);
        }
      }
    },
  };

  /** Climbs from node j in sixths of the spacing to the top of a parabola through the best three, and keeps what beats `out`. */
  function follow(
    nodes: CurveNodes,
    slope: Float64Array,
    length: number,
    offset: number,
    hoop: Float64Array,
    j: number,
    sign: 1 | -1,
    out: HoopExtremes,
  ): void {
    const at = (step: number) => sign * between(nodes, slope, length, offset, hoop, j, step);
    let middle = sign * hoop[j]!;
    let left = at(-1);
    let right = at(1);
    const way = right >= left ? 1 : -1;
    let step = 0;
    while (Math.max(left, right) > middle && Math.abs(step) < fine) {
      step += way;
      const next = at(step + way);
      if (way === 1) {
        left = middle;
        middle = right;
        right = next;
      } else {
        right = middle;
        middle = left;
        left = next;
      }
    }
    const bend = left - 2 * middle + right;
    const summit = step + (bend < 0 ? (left - right) / (2 * bend) : 0);
    rule.weightsAt(summit / fine, weightsAtTop);
    const top = Math.max(middle, sign * interpolate(nodes, slope, length, offset, j, weightsAtTop));
    if (sign === -1) {
      out.least = Math.min(out.least, -top);
      return;
    }
    if (top < out.peak) return;
    out.peak = top;
    out.peakX = place.x;
    out.peakY = place.y;
  }

  hoopRules.set(count, created);
  return created;
}

const signs = [1, -1] as const;
