import type { ElementMatrices } from '../../linear/index.js';
import { addElementStiffness, addTriangleStiffness, elementOrder, placeIn, triangleOrder } from './element.js';
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

/** Unknowns of an element in the order of its matrix: those of its nodes, axial strain, temperature. */
export function elementDofs(nodes: Int32Array, nodeCount: number): Int32Array {
  const { strainZ, deltaT } = numberUnknowns(nodeCount, 0);
  const dofs = new Int32Array(2 * nodes.length + 2);
  nodes.forEach((node, i) => {
    dofs[2 * i] = 2 * node;
    dofs[2 * i + 1] = 2 * node + 1;
  });
  dofs[2 * nodes.length] = strainZ;
  dofs[2 * nodes.length + 1] = deltaT;
  return dofs;
}

/** Element matrices of a body (generalised plane strain) with its loads bordered in: ready for `factorize`. */
export function assembleBody(body: SectionBody, loads: readonly BorderedLoad[] = []): ElementMatrices {
  const { mesh } = body;
  const quads = mesh.material.length;
  const triangles = mesh.triangles?.material.length ?? 0;
  const unknowns = numberUnknowns(mesh.x.length, loads.length);
  const orders = [
    ...Array.from({ length: quads }, () => elementOrder),
    ...Array.from({ length: triangles }, () => triangleOrder),
    ...loads.map((load) => load.dofs.length + 1),
  ];
  const offsets = new Int32Array(orders.length + 1);
  const starts = new Float64Array(orders.length + 1);
  orders.forEach((order, e) => {
    offsets[e + 1] = offsets[e]! + order;
    starts[e + 1] = starts[e]! + order * order;
  });
  const dofs = new Int32Array(offsets[orders.length]!);
  const matrices = new Float64Array(starts[orders.length]!);
  const x = new Float64Array(orders.length);
  const y = new Float64Array(orders.length);
  const number = (e: number, nodes: Int32Array) => {
    dofs.set(elementDofs(nodes, mesh.x.length), offsets[e]);
  };
  for (let e = 0; e < quads; e++) {
    number(e, mesh.elements.subarray(9 * e, 9 * e + 9));
    addElementStiffness(body, e, matrices, starts[e]!);
    [x[e], y[e]] = placeIn(mesh, e, 0, 0) as [number, number];
  }
  for (let e = 0; e < triangles; e++) {
    const nodes = mesh.triangles!.elements.subarray(6 * e, 6 * e + 6);
    number(quads + e, nodes);
    addTriangleStiffness(body, e, matrices, starts[quads + e]!);
    x[quads + e] = (mesh.x[nodes[0]!]! + mesh.x[nodes[1]!]! + mesh.x[nodes[2]!]!) / 3;
    y[quads + e] = (mesh.y[nodes[0]!]! + mesh.y[nodes[1]!]! + mesh.y[nodes[2]!]!) / 3;
  }
  loads.forEach((load, l) => {
    const e = quads + triangles + l;
    const size = orders[e]!;
    dofs.set(load.dofs, offsets[e]!);
    dofs[offsets[e]! + size - 1] = unknowns.load(l);
    load.force.forEach((force, i) => {
      matrices[starts[e]! + (size - 1) * size + i] = -force;
    });
    x[e] = load.x;
    y[e] = load.y;
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
