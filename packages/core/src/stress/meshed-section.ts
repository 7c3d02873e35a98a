import {
  directionInSection,
  hostOf,
  type Joint,
  type LoadCase,
  type Loads,
  meshJoint,
  placeInSection,
  type ShapeFrame,
} from '../host/index.js';
import { nodalStress } from '../mesh/triangle/index.js';
import type { CurveNodes } from '../outline/index.js';
import { caseFactors } from './case-factors.js';
import { channelCurves } from './channel-curves.js';
import type { MeshedOptions } from './meshed.js';

/** What one case does to a meshed section. */
export interface MeshedCase {
  /** `(u, v)` of every point, mm. */
  readonly displacement: Float64Array;
  /** `(xx, yy, zz, xy)` of every point, MPa. */
  readonly stress: Float64Array;
}

/**
 * A whole section meshed in cubic triangles and solved, as plain data for viewers. Stresses jump between layers: every zone has points of its own
 * at the nodes that it shares with others. Lengths in mm, MPa; in the axes of the section, also where its channel is told in a frame of a pocket.
 */
export interface MeshedSection {
  /** Nodes. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Ten nodes to a triangle: corners, two on each side in turn, the middle. */
  readonly triangles: Int32Array;
  /** The same in points, and the node of each point. */
  readonly trianglePoints: Int32Array;
  readonly nodeOf: Int32Array;
  /** Zone of each triangle, by its place among the names: 'filler', 'web, layer 2'. */
  readonly zoneOf: Int32Array;
  readonly zones: readonly string[];
  /** Named parts of the border, four nodes to a side in their order along it. */
  readonly sides: Readonly<Record<string, Int32Array>>;
  readonly cases: Readonly<Record<string, MeshedCase>>;
}

/**
 * Meshes and solves a section by the independent check, for other programs to show.
 *
 * @param nodes of the outline, as `meshedStress` takes them; `undefined` for the joint without channel
 * @throws InputError where the outline leaves the filler or a load does not suit the host
 */
export function meshedSection(
  joint: Joint,
  loads: Loads,
  cases: readonly LoadCase[],
  nodes: CurveNodes | undefined,
  { coarseness = 1, channels }: MeshedOptions = {},
): MeshedSection {
  const { mesh, solutions } = meshJoint(joint, loads, channelCurves(nodes, channels), coarseness);
  const { x, y, triangles, zoneOf, zones, sides } = mesh;
  const nodeOf: number[] = [];
  const points = zones.map(() => new Map<number, number>());
  const trianglePoints = triangles.map((node, k) => {
    const own = points[zoneOf[Math.floor(k / 10)]!]!;
    const point = own.get(node) ?? nodeOf.push(node) - 1;
    own.set(node, point);
    return point;
  });
  const byLoad = [...solutions.values()].map(({ u, deltaT }) => {
    const stress = new Float64Array(4 * nodeOf.length);
    for (const [zone, own] of points.entries())
      for (const [node, { xx, yy, zz, xy }] of nodalStress(mesh, u, deltaT, (other) => other === zone))
        stress.set([xx, yy, zz, xy], 4 * own.get(node)!);
    return { stress, displacement: Float64Array.from(nodeOf.flatMap((node) => [u[2 * node]!, u[2 * node + 1]!])) };
  });
  const { frame } = hostOf(joint).shape ?? {};
  if (frame !== undefined) for (const one of byLoad) turnInto(frame, one);
  const placed = frame === undefined ? { x, y } : placesIn(frame, x, y);
  const names = [...solutions.keys()];
  const combined = (one: LoadCase, of: keyof MeshedCase) => {
    const sum = new Float64Array(nodeOf.length * (of === 'stress' ? 4 : 2));
    for (const [l, factor] of caseFactors(one, names).entries())
      byLoad[l]![of].forEach((value, i) => {
        sum[i]! += factor * value;
      });
    return sum;
  };
  return {
    ...{ ...placed, triangles, trianglePoints, zoneOf },
    nodeOf: Int32Array.from(nodeOf),
    zones: zones.map(({ place, layer }) => (layer < 0 ? place : `${place}, layer ${layer + 1}`)),
    sides: Object.fromEntries(sides),
    cases: Object.fromEntries(
      cases.map((one) => [one.name, { displacement: combined(one, 'displacement'), stress: combined(one, 'stress') }]),
    ),
  };
}

function placesIn(frame: ShapeFrame, x: Float64Array, y: Float64Array) {
  const places = Array.from(x, (value, node) => placeInSection(frame, [value, y[node]!]));
  return { x: Float64Array.from(places, ([at]) => at), y: Float64Array.from(places, ([, at]) => at) };
}

/** Turns displacements and stresses of a frame into the axes of the section. */
function turnInto(frame: ShapeFrame, { displacement, stress }: MeshedCase): void {
  for (let i = 0; i < displacement.length; i += 2)
    displacement.set(directionInSection(frame, displacement[i]!, displacement[i + 1]!), i);
  const [c, s] = directionInSection(frame, 1, 0);
  for (let i = 0; i < stress.length; i += 4) {
    const [xx, yy, xy] = [stress[i]!, stress[i + 1]!, stress[i + 3]!];
    stress[i] = c * c * xx + s * s * yy - 2 * c * s * xy;
    stress[i + 1] = s * s * xx + c * c * yy + 2 * c * s * xy;
    stress[i + 3] = c * s * (xx - yy) + (c * c - s * s) * xy;
  }
}
