import { InputError } from '../errors.js';
import {
  type LoadCase,
  type LoadName,
  type Loads,
  type SectionPoint,
  solveTee,
  type TeeJoint,
  teeTriangles,
} from '../host/index.js';
import {
  type CubicMesh,
  edgeCurve,
  type LocalStress,
  localStress,
  locate,
  nodalStress,
  normalAngle,
  type PointStress,
  type Solution,
  stressOf,
} from '../mesh/triangle/index.js';
import type { CurveNodes } from '../outline/index.js';
import { caseFactors } from './case-factors.js';

export interface MeshedSectionOptions {
  /** Scales the sides of all triangles; default 1. */
  readonly coarseness?: number;
  /** Places nearer to one of the filler's three tips are left out of the largest stresses, mm; default a tenth of the bend radius. */
  readonly tipDistance?: number;
  /** Places nearer to the channel's edge are left out of the filler's largest stress, mm; default 0. */
  readonly edgeDistance?: number;
}

export interface SectionLargest {
  /** MPa */
  readonly value: number;
  readonly at: readonly [x: number, y: number];
}

/**
 * Largest stresses of a section, each with its place: principal stress in the filler; tension through the thickness and
 * absolute shear in the bends; tension and absolute shear on the interfaces of the filler with bends (arc) and skin (base).
 */
export type SectionStresses = Readonly<
  Record<
    'fillerPrincipal' | 'bendRadial' | 'bendShear' | 'arcNormal' | 'arcShear' | 'baseNormal' | 'baseShear',
    SectionLargest
  >
>;

/** Stresses of the whole joint, the channel meshed directly or absent. */
export interface MeshedSection {
  readonly loads: Readonly<Partial<Record<LoadName, SectionStresses>>>;
  readonly cases: Readonly<Record<string, SectionStresses>>;
  readonly strainZ: Readonly<Partial<Record<LoadName, number>>>;
  /**
   * Stresses at section points per load: `(n, t, nt)` of each, in its own axes, MPa. At interfaces n and nt are the mean of
   * both sides, t is the filler's. Throws `InputError` for a point that does not lie where it says.
   */
  at(points: readonly SectionPoint[]): Readonly<Partial<Record<LoadName, Float64Array>>>;
}

/** The joint's stresses by cubic finite elements; shares outline and materials with the fast model and nothing else. */
export function meshedSection(
  joint: TeeJoint,
  loads: Loads,
  cases: readonly LoadCase[],
  nodes: CurveNodes | undefined,
  { coarseness = 1, tipDistance = joint.bendRadius / 10, edgeDistance = 0 }: MeshedSectionOptions = {},
): MeshedSection {
  const mesh = teeTriangles(joint, nodes && edgeCurve(nodes), coarseness);
  const solutions = solveTee(mesh, joint, loads);
  const R = joint.bendRadius;
  const edge = mesh.sides.get('channel') ?? new Int32Array(0);
  const included = (x: number, y: number) =>
    Math.min(Math.hypot(Math.abs(x) - R, y), Math.hypot(x, y - R)) >= tipDistance;
  const clear = (x: number, y: number) =>
    included(x, y) && edge.every((node) => Math.hypot(mesh.x[node]! - x, mesh.y[node]! - y) >= edgeDistance);
  const survey = (solution: Solution) => surveyed(mesh, solution, included, clear);
  return {
    loads: Object.fromEntries([...solutions].map(([name, solution]) => [name, survey(solution)])),
    cases: Object.fromEntries(cases.map((one) => [one.name, survey(combined(mesh, solutions, one))])),
    strainZ: Object.fromEntries([...solutions].map(([name, { u }]) => [name, u.at(-1)!])),
    at: (points) => Object.fromEntries([...solutions].map(([name, one]) => [name, stressAt(mesh, one, points)])),
  };
}

function combined(mesh: CubicMesh, solutions: ReadonlyMap<LoadName, Solution>, loadCase: LoadCase): Solution {
  const names = [...solutions.keys()];
  const u = new Float64Array(2 * mesh.x.length + 1);
  let deltaT = 0;
  caseFactors(loadCase, names).forEach((factor, k) => {
    const solution = solutions.get(names[k]!)!;
    for (let i = 0; i < u.length; i++) u[i]! += factor * solution.u[i]!;
    deltaT += factor * solution.deltaT;
  });
  return { u, deltaT, pressure: 0 };
}

/** Larger principal stress in the plane of the section. */
function principal({ xx, yy, xy }: PointStress): number {
  return (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy);
}

