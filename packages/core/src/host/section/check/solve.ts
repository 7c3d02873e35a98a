import { factorDefinite, factorize, matrixOf } from '../../../linear/index.js';
import {
  addTraction,
  assembleCubic,
  type CubicMesh,
  type Solution,
  turnedPlace,
} from '../../../mesh/triangle/index.js';
import type { HostCheck } from '../../contract.js';
import type { LoadName, Loads } from '../../load.js';
import { bentSide } from '../bent-side.js';
import { readSection } from '../body.js';
import type { SectionJoint } from '../joint.js';
import { frameOf, type Held, type Hold, heldBy, looseMotions, pinsFor } from '../supports.js';
import { tractionOf } from '../traction.js';
import { sectionTriangles, sideName } from './triangles.js';

/** The whole section in triangles, and every load on it. */
export const sectionCheck: HostCheck<SectionJoint> = {
  mesh: (joint, loads, [curve], coarseness) => {
    const mesh = sectionTriangles(readSection(joint), curve, coarseness);
    const turned = turnedPlace(mesh);
    if (turned !== undefined) throw bentSide(...turned);
    return { mesh, solutions: solveSection(mesh, joint, loads) };
  },
};

interface Request {
  readonly hold: Hold;
  readonly load: Float64Array;
  readonly deltaT?: number;
  readonly pressure?: number;
}

/**
 * Each load of a section at its given size, under generalised plane strain with no resultant axial force. One factorisation serves both ways
 * of holding it: the nodes of supports are kept to the last.
 */
function solveSection(mesh: CubicMesh, joint: SectionJoint, loads: Loads): Map<LoadName, Solution> {
  const { elements, strainDof, thermalLoad } = assembleCubic(mesh);
  const frame = frameOf(mesh);
  const nodesOf = (curve: string) => new Set(mesh.sides.get(sideName(curve))!);
  const corners = outermost(mesh);
  const candidates = corners.flatMap((node) =>
    [0, 1].map((component): Held => ({ node, component: component as 0 | 1 })),
  );
  const dofsHeld = (hold: Hold) => {
    const own = heldBy(joint, hold, nodesOf);
    return [...own, ...pinsFor(mesh, looseMotions(mesh, own, frame), candidates, frame)].map(
      ({ node, component }) => 2 * node + component,
    );
  };
  const held = { loads: dofsHeld('loads'), free: dofsHeld('free') };
  const retained = [...new Set([...held.loads, ...held.free]), strainDof];
  const factor = factorize(elements, { retained });
  const order = retained.length;

  const requests = new Map<LoadName, Request>();
  for (const [name, sizes] of Object.entries(loads)) {
    if (name === 'cure') {
      const deltaT = sizes.deltaT!;
      requests.set(name, { hold: 'free', load: thermalLoad.map((f) => f * deltaT), deltaT });
    } else if (name === 'pressure') {
      const pressure = sizes.pressure!;
      const load = new Float64Array(strainDof + 1);
      const sides = mesh.sides.get('channel');
      if (sides !== undefined) addTraction(mesh, sides, (_x, _y, nx, ny) => [-pressure * nx, -pressure * ny], load);
      requests.set(name, { hold: 'loads', load, pressure });
    } else if (joint.loads[name] !== undefined)
      requests.set(name, { hold: 'loads', load: forcesOf(mesh, joint, name, sizes.force!, strainDof + 1) });
  }
  const solutions = new Map<LoadName, Solution>();
  for (const [name, { hold, load, deltaT = 0, pressure = 0 }] of requests) {
    const fixed = new Set(held[hold]);
    const open = Array.from(retained.keys()).filter((i) => !fixed.has(retained[i]!));
    const reduced = factor.reduceLoads(load, 1);
    const K = Float64Array.from(open.flatMap((i) => open.map((j) => factor.schur[i * order + j]!)));
    const f = Float64Array.from(open, (i) => reduced[i]!);
    const values = new Float64Array(order);
    factorDefinite(matrixOf(K, open.length))
      .solve(matrixOf(f, 1))
      .values.forEach((value, k) => {
        values[open[k]!] = value;
      });
    const u = factor.solve(load, 1);
    factor.expand(values, 1).forEach((value, i) => {
      u[i]! += value;
    });
    solutions.set(name, { u, deltaT, pressure });
  }
  return solutions;
}

function forcesOf(mesh: CubicMesh, joint: SectionJoint, name: string, size: number, dofs: number): Float64Array {
  const load = new Float64Array(dofs);
  for (const one of joint.loads[name]!) {
    const sides = mesh.sides.get(sideName(one.curve))!;
    const traction = tractionOf(one, (field) => {
      const sums = new Float64Array(dofs);
      addTraction(mesh, sides, field, sums);
      const along = (component: number) => sums.reduce((sum, f, i) => (i % 2 === component ? sum + f : sum), 0);
      return [along(0), along(1)];
    });
    const sized = (x: number, y: number) => {
      const [tx, ty] = traction(x, y);
      return [size * tx, size * ty] as const;
    };
    addTraction(mesh, sides, sized, load);
  }
  return load;
}

/** Lowest and highest node along the diagonal of the section's box, where pins carry no force. */
function outermost({ x, y }: CubicMesh): [number, number] {
  let [low, high] = [0, 0];
  for (let i = 0; i < x.length; i++) {
    if (x[i]! + y[i]! < x[low]! + y[low]!) low = i;
    if (x[i]! + y[i]! > x[high]! + y[high]!) high = i;
  }
  return [low, high];
}
