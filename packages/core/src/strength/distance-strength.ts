import { type AlongEdge, interpolated } from '../edge/index.js';
import { gauss4, onUnitInterval } from '../linear/index.js';
import { type Border, byCount, type CurveNodes } from '../outline/index.js';
import type { SolvedChannel } from '../stress/index.js';
import type { CaseFactors } from './case-split.js';
import type { ChannelStress } from './channel-stress.js';
import { inverseTensionFactor, tensionFactor } from './criteria.js';
import {
  combine,
  createEdgeTensions,
  type EdgeStrength,
  type EdgeTensions,
  lower,
  lowerAlongEdge,
  seenNodes,
} from './edge-strength.js';

/** The average of a stress over the distance. */
const overDistance = onUnitInterval(gauss4);

/** Steps towards the contour along a normal, each as long as the distance to the contour allows. */
const mostSteps = 12;

/** Load factors of nodes up to this many times the least one are looked at half way to the next node, too. */
const hidden = 1.02;

/** mm; `average`: over the distance, instead of at it. */
export interface CharacteristicDistance {
  readonly distance: number;
  readonly average?: boolean;
}

/** With the tension at the nodes under every load. */
interface Buffers extends EdgeTensions {
  readonly tension: readonly Float64Array[];
}

/**
 * By a characteristic distance (Whitney & Nuismer, J. Compos. Mater. 8 (1974) 253-265): the tension along the edge's tangent, `distance` off
 * the edge along its normal (point stress), or averaged from the edge to there (average stress). From places whose distance would
 * end beyond the control contour, it ends on the contour. The filler nearer to the edge than the distance is not judged otherwise.
 * `loads`: those of `channel`, which takes an outline before this does: 1 for a load that is the same on both sides of a mirror-symmetric joint, -1 for one that has
 * the other sign there, 0 for any other.
 */
export function createDistanceStrength(
  wanted: CharacteristicDistance,
  channel: ChannelStress,
  loads: readonly (1 | -1 | 0)[],
  strength: number,
  contour: Border | undefined,
): EdgeStrength {
  const loadCount = loads.length;
  const hasImages = !loads.includes(0);
  const tensions = new Float64Array(loadCount);
  const findTensions = tensionsOff(wanted, channel, contour);
  let edge: SolvedChannel | undefined;
  let hand: Buffers;
  let factors: CaseFactors;

  const buffersOf = byCount(
    (count): Buffers => ({
      ...createEdgeTensions(count),
      tension: Array.from({ length: loadCount }, () => new Float64Array(count)),
    }),
  );

  /** Largest where the load factor is least: its negative. */
  const weakness: AlongEdge = {
    atNode: (node) => -tensionFactor(hand.fixed[node]!, hand.scaled[node]!, strength),
    between(node, weights) {
      const { nodes } = edge!;
      const x = interpolated(nodes.x, node, weights);
      const y = interpolated(nodes.y, node, weights);
      const dx = interpolated(nodes.dx, node, weights);
      const dy = interpolated(nodes.dy, node, weights);
      findTensions(x, y, dx, dy, tensions);
      let fixed = 0;
      let scaled = 0;
      for (let l = 0; l < loadCount; l++) {
        fixed += factors.fixed[l]! * tensions[l]!;
        scaled += factors.scaled[l]! * tensions[l]!;
      }
      return -tensionFactor(fixed, scaled, strength);
    },
  };

  const combineCase = (given: CaseFactors): void => {
    factors = given;
    combine(hand.tension, given.fixed, hand.fixed);
    combine(hand.tension, given.scaled, hand.scaled);
  };

  return {
    covers: (x, y) => channel.distance(x, y) < wanted.distance,
    take(solved) {
      edge = solved;
      const { count, x, y, dx, dy } = solved.nodes;
      hand = buffersOf(count);
      // All loads of a mirrored edge tell at one half what they do at the other, whether or not it was solved so.
      const halved = solved.mirror || (hasImages && isItsImage(solved.nodes));
      const own = halved ? count / 2 : count;
      for (let j = 0; j < own; j++) {
        findTensions(x[j]!, y[j]!, dx[j]!, dy[j]!, tensions);
        for (let l = 0; l < loadCount; l++) {
          hand.tension[l]![j] = tensions[l]!;
          // The image of a node stands as far from the other end.
          if (halved) hand.tension[l]![count - 1 - j] = loads[l]! * tensions[l]!;
        }
      }
    },
    judge(split, first) {
      combineCase(split);
      lowerAlongEdge(first, edge!, hand, weakness, strength);
      // Where the distance comes to end on the contour, the tension has kinks: a top can hide between two nodes that are lower.
      const { x, y, count } = edge!.nodes;
      const seen = seenNodes(edge!);
      for (let j = 0; j < seen; j++) {
        const next = (j + 1) % count;
        if (!(-Math.max(weakness.atNode(j), weakness.atNode(next)) < hidden * first.factor)) continue;
        lower(first, -hand.summit.halfway(weakness, j), (x[j]! + x[next]!) / 2, (y[j]! + y[next]!) / 2);
      }
    },
    perNode: 1,
    writeInverse(given, weight, out, at) {
      combineCase(given);
      const seen = seenNodes(edge!);
      for (let j = 0; j < seen; j++)
        out[at + j] = weight * inverseTensionFactor(hand.fixed[j]!, hand.scaled[j]!, strength);
    },
    writeInverseRates: undefined,
  };
}

/** Whether the edge is its own mirror image in x = 0, node by node. */
function isItsImage({ count, x, y }: CurveNodes): boolean {
  for (let j = 0, k = count - 1; j <= k; j++, k--) if (x[j] !== -x[k]! || y[j] !== y[k]) return false;
  return true;
}

/** Writes the tension of every load off the edge's place (x, y), mm, with the tangent (dx, dy). */
type WriteTensions = (x: number, y: number, dx: number, dy: number, out: Float64Array) => void;

function tensionsOff(
  { distance, average = false }: CharacteristicDistance,
  channel: ChannelStress,
  contour: Border | undefined,
): WriteTensions {
  const places: readonly (readonly [number, number])[] = average ? overDistance : [[1, 1]];

  /** How far from (x, y) along the normal the distance reaches before it meets the contour. */
  const reach = (x: number, y: number, normalX: number, normalY: number): number => {
    if (contour === undefined) return distance;
    let depth = 0;
    for (let step = 0; step < mostSteps && depth < distance; step++)
      depth += Math.max(0, contour.distance(x + depth * normalX, y + depth * normalY));
    return Math.min(depth, distance);
  };

  return (x, y, dx, dy, out) => {
    const speed = Math.hypot(dx, dy);
    const c = dx / speed;
    const s = dy / speed;
    // Into the material: to the right of a counter-clockwise edge.
    const depth = reach(x, y, s, -c);
    out.fill(0);
    for (let k = 0; k < places.length; k++) {
      const [share, weight] = places[k]!;
      // On the edge itself there is no normal to go along: an outline that touches the contour keeps its hoop stress.
      const off = Math.max(share * depth, 1e-9 * distance);
      const stresses = channel.at(x + off * s, y - off * c);
      for (let l = 0; l < out.length; l++) {
        const { xx, yy, xy } = stresses[l]!;
        out[l]! += weight * (xx * c * c + yy * s * s + 2 * xy * c * s);
      }
    }
  };
}
