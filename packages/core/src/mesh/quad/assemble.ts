import type { ElementMatrices } from '../../linear/index.js';
import { addElementStiffness, elementOrder, placeIn } from './element.js';
import type { SectionBody } from './section-mesh.js';

/** A load as an unknown of its own: `force` per unit of it on each of `dofs`. */
export interface BorderedLoad {
  readonly dofs: readonly number[];
  readonly force: readonly number[];
  readonly x: number;
  readonly y: number;
}

/** Numbers of the unknowns of a body: node k has `2 k` (u) and `2 k + 1` (v); then axial strain, temperature, loads. */
export interface Unknowns {
  readonly count: number;
  readonly strainZ: number;
  readonly deltaT: number;
  readonly load: (index: number) => number;
}

export function numberUnknowns(nodeCount: number, loadCount: number): Unknowns {
  return {
    count: 2 * nodeCount + 2 + loadCount,
    strainZ: 2 * nodeCount,
    deltaT: 2 * nodeCount + 1,
    load: (index) => 2 * nodeCount + 2 + index,
  };
}

/** Element matrices of a body (generalised plane strain) with its loads bordered in: ready for `factorize`. */
export function assembleBody(body: SectionBody, loads: readonly BorderedLoad[] = []): ElementMatrices {
  const { mesh } = body;
  const count = mesh.material.length;
  const unknowns = numberUnknowns(mesh.x.length, loads.length);
  const square = elementOrder ** 2;
  const loadSizes = loads.map((load) => load.dofs.length + 1);
  const offsets = new Int32Array(count + loads.length + 1);
  for (let e = 0; e < count; e++) offsets[e + 1] = offsets[e]! + elementOrder;
  loadSizes.forEach((size, l) => {
    offsets[count + l + 1] = offsets[count + l]! + size;
  });
  const dofs = new Int32Array(offsets[offsets.length - 1]!);
  const matrices = new Float64Array(count * square + loadSizes.reduce((sum, size) => sum + size * size, 0));
  const x = new Float64Array(count + loads.length);
  const y = new Float64Array(count + loads.length);
  for (let e = 0; e < count; e++) {
    const at = e * elementOrder;
    for (let i = 0; i < 9; i++) {
      const node = mesh.elements[9 * e + i]!;
      dofs[at + 2 * i] = 2 * node;
      dofs[at + 2 * i + 1] = 2 * node + 1;
    }
    dofs[at + 18] = unknowns.strainZ;
    dofs[at + 19] = unknowns.deltaT;
    addElementStiffness(body, e, matrices, e * square);
    [x[e], y[e]] = placeIn(mesh, e, 0, 0) as [number, number];
  }
  let start = count * square;
  loads.forEach((load, l) => {
    const size = loadSizes[l]!;
    dofs.set(load.dofs, offsets[count + l]!);
    dofs[offsets[count + l]! + size - 1] = unknowns.load(l);
    load.force.forEach((force, i) => {
      matrices[start + (size - 1) * size + i] = -force;
    });
    x[count + l] = load.x;
    y[count + l] = load.y;
    start += size * size;
  });
  return { dofCount: unknowns.count, offsets, dofs, matrices, x, y };
}

/** Consistent nodal forces of a traction along quadratic edges: `edges` lists node triples (end, middle, end). */
export function edgeLoad(
  mesh: { readonly x: Float64Array; readonly y: Float64Array },
  edges: readonly (readonly [number, number, number])[],
  traction: (x: number, y: number) => readonly [number, number],
): BorderedLoad {
  const force = new Map<number, number>();
  const points = [-Math.sqrt(0.6), 0, Math.sqrt(0.6)];
  const weights = [5 / 9, 8 / 9, 5 / 9];
  for (const edge of edges)
    points.forEach((s, g) => {
      const N = [(s * (s - 1)) / 2, 1 - s * s, (s * (s + 1)) / 2];
      const D = [s - 0.5, -2 * s, s + 0.5];
      const sum = (f: readonly number[], values: Float64Array) => f.reduce((t, w, i) => t + w * values[edge[i]!]!, 0);
      const length = Math.hypot(sum(D, mesh.x), sum(D, mesh.y)) * weights[g]!;
      const [tx, ty] = traction(sum(N, mesh.x), sum(N, mesh.y));
      edge.forEach((node, i) => {
        force.set(2 * node, (force.get(2 * node) ?? 0) + N[i]! * tx * length);
        force.set(2 * node + 1, (force.get(2 * node + 1) ?? 0) + N[i]! * ty * length);
      });
    });
  const used = [...force].filter(([, value]) => value !== 0);
  const first = edges[0]![1];
  return { dofs: used.map(([dof]) => dof), force: used.map(([, f]) => f), x: mesh.x[first]!, y: mesh.y[first]! };
}
