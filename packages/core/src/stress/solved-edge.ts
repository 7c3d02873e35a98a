import { createHoopExtremes, type HoopExtremes, type InnerPoint } from '../edge/index.js';
import { type CurveNodes, createCurveNodes, distanceToOutline } from '../outline/index.js';

/** The edge of one channel as it was solved, alone or with others. MPa, mm. Overwritten by the next call on the same model. */
export interface SolvedChannel {
  nodes: CurveNodes;
  /** Solved as mirror-symmetric. */
  readonly mirror: boolean;
  /** The middle one of several channels, which is its own mirror image; all others have theirs on the left. */
  readonly onAxis: boolean;
  /**
   * Values of cases are those at the nodes, then those at their images on another edge, on the left: of several channels under loads that are not all symmetric.
   * Those of a load are the same there, or with the other sign.
   */
  readonly bothSides: boolean;
  /** The point inside that it was solved with: well away from the edge, as its nodes see it. */
  readonly inner: InnerPoint;
  /** Hoop stress at the nodes, one array per load. */
  readonly hoop: readonly Float64Array[];
  /** Hoop stress at the nodes, one array per case. */
  readonly caseHoop: readonly Float64Array[];
  /** The same half way to the next node; filled only for the detail 'halfway'. */
  readonly caseHalfway: readonly Float64Array[];
  /** Derivatives of phi along the curve parameter at the nodes, over the basis's length, one array per load. MPa */
  readonly slopes: readonly Float64Array[];
  /** Boundary values of phi at the nodes, over the basis's length, one array per load: with the moments that the host sees they tell the stresses elsewhere. */
  readonly phi: readonly Float64Array[];
}

/**
 * An outline as it was solved, and the stress around its edge. MPa, mm. Overwritten by the next call on the same model. Of several channels of one outline, nodes and inner point
 * are those of the given one, and arrays that tell of nodes hold one channel after the other.
 */
export interface SolvedEdge extends SolvedChannel {
  /** There are other channels, and all are symmetric in x = 0 together, as their host is. */
  readonly several: boolean;
  /** Channels that were given one by one: none need be the copy of another. */
  readonly apart: boolean;
  /**
   * Each channel on x = 0 and on the right of it, the given one first: views of the arrays above. Of one channel, itself. In a host without mirror symmetry all channels,
   * each mirror image behind the one that it is of.
   */
  readonly each: readonly SolvedChannel[];
  /** One per load of the model's `loads`, at its given size, over all edges. */
  readonly loads: readonly HoopExtremes[];
  /** One per case. */
  readonly cases: readonly HoopExtremes[];
  /** Moments that the host sees, one array per load. */
  readonly moments: readonly Float64Array[];
  /** By how much the host strains otherwise along the channel than without it, load by load. */
  readonly strains: Float64Array;
  /** Peak of the worst case, MPa; NaN, as everything above, where the edge equation could not be solved. */
  worst: number;
  /** Index of the worst case. */
  worstCase: number;
  iterations: number;
}

/** What a solved edge has room for. */
export interface EdgeShape {
  readonly mirror: boolean;
  readonly several: boolean;
  readonly apart: boolean;
  readonly channels: readonly Pick<SolvedChannel, 'nodes' | 'onAxis' | 'bothSides'>[];
  readonly loads: number;
  readonly cases: number;
  readonly moments: number;
}

export function createSolvedEdge({ mirror, several, apart, channels, loads, cases, moments }: EdgeShape): SolvedEdge {
  const arrays = (howMany: number, size: number) => Array.from({ length: howMany }, () => new Float64Array(size));
  const extremes = (howMany: number) => Array.from({ length: howMany }, createHoopExtremes);
  const { count } = channels[0]!.nodes;
  const sides = channels.reduce((sum, { bothSides }) => sum + (bothSides ? 2 : 1), 0);
  const each: SolvedChannel[] = [];
  const edge: SolvedEdge = {
    ...{ nodes: channels[0]!.nodes, onAxis: channels[0]!.onAxis, mirror, several, apart, each },
    bothSides: sides > channels.length,
    inner: { x: 0, y: 0 },
    loads: extremes(loads),
    cases: extremes(cases),
    hoop: arrays(loads, channels.length * count),
    caseHoop: arrays(cases, sides * count),
    caseHalfway: arrays(cases, sides * count),
    slopes: arrays(loads, 2 * channels.length * count),
    phi: arrays(loads, 2 * channels.length * count),
    moments: arrays(loads, moments),
    strains: new Float64Array(loads),
    worst: Number.NaN,
    worstCase: 0,
    iterations: 0,
  };
  each.push(...viewsOf(edge, channels));
  return edge;
}

/** Each channel by itself; one channel is all. */
function viewsOf(edge: SolvedEdge, channels: EdgeShape['channels']): readonly SolvedChannel[] {
  if (channels.length === 1) return [edge];
  const { count } = edge.nodes;
  let side = 0;
  return channels.map(({ nodes, onAxis, bothSides }, k): SolvedChannel => {
    const part = (all: readonly Float64Array[], perNode: number) =>
      all.map((values) => values.subarray(perNode * k * count, perNode * (k + 1) * count));
    const from = side;
    side += bothSides ? 2 : 1;
    const ofSides = (all: readonly Float64Array[]) =>
      all.map((values) => values.subarray(from * count, (from + (bothSides ? 2 : 1)) * count));
    return {
      ...{ nodes, onAxis, mirror: edge.mirror, bothSides, inner: { x: 0, y: 0 } },
      hoop: part(edge.hoop, 1),
      caseHoop: ofSides(edge.caseHoop),
      caseHalfway: ofSides(edge.caseHalfway),
      slopes: part(edge.slopes, 2),
      phi: part(edge.phi, 2),
    };
  });
}

/** A copy that no later evaluation writes into, but for the nodes that were given. */
export function copyEdge(edge: SolvedEdge): SolvedEdge {
  const copies = (arrays: readonly Float64Array[]) => arrays.map((values) => values.slice());
  const extremes = (all: readonly HoopExtremes[]) => all.map((one) => ({ ...one }));
  const each: SolvedChannel[] = [];
  const copy: SolvedEdge = {
    ...edge,
    ...{ each, inner: { ...edge.inner } },
    loads: extremes(edge.loads),
    cases: extremes(edge.cases),
    hoop: copies(edge.hoop),
    caseHoop: copies(edge.caseHoop),
    caseHalfway: copies(edge.caseHalfway),
    slopes: copies(edge.slopes),
    phi: copies(edge.phi),
    moments: copies(edge.moments),
    strains: edge.strains.slice(),
  };
  const channels = edge.each.map((one, k) => ({ ...one, nodes: k === 0 ? edge.nodes : copyNodes(one.nodes) }));
  viewsOf(copy, channels).forEach((one, k) => {
    each.push(one === copy ? copy : { ...one, inner: { ...edge.each[k]!.inner } });
  });
  return copy;
}

function copyNodes(nodes: CurveNodes): CurveNodes {
  const copy = createCurveNodes(nodes.count);
  for (const of of ['x', 'y', 'dx', 'dy', 'ddx', 'ddy'] as const) copy[of].set(nodes[of]);
  return copy;
}

/** Distance of a place from the nearest edge, between nodes too, mm: of several channels from those on its own side. */
export function distanceToEdges({ each, several }: SolvedEdge, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < each.length; k++)
    least = Math.min(least, distanceToOutline(each[k]!.nodes, several ? Math.abs(x) : x, y));
  return least;
}
