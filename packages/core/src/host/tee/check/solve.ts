import { type Factor, factorDefinite, factorize, matrixOf } from '../../../linear/index.js';
import { layupThickness } from '../../../material/index.js';
import {
  addTraction,
  assembleCubic,
  type CubicMesh,
  type EdgeCurve,
  type Solution,
} from '../../../mesh/triangle/index.js';
import { cube } from '../../../power.js';
import type { MeshedLoads } from '../../contract.js';
import type { LoadName, Loads } from '../../load.js';
import type { TeeJoint } from '../tee.js';
import { teeTriangles } from './triangles.js';

/** The whole section in triangles, and every load on it. */
export function meshTeeLoads(
  joint: TeeJoint,
  loads: Loads,
  curves: readonly EdgeCurve[],
  coarseness: number,
): MeshedLoads {
  const mesh = teeTriangles(joint, curves, coarseness);
  return { mesh, solutions: solveTee(mesh, joint, loads) };
}

type Support = 'clamped' | 'simple' | 'free';

/**
 * Each load of a tee at its given size, under generalised plane strain with no resultant axial force. Mechanical loads act
 * on the joint's support; the part shrinks freely under cure; a pair of end moments bends a clamped joint as if it were free.
 * One factorisation serves all supports: the skin's ends are kept to the last and held there.
 */
export function solveTee(mesh: CubicMesh, joint: TeeJoint, loads: Loads): Map<LoadName, Solution> {
  const { elements, strainDof, thermalLoad } = assembleCubic(mesh);
  const ends = [...new Set([...mesh.sides.get('left-end')!, ...mesh.sides.get('right-end')!])];
  const retained = [...ends.flatMap((node) => [2 * node, 2 * node + 1]), strainDof];
  const factor = factorize(elements, { retained });
  const web = 2 * layupThickness(joint.overlaminate);
  const depth = layupThickness(joint.skin);
  const blank = () => new Float64Array(strainDof + 1);
  const onSides = (names: readonly string[], traction: Parameters<typeof addTraction>[2]) => {
    const load = blank();
    for (const name of names) addTraction(mesh, mesh.sides.get(name) ?? new Int32Array(0), traction, load);
    return load;
  };

  interface Request {
    readonly name: LoadName;
    readonly support: Support;
    readonly load: Float64Array;
    readonly deltaT?: number;
    readonly pressure?: number;
  }
  const requests: Request[] = [];
  const { pull, side, moment, cure, pressure } = loads;
  const { support } = joint;
  if (pull) requests.push({ name: 'pull', support, load: onSides(['web-top'], () => [0, pull.force / web]) });
  if (side) requests.push({ name: 'side', support, load: onSides(['web-top'], () => [side.force / web, 0]) });
  if (moment)
    requests.push({
      name: 'moment',
      support: support === 'clamped' ? 'free' : support,
      load: onSides(['left-end', 'right-end'], (_, y, nx) => [
        (12 * moment.moment * (y + depth / 2) * nx) / cube(depth),
        0,
      ]),
    });
  if (cure) {
    const { deltaT } = cure;
    requests.push({ name: 'cure', support: 'free', load: thermalLoad.map((f) => f * deltaT), deltaT });
  }
  if (pressure) {
    const p = pressure.pressure;
    requests.push({
      name: 'pressure',
      support,
      load: onSides(['channel'], (_x, _y, nx, ny) => [-p * nx, -p * ny]),
      pressure: p,
    });
  }
  const solutions = new Map<LoadName, Solution>();
  for (const { name, support: held, load, deltaT = 0, pressure: p = 0 } of requests)
    solutions.set(name, { u: solveOn(mesh, factor, ends, held, load), deltaT, pressure: p });
  return solutions;
}

/** One load on one support; `ends` are the nodes kept in the factor, the axial strain its last dof. */
function solveOn(
  mesh: CubicMesh,
  factor: Factor,
  ends: readonly number[],
  support: Support,
  load: Float64Array,
): Float64Array {
  const order = factor.retained.length;
  const { own, sign, count } = heldEnds(mesh, ends, support);
  const K = new Float64Array(count * count);
  const f = new Float64Array(count);
  const reduced = factor.reduceLoads(load, 1);
  for (let i = 0; i < order; i++) {
    const row = own[i]!;
    if (row < 0) continue;
    f[row]! += sign[i]! * reduced[i]!;
    for (let j = 0; j < order; j++) {
      const column = own[j]!;
      if (column >= 0) K[row * count + column]! += sign[i]! * sign[j]! * factor.schur[i * order + j]!;
    }
  }
  const { values: q } = factorDefinite(matrixOf(K, count)).solve(matrixOf(f, 1));
  const values = Float64Array.from({ length: order }, (_, i) => (own[i]! < 0 ? 0 : sign[i]! * q[own[i]!]!));
  const u = factor.solve(load, 1);
  factor.expand(values, 1).forEach((value, i) => {
    u[i]! += value;
  });
  return u;
}

/**
 * Which of the kept dofs move: the number of the free unknown that each follows (-1: held) and with which sign. 'simple' and
 * 'free' leave no rigid motion by holding the lowest end nodes' vertical displacement and making their horizontal ones
 * opposite, which carries a side load in equal shares and no force otherwise.
 */
function heldEnds(mesh: CubicMesh, ends: readonly number[], support: Support) {
  const lowest = Math.min(...ends.map((node) => mesh.y[node]!));
  const own: number[] = [];
  const sign: number[] = [];
  let count = 0;
  let opposite = -1;
  for (const node of ends) {
    const low = mesh.y[node]! === lowest;
    if (support === 'clamped') own.push(-1);
    else if (low && opposite >= 0) own.push(opposite);
    else {
      if (low) opposite = count;
      own.push(count++);
    }
    sign.push(low && mesh.x[node]! > 0 ? -1 : 1);
    own.push(support === 'free' && !low ? count++ : -1);
    sign.push(1);
  }
  own.push(count++);
  sign.push(1);
  return { own, sign, count };
}
