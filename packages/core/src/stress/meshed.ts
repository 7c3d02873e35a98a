import { InputError } from '../errors.js';
import {
  type Host,
  hostKind,
  hostOf,
  type Joint,
  type LoadCase,
  type LoadName,
  type Loads,
  type MeshedLoads,
  meshJoint,
} from '../host/index.js';
import { sectionStiffness } from '../material/index.js';
import {
  type CubicMesh,
  type EdgeCurve,
  type EdgeHoop,
  type EdgePeak,
  edgeHoops,
  edgePeak,
  hoopAt,
} from '../mesh/triangle/index.js';
import { alone, type CurveNodes, type SideBySide } from '../outline/index.js';
import { caseFactors } from './case-factors.js';
import { channelCurves } from './channel-curves.js';

/** How finely the section is meshed, and how many channels it has. */
export interface MeshedOptions {
  /** Scales the sides of all triangles; 1 (default) leaves about 0.05 % in the peak. */
  readonly coarseness?: number;
  /** Channels of the one outline; one where left out. */
  readonly channels?: SideBySide;
}

/** A peak and the mesh's own error of it, as a fraction of the largest hoop stress. */
export interface MeshedPeak extends EdgePeak {
  readonly error: number;
}

/** Edge stress of a channel meshed directly. mm, MPa */
export interface MeshedStress {
  /** Per load at its given size. */
  readonly loads: Readonly<Record<LoadName, MeshedPeak>>;
  /** Per case, by its name. */
  readonly cases: Readonly<Record<string, MeshedPeak>>;
  /** Largest of the errors above. */
  readonly error: number;
  /** Hoop stress at the outline's nodes, per load, on the finer mesh; of several channels, one after the other at the nodes of each on the right and of its mirror image. */
  readonly hoop: Readonly<Record<LoadName, Float64Array>>;
  /** Uniform axial strain per load (tee only). */
  readonly strainZ: Readonly<Record<LoadName, number>>;
  /** Size of the two meshes, finer first. */
  readonly meshes: readonly { readonly triangles: number; readonly unknowns: number }[];
}

/**
 * The coarser mesh of a pair has sides 2^(1/2) times as long. If the error falls at least with the square of the side, what is left
 * in the finer mesh is at most their difference (Richardson); on smooth edges it falls faster.
 */
const coarser = Math.SQRT2;

/**
 * The independent check: edge stress of an outline by cubic finite elements of the whole section with the channel in it.
 * It shares outline and materials with the fast model, and nothing else.
 *
 * `nodes`: the outline, sampled densely enough that quintic pieces through its nodes are the curve (256 serve any
 * admissible outline). Throws `InputError` where it leaves the filler or a load does not suit the host.
 */
export function meshedStress(
  joint: Joint,
  loads: Loads,
  cases: readonly LoadCase[],
  nodes: CurveNodes,
  { coarseness = 1, channels = alone }: MeshedOptions = {},
): MeshedStress {
  // Before anything is meshed.
  for (const one of cases) caseFactors(one, Object.keys(loads) as LoadName[]);
  const curves = channelCurves(nodes, channels);
  const fine = solveEdges(joint, loads, curves, coarseness);
  const coarse = solveEdges(joint, loads, curves, coarseness * coarser);
  const peakOf = (combine: (run: EdgeRun) => readonly Float64Array[]): MeshedPeak => {
    const peak = worstEdge(fine, combine(fine));
    const scale = Math.max(Math.abs(peak.peak), Math.abs(peak.least));
    const other = worstEdge(coarse, combine(coarse)).peak;
    return { ...peak, error: scale === 0 ? 0 : Math.abs(peak.peak - other) / scale };
  };

  const byLoad = Object.fromEntries([...fine.hoop.keys()].map((name) => [name, peakOf((run) => run.hoop.get(name)!)]));
  const byCase = Object.fromEntries(cases.map((one) => [one.name, peakOf((run) => combined(run, one))]));
  return {
    loads: byLoad,
    cases: byCase,
    error: Math.max(...[...Object.values(byLoad), ...Object.values(byCase)].map(({ error }) => error)),
    hoop: hoopAtNodes(fine, nodes, curves),
    strainZ: Object.fromEntries(fine.strainZ),
    meshes: [fine, coarse].map(({ mesh }) => ({ triangles: mesh.zoneOf.length, unknowns: 2 * mesh.x.length + 1 })),
  };
}

