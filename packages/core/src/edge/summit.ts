import { trigonometricRule } from '../linear/index.js';

/** A quantity along an edge, known at its nodes and between them. */
export interface AlongEdge {
  atNode(node: number): number;
  /** Where the weights, counted from `node` on, interpolate. */
  between(node: number, weights: Float64Array): number;
}

/** Finds the tops of quantities between the nodes of outlines of one node count. */
export interface SummitFinder {
  /** Weights of the nodes from the node that was climbed from on, where the last climb's top lies. */
  readonly weights: Float64Array;
  /**
   * Climbs from a node that is not lower than its neighbours, in sixths of the spacing, to the top of a parabola through the best three;
   * gives the quantity there, or at the best sixth if that is more.
   */
  climb(quantity: AlongEdge, node: number): number;
  /** The quantity half way from a node to the next. */
  halfway(quantity: AlongEdge, node: number): number;
}

/** A value of each node, interpolated with weights that count from `node` on. */
export function interpolated(values: Float64Array, node: number, weights: Float64Array): number {
  const { length } = weights;
  let sum = 0;
  for (let m = 0, i = node; m < length; m++, i = i + 1 === length ? 0 : i + 1) sum += weights[m]! * values[i]!;
  return sum;
}

/**
 * The nodes beside one of those `seen`: all `count`, or the right half of a mirror-symmetric edge. Its ends border on their own images, which
 * differ from them in rounding only and must not hide them.
 */
export const seenBefore = (node: number, seen: number, count: number): number =>
  node > 0 ? node - 1 : seen === count ? count - 1 : node;
export const seenAfter = (node: number, seen: number, count: number): number =>
  node + 1 < seen ? node + 1 : seen === count ? 0 : node;

/** Sixths of the spacing at which the quantity is formed around the largest nodes. */
const fine = 6;

export function createSummitFinder(count: number): SummitFinder {
  const rule = trigonometricRule(count);
  const tables = Array.from({ length: fine - 1 }, (_, f) => {
    const weights = new Float64Array(count);
    rule.weightsAt((f + 1) / fine, weights);
    return weights;
  });
  const weights = new Float64Array(count);

  /** The quantity `step` sixths after a node; a whole number of spacings reads the node. */
  const at = (quantity: AlongEdge, from: number, step: number): number => {
    const node = (from + Math.floor(step / fine) + count) % count;
    const fraction = ((step % fine) + fine) % fine;
    return fraction === 0 ? quantity.atNode(node) : quantity.between(node, tables[fraction - 1]!);
  };

  return {
    weights,
    climb(quantity, node) {
      let middle = quantity.atNode(node);
      let left = at(quantity, node, -1);
      let right = at(quantity, node, 1);
      const way = right >= left ? 1 : -1;
      let step = 0;
      while (Math.max(left, right) > middle && Math.abs(step) < fine) {
        step += way;
        const next = at(quantity, node, step + way);
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
      const beyond = bend < 0 && Number.isFinite(bend) ? (left - right) / (2 * bend) : 0;
      rule.weightsAt((step + beyond) / fine, weights);
      return Math.max(middle, quantity.between(node, weights));
    },
    halfway: (quantity, node) => at(quantity, node, fine / 2),
  };
}
