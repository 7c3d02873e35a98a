import { type Factor, factorDefinite, factorize, matrixOf, times, transposed } from '../../../linear/index.js';
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
  const map = matrixOf(new Float64Array(order * columns), columns);
  const put = (at: number, column: number, value: number) => {
    map.values[at * columns + column] = value;
  };
  let row = 0;
  let next = 2;
  for (const [side, nodes] of [
    [-1, ends.left],
    [1, ends.right],
  ] as const)
    for (const node of nodes) {
      put(row, distance, side);
      put(row++, direction, side * (mesh.y[node]! - middle));
      if (node !== lowest) put(row, next++, 1);
      row++;
    }
  put(row, next, 1);
  const toUnknowns = transposed(map);
  const { values: K } = times(times(toUnknowns, matrixOf(factor.schur, order)), map);
  const { values: f } = times(toUnknowns, matrixOf(factor.reduceLoads(load, 1), 1));
  f[distance]! += 2 * force;
  f[direction]! += 2 * moment;
  const fix = (unknown: number, value: number) => {
    for (let i = 0; i < columns; i++) {
      f[i]! -= K[i * columns + unknown]! * value;
      K[i * columns + unknown] = 0;
      K[unknown * columns + i] = 0;
    }
    K[unknown * columns + unknown] = 1;
    f[unknown] = value;
  };
  if (hold.distance) fix(distance, strain * half);
  if (hold.direction) fix(direction, 0);
  const last = columns - 1;
  if (next !== last) throw new Error('the faces have other unknowns than counted');
  const { values } = times(map, factorDefinite(matrixOf(K, columns)).solve(matrixOf(f, 1)));
  const u = factor.solve(load, 1);
  factor.expand(values, 1).forEach((value, i) => {
    u[i]! += value;
  });
  return u;
}