/** One mesh, solved for every load. */
interface EdgeRun {
  readonly mesh: CubicMesh;
  readonly edges: readonly EdgeHoop[];
  /** Of every edge. */
  readonly hoop: ReadonlyMap<LoadName, readonly Float64Array[]>;
  readonly strainZ: ReadonlyMap<LoadName, number>;
}

/** The largest peak over all edges, and the least hoop stress of any. */
function worstEdge({ edges }: EdgeRun, hoop: readonly Float64Array[]): EdgePeak {
  const peaks = edges.map((edge, k) => edgePeak(edge, hoop[k]!));
  const worst = peaks.reduce((a, b) => (b.peak > a.peak ? b : a));
  return { ...worst, least: Math.min(...peaks.map(({ least }) => least)) };
}

function combined(run: EdgeRun, loadCase: LoadCase): Float64Array[] {
  const names = [...run.hoop.keys()];
  const factors = caseFactors(loadCase, names);
  return run.edges.map((edge, k) => {
    const sum = new Float64Array(edge.arc.length);
    factors.forEach((factor, l) => {
      const hoop = run.hoop.get(names[l]!)![k]!;
      for (let i = 0; i < sum.length; i++) sum[i]! += factor * hoop[i]!;
    });
    return sum;
  });
}

function solveEdges(joint: Joint, loads: Loads, curves: readonly EdgeCurve[], coarseness: number): EdgeRun {
  const host = hostOf(joint);
  return edgesOf(host, meshJoint(joint, loads, curves, coarseness), loads);
}

/** Hoop stress at the nodes of an outline in a section that was meshed with its curves, per load, as `MeshedStress.hoop`. */
export function meshedHoop(
  host: Host,
  meshed: MeshedLoads,
  loads: Loads,
  nodes: CurveNodes,
  curves: readonly EdgeCurve[],
): Readonly<Record<LoadName, Float64Array>> {
  return hoopAtNodes(edgesOf(host, meshed, loads), nodes, curves);
}

function hoopAtNodes({ edges, hoop }: EdgeRun, nodes: CurveNodes, curves: readonly EdgeCurve[]) {
  const atNodes = (values: readonly Float64Array[]): Float64Array =>
    Float64Array.from(
      curves.flatMap((curve, k) => {
        // As `placedChannels` has them: images every other time, of an odd number the first by itself.
        const isImage = k > 0 && (curves.length - k) % 2 === 1;
        const nodeOf = (j: number) => (isImage ? nodes.count - 1 - j : j);
        const arcs = Float64Array.from(nodes.x, (_, j) => curve.arcOfNode(nodeOf(j)));
        return [...hoopAt(edges[k]!, values[k]!, arcs, curve.length)];
      }),
    );
  return Object.fromEntries([...hoop].map(([name, values]) => [name, atNodes(values)]));
}

function edgesOf(host: Host, { mesh, solutions }: MeshedLoads, loads: Loads): EdgeRun {
  const material = sectionStiffness({ angle: 90, ply: host.material });
  const hoop = new Map<LoadName, readonly Float64Array[]>();
  const strainZ = new Map<LoadName, number>();
  let edges: readonly EdgeHoop[] | undefined;
  for (const [name, { u, deltaT, pressure }] of solutions) {
    edges = edgeHoops(mesh, material, { u, deltaT, pressure });
    hoop.set(
      name,
      edges.map((edge) => edge.hoop),
    );
    strainZ.set(name, u.at(-1)!);
  }
  if (edges === undefined)
    throw new InputError({
      path: 'loads',
      expected: 'at least one load that this host can carry',
      received: Object.keys(loads).join(', ') || 'none',
      remedy: `give ${hostKind(host.kind)
        .loads.map(({ name }) => name)
        .join(' or ')}`,
    });
  return { mesh, edges, hoop, strainZ };
}