function surveyed(
  mesh: CubicMesh,
  { u, deltaT }: Solution,
  included: (x: number, y: number) => boolean,
  clear: (x: number, y: number) => boolean,
): SectionStresses {
  const largest = () => {
    const found = { value: Number.NEGATIVE_INFINITY, at: [Number.NaN, Number.NaN] as readonly [number, number] };
    return {
      found,
      see(value: number, x: number, y: number) {
        if (value <= found.value) return;
        found.value = value;
        found.at = [x, y];
      },
    };
  };
  const fillerPrincipal = largest();
  const bendRadial = largest();
  const bendShear = largest();
  const arcNormal = largest();
  const arcShear = largest();
  const baseNormal = largest();
  const baseShear = largest();

  const filler = nodalStress(mesh, u, deltaT, (zone) => mesh.zones[zone]!.place === 'filler');
  for (const stress of filler.values())
    if (clear(stress.x, stress.y)) fillerPrincipal.see(principal(stress), stress.x, stress.y);

  const facing = { bend: new Map<number, PointStress>(), skin: new Map<number, PointStress>() };
  mesh.zones.forEach((zone, number) => {
    if (zone.place !== 'bend' && zone.place !== 'skin') return;
    if (zone.place === 'skin' && zone.layer > 0) return;
    for (const [node, stress] of nodalStress(mesh, u, deltaT, (z) => z === number)) {
      if (zone.layer === 0) facing[zone.place].set(node, stress);
      if (zone.place === 'skin' || !included(stress.x, stress.y)) continue;
      const [n, , nt] = localStress(stress, normalAngle(zone, stress.x, stress.y));
      bendRadial.see(n, stress.x, stress.y);
      bendShear.see(Math.abs(nt), stress.x, stress.y);
    }
  });

  const bends = mesh.zones.filter(({ place, layer }) => place === 'bend' && layer === 0);
  const interfaces = [
    { side: 'arc', other: facing.bend, normal: arcNormal, shear: arcShear },
    { side: 'base', other: facing.skin, normal: baseNormal, shear: baseShear },
  ] as const;
  for (const { side, other, normal, shear } of interfaces)
    for (const node of mesh.sides.get(side)!) {
      const x = mesh.x[node]!;
      const y = mesh.y[node]!;
      const [inner, outer] = [filler.get(node), other.get(node)];
      if (!included(x, y) || inner === undefined || outer === undefined) continue;
      const bend = bends.find(({ normal: axis }) => 'centre' in axis && axis.centre[0] * x >= 0)!;
      const angle = side === 'base' ? Math.PI / 2 : normalAngle(bend, x, y);
      const [a, b] = [localStress(inner, angle), localStress(outer, angle)];
      normal.see((a[0] + b[0]) / 2, x, y);
      shear.see(Math.abs(a[2] + b[2]) / 2, x, y);
    }
  return {
    fillerPrincipal: fillerPrincipal.found,
    bendRadial: bendRadial.found,
    bendShear: bendShear.found,
    arcNormal: arcNormal.found,
    arcShear: arcShear.found,
    baseNormal: baseNormal.found,
    baseShear: baseShear.found,
  };
}

/** `(n, t, nt)` of every point. */
function stressAt(mesh: CubicMesh, { u, deltaT }: Solution, points: readonly SectionPoint[]): Float64Array {
  const stress = stressOf(mesh, u, deltaT);
  const result = new Float64Array(3 * points.length);
  points.forEach(({ place, layer, x, y, normalAngle: angle }, p) => {
    const from = (zonePlace: string, zoneLayer: number): LocalStress => {
      const found = locate(mesh, x, y, (zone) => {
        const { place: there, layer: here } = mesh.zones[zone]!;
        return there === zonePlace && here === zoneLayer;
      });
      if (found === undefined)
        throw new InputError({
          path: `points[${p}]`,
          expected: `a place in layer ${zoneLayer} of the ${zonePlace}`,
          received: `(${x}, ${y})`,
          remedy: 'take places inside the body they name, and none inside the channel',
        });
      return localStress(stress(found.triangle, found.L2, found.L3), angle);
    };
    let value: LocalStress;
    if (place === 'arc-interface' || place === 'base-interface') {
      const inner = from('filler', -1);
      const outer = from(place === 'arc-interface' ? 'bend' : 'skin', 0);
      value = [(inner[0] + outer[0]) / 2, inner[1], (inner[2] + outer[2]) / 2];
    } else value = from(place, layer);
    result.set(value, 3 * p);
  });
  return result;
}
