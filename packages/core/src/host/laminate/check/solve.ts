import { Matrix, solve as solveDense } from 'ml-matrix';
import { type Factor, factorize } from '../../../linear/index.js';
import { layupThickness } from '../../../material/index.js';
import {
  addTraction,
  assembleCubic,
  type CubicMesh,
  type EdgeCurve,
  type Solution,
} from '../../../mesh/triangle/index.js';
import type { MeshedLoads } from '../../contract.js';
import type { LoadName, Loads } from '../../load.js';
import { endShear, type Hold, holdsOf, type LaminateJoint, membraneStiffness, middleHeight } from '../laminate.js';
import { laminateTriangles } from './triangles.js';

/** The whole section in triangles, and every load on it. */
export function meshLaminateLoads(
  joint: LaminateJoint,
  loads: Loads,
  curves: readonly EdgeCurve[],
  coarseness: number,
): MeshedLoads {
  const mesh = laminateTriangles(joint, curves, coarseness);
  return { mesh, solutions: solveLaminate(mesh, joint, loads) };
}

/** One thing that acts: on the dofs, on the distance and the direction of the end faces, and what these keep. */
interface Request {
  readonly hold: Hold;
  readonly load: Float64Array;
  /** N/mm, and N mm/mm (positive: the top pulls), on each of the two faces. */
  readonly force?: number;
  readonly moment?: number;
  readonly deltaT?: number;
  readonly pressure?: number;
  /** Mean strain to which faces that keep their distance are moved apart. */
  readonly strain?: number;
}

/**
 * Each load of a laminate at its given size, under generalised plane strain with no resultant axial force. End faces stay plane; they move
 * apart and turn against each other as their ends and the load let them. One factorisation serves all supports: the faces'
 * nodes are kept to the last.
 */
export function solveLaminate(mesh: CubicMesh, joint: LaminateJoint, loads: Loads): Map<LoadName, Solution> {
  const { elements, strainDof, thermalLoad } = assembleCubic(mesh);
  const nodesOf = (name: string) => [...new Set(mesh.sides.get(name)!)];
  const ends = { left: nodesOf('left-end'), right: nodesOf('right-end') };
  const all = [...ends.left, ...ends.right];
  const factor = factorize(elements, { retained: [...all.flatMap((node) => [2 * node, 2 * node + 1]), strainDof] });
  const blank = () => new Float64Array(strainDof + 1);
  const onSides = (names: readonly string[], traction: Parameters<typeof addTraction>[2]) => {
    const load = blank();
    for (const name of names) addTraction(mesh, mesh.sides.get(name) ?? new Int32Array(0), traction, load);
    return load;
  };
  const { stretched, free, within, strained } = holdsOf(joint.ends);
  const shearStress = endShear(layupThickness(joint.layup));
  const { stretch, bend, shear, flatwise, cure, pressure } = loads;
  const requests = new Map<LoadName, Request>();
  if (joint.row && stretch?.strain) requests.set('stretch', { hold: strained, load: blank(), strain: stretch.strain });
  else if (stretch) {
    const force = stretch.force! + stretch.strain! * membraneStiffness(joint, stretched.direction);
    requests.set('stretch', { hold: stretched, load: blank(), force });
  }
  if (bend) requests.set('bend', { hold: free, load: blank(), moment: bend.moment! });
  if (shear) {
    const force = shear.force!;
    const load = onSides(['left-end', 'right-end'], (_x, y, nx) => [0, nx * force * shearStress(y)]);
    requests.set('shear', { hold: free, load });
  }
  if (flatwise) {
    const s = flatwise.stress!;
    const load = onSides(['bottom', 'top'], (_x, _y, nx, ny) => [s * nx, s * ny]);
    requests.set('flatwise', { hold: within, load });
  }
  if (cure) {
    const deltaT = cure.deltaT!;
    requests.set('cure', { hold: free, load: thermalLoad.map((f) => f * deltaT), deltaT });
  }
  if (pressure) {
    const p = pressure.pressure!;
    const load = onSides(['channel'], (_x, _y, nx, ny) => [-p * nx, -p * ny]);
    requests.set('pressure', { hold: within, load, pressure: p });
  }
  const section = { mesh, factor, ends, middle: middleHeight(joint), half: joint.width / 2 };
  const solutions = new Map<LoadName, Solution>();
  for (const [name, request] of requests) {
    const { deltaT = 0, pressure: p = 0 } = request;
    solutions.set(name, { u: solveOn(section, request), deltaT, pressure: p });
  }
  return solutions;
}

/** Unknowns of the faces: half of what they move apart, half of the angle that opens between their tops, then all else. */
const distance = 0;
const direction = 1;

/** What all requests share: the mesh and its factor, nodes of the faces, the height of their middles, half their distance. */
interface Faces {
  readonly mesh: CubicMesh;
  readonly factor: Factor;
  readonly ends: { readonly left: readonly number[]; readonly right: readonly number[] };
  readonly middle: number;
  readonly half: number;
}

function solveOn(
  { mesh, factor, ends, middle, half }: Faces,
  { hold, load, force = 0, moment = 0, strain = 0 }: Request,
): Float64Array {
  const order = factor.retained.length;
  // The kept dofs from those unknowns; the first face's lowest node holds the section up.
  const lowest = ends.left.reduce((low, node) => (mesh.y[node]! < mesh.y[low]! ? node : low));
  const columns = order - ends.left.length - ends.right.length + 1;
  const map = Matrix.zeros(order, columns);
  let row = 0;
  let next = 2;
  for (const [side, nodes] of [
    [-1, ends.left],
    [1, ends.right],
  ] as const)
    for (const node of nodes) {
      map.set(row, distance, side);
      map.set(row++, direction, side * (mesh.y[node]! - middle));
      if (node !== lowest) map.set(row, next++, 1);
      row++;
    }
  map.set(row, next, 1);
  const schur = Matrix.from1DArray(order, order, factor.schur as unknown as number[]);
  const K = map.transpose().mmul(schur).mmul(map);
  const f = map.transpose().mmul(Matrix.columnVector(factor.reduceLoads(load, 1)));
  f.set(distance, 0, f.get(distance, 0) + 2 * force);
  f.set(direction, 0, f.get(direction, 0) + 2 * moment);
  const fix = (unknown: number, value: number) => {
    for (let i = 0; i < columns; i++) {
      f.set(i, 0, f.get(i, 0) - K.get(i, unknown) * value);
      K.set(i, unknown, 0);
      K.set(unknown, i, 0);
    }
    K.set(unknown, unknown, 1);
    f.set(unknown, 0, value);
  };
  if (hold.distance) fix(distance, strain * half);
  if (hold.direction) fix(direction, 0);
  const last = columns - 1;
  if (next !== last) throw new Error('the faces have other unknowns than counted');
  const values = map.mmul(solveDense(K, f)).getColumn(0);
  const u = factor.solve(load, 1);
  factor.expand(Float64Array.from(values), 1).forEach((value, i) => {
    u[i]! += value;
  });
  return u;
}
