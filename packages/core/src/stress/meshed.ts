import { InputError } from '../errors.js';
import { hostKind, hostOf, type Joint, type LoadCase, type LoadName, type Loads } from '../host/index.js';
import { sectionStiffness } from '../material/index.js';
import {
  type CubicMesh,
  type EdgeCurve,
  type EdgeHoop,
  type EdgePeak,
  edgeCurve,
  edgeHoop,
  edgePeak,
  hoopAt,
} from '../mesh/triangle/index.js';
import type { CurveNodes } from '../outline/index.js';
import { caseFactors } from './case-factors.js';

/** How finely the section is meshed. */
export interface MeshedOptions {
  /** Scales the sides of all triangles; 1 (default) leaves about 0.05 % in the peak. */
  readonly coarseness?: number;
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
  /** Hoop stress at the outline's nodes, per load, on the finer mesh. */
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
  { coarseness = 1 }: MeshedOptions = {},
): MeshedStress {
  const curve = edgeCurve(nodes);
  const fine = solveEdge(joint, loads, curve, coarseness);
  const coarse = solveEdge(joint, loads, curve, coarseness * coarser);
  const peakOf = (combine: (run: EdgeRun) => Float64Array): MeshedPeak => {
    const hoop = combine(fine);
    const peak = edgePeak(fine.edge, hoop);
    const scale = Math.max(Math.abs(peak.peak), Math.abs(peak.least));
    const other = edgePeak(coarse.edge, combine(coarse)).peak;
    return { ...peak, error: scale === 0 ? 0 : Math.abs(peak.peak - other) / scale };
  };

  const arcs = Float64Array.from(nodes.x, (_, j) => curve.arcOfNode(j));
  const byLoad = Object.fromEntries([...fine.hoop.keys()].map((name) => [name, peakOf((run) => run.hoop.get(name)!)]));
  const byCase = Object.fromEntries(cases.map((one) => [one.name, peakOf((run) => combined(run, one))]));
  return {
    loads: byLoad,
    cases: byCase,
    error: Math.max(...[...Object.values(byLoad), ...Object.values(byCase)].map(({ error }) => error)),
    hoop: Object.fromEntries([...fine.hoop].map(([name, hoop]) => [name, hoopAt(fine.edge, hoop, arcs, curve.length)])),
    strainZ: Object.fromEntries(fine.strainZ),
    meshes: [fine, coarse].map(({ mesh }) => ({ triangles: mesh.zoneOf.length, unknowns: 2 * mesh.x.length + 1 })),
  };
}

/** One mesh, solved for every load. */
interface EdgeRun {
  readonly mesh: CubicMesh;
  readonly edge: EdgeHoop;
  readonly hoop: ReadonlyMap<LoadName, Float64Array>;
  readonly strainZ: ReadonlyMap<LoadName, number>;
}

function combined(run: EdgeRun, loadCase: LoadCase): Float64Array {
  const sum = new Float64Array(run.edge.arc.length);
  const names = [...run.hoop.keys()];
  caseFactors(loadCase, names).forEach((factor, k) => {
    const hoop = run.hoop.get(names[k]!)!;
    for (let i = 0; i < sum.length; i++) sum[i]! += factor * hoop[i]!;
  });
  return sum;
}

function solveEdge(joint: Joint, loads: Loads, curve: EdgeCurve, coarseness: number): EdgeRun {
  const host = hostOf(joint);
  const { mesh, solutions } = host.mesh(loads, curve, coarseness);
  const material = sectionStiffness({ angle: 90, ply: host.material });
  const hoop = new Map<LoadName, Float64Array>();
  const strainZ = new Map<LoadName, number>();
  let edge: EdgeHoop | undefined;
  for (const [name, { u, deltaT, pressure }] of solutions) {
    edge = edgeHoop(mesh, material, u, deltaT, pressure);
    hoop.set(name, edge.hoop);
    strainZ.set(name, u.at(-1)!);
  }
  if (edge === undefined)
    throw new InputError({
      path: 'loads',
      expected: 'at least one load that this host can carry',
      received: Object.keys(loads).join(', ') || 'none',
      remedy: `give ${hostKind(joint.kind)
        .loads.map(({ name }) => name)
        .join(' or ')}`,
    });
  return { mesh, edge, hoop, strainZ };
}
