import { type AlongEdge, createSummitFinder, interpolated, type SummitFinder } from '../edge/index.js';
import { gauss4, onUnitInterval } from '../linear/index.js';
import { type Border, byCount, type CurveNodes } from '../outline/index.js';
import type { SolvedEdge } from '../stress/index.js';
import type { ChannelStress } from './channel-stress.js';
import { inverseTensionFactor, tensionFactor } from './criteria.js';
import { combine, type EdgeStrength, lower, lowerAlongEdge } from './edge-strength.js';
import type { FirstFailure } from './first-failure.js';

/** The average of a stress over the distance. */
const overDistance = onUnitInterval(gauss4);

/** Steps towards the contour along a normal, each as long as the distance to the contour allows. */
const mostSteps = 12;

/** Load factors of nodes up to this many times the least one are looked at half way to the next node, too. */
const hidden = 1.02;

interface Buffers {
  /** Tension at the nodes, one array per load, and of what is held and what is scaled. */
  readonly tension: readonly Float64Array[];
  readonly fixed: Float64Array;
  readonly scaled: Float64Array;
  readonly summit: SummitFinder;
}

/**
 * By a characteristic distance (Whitney & Nuismer, J. Compos. Mater. 8 (1974) 253-265): the tension along the edge's tangent, `distance` (mm) off
 * the edge along its normal (point stress), or averaged from the edge to there (average stress). From places whose distance would
 * end beyond the control contour, it ends on the contour. The filler nearer to the edge than the distance is not judged otherwise.
 * `loadCount`: loads of `channel`, which takes an outline before this does.
 */
export function createDistanceStrength(
  channel: ChannelStress,
  loadCount: number,
  strength: number,
  distance: number,
  average: boolean,
  contour: Border | undefined,
): EdgeStrength {
  const tensions = new Float64Array(loadCount);
  const places: readonly (readonly [number, number])[] = average ? overDistance : [[1, 1]];
  let nodes: CurveNodes | undefined;
  let seen = 0;
  let hand: Buffers;
  let fixedFactors: Float64Array;
  let scaledFactors: Float64Array;

  const buffersOf = byCount((count): Buffers => {
    const buffer = () => new Float64Array(count);
    const tension = Array.from({ length: loadCount }, buffer);
    return { tension, fixed: buffer(), scaled: buffer(), summit: createSummitFinder(count) };
  });

  /** How far from (x, y) along the normal the distance reaches before it meets the contour. */
  const reach = (x: number, y: number, normalX: number, normalY: number): number => {
    if (contour === undefined) return distance;
    let depth = 0;
    for (let step = 0; step < mostSteps && depth < distance; step++)
      depth += Math.max(0, contour.distance(x + depth * normalX, y + depth * normalY));
    return Math.min(depth, distance);
  };

  /** Tension of every load, into `tensions`, off the edge's place (x, y) with the tangent (dx, dy). */
  const findTensions = (x: number, y: number, dx: number, dy: number): void => {
    const speed = Math.hypot(dx, dy);
    const c = dx / speed;
    const s = dy / speed;
    // Into the material: to the right of a counter-clockwise edge.
    const depth = reach(x, y, s, -c);
    tensions.fill(0);
    for (let k = 0; k < places.length; k++) {
      const [share, weight] = places[k]!;
      // On the edge itself there is no normal to go along: an outline that touches the contour keeps its hoop stress.
      const off = Math.max(share * depth, 1e-9 * distance);
      const stresses = channel.at(x + off * s, y - off * c);
      for (let l = 0; l < loadCount; l++) {
        const { xx, yy, xy } = stresses[l]!;
        tensions[l]! += weight * (xx * c * c + yy * s * s + 2 * xy * c * s);
      }
    }
  };

  /** Largest where the load factor is least: its negative. */
  const weakness: AlongEdge = {
    atNode: (node) => -tensionFactor(hand.fixed[node]!, hand.scaled[node]!, strength),
    between(node, weights) {
      const x = interpolated(nodes!.x, node, weights);
      const y = interpolated(nodes!.y, node, weights);
      const dx = interpolated(nodes!.dx, node, weights);
      const dy = interpolated(nodes!.dy, node, weights);
      findTensions(x, y, dx, dy);
      let fixed = 0;
      let scaled = 0;
      for (let l = 0; l < loadCount; l++) {
        fixed += fixedFactors[l]! * tensions[l]!;
        scaled += scaledFactors[l]! * tensions[l]!;
      }
      return -tensionFactor(fixed, scaled, strength);
    },
  };

  return {
    covers: (x, y) => channel.distance(x, y) < distance,
    take(edge: SolvedEdge) {
      nodes = edge.nodes;
      const { mirror } = edge;
      const { count, x, y, dx, dy } = nodes;
      seen = mirror ? count / 2 : count;
      hand = buffersOf(count);
      for (let j = 0; j < seen; j++) {
        findTensions(x[j]!, y[j]!, dx[j]!, dy[j]!);
        for (let l = 0; l < loadCount; l++) {
          hand.tension[l]![j] = tensions[l]!;
          // The image of a node stands as far from the other end.
          if (mirror) hand.tension[l]![count - 1 - j] = tensions[l]!;
        }
      }
    },
    judge(fixed: Float64Array, scaled: Float64Array, first: FirstFailure) {
      fixedFactors = fixed;
      scaledFactors = scaled;
      combine(hand.tension, fixed, hand.fixed);
      combine(hand.tension, scaled, hand.scaled);
      lowerAlongEdge(first, nodes!, seen, hand.fixed, hand.scaled, strength, weakness, hand.summit);
      // Where the distance comes to end on the contour, the tension has kinks: a top can hide between two nodes that are lower.
      for (let j = 0; j < seen; j++) {
        const next = (j + 1) % nodes!.count;
        if (!(-Math.max(weakness.atNode(j), weakness.atNode(next)) < hidden * first.factor)) continue;
        const { x, y } = nodes!;
        lower(first, -hand.summit.halfway(weakness, j), (x[j]! + x[next]!) / 2, (y[j]! + y[next]!) / 2);
      }
    },
    perNode: 1,
    writeInverse(fixed, scaled, weight, out, at) {
      combine(hand.tension, fixed, hand.fixed);
      combine(hand.tension, scaled, hand.scaled);
      for (let j = 0; j < seen; j++)
        out[at + j] = weight * inverseTensionFactor(hand.fixed[j]!, hand.scaled[j]!, strength);
    },
  };
}
