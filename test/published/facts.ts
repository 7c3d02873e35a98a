import {
  type LaminateJoint,
  meshJoint,
  plateTriangles,
  solveTee,
  teeTriangles,
} from '../../packages/core/src/host/index.js';
import { factorize } from '../../packages/core/src/linear/index.js';
import { layupThickness, sectionStiffness } from '../../packages/core/src/material/index.js';
import {
  addTraction,
  assembleCubic,
  createLocator,
  edgeCurve,
  stressOf,
} from '../../packages/core/src/mesh/triangle/index.js';
import { drapedLaminate, laminatePly } from '../fixtures/laminates.js';
import { ellipseNodes, referenceJoint, referencePly } from '../fixtures/tee-reference.js';
import { meshedSection } from '../fixtures/tee-section.js';
import { once, type Publication } from './check.js';

const largest = (values: Iterable<number>) => {
  let most = 0;
  for (const value of values) most = Math.max(most, Math.abs(value));
  return most;
};

/** Largest deviation from the constant stress that belongs to a uniform strain forced on the boundary of a plate with a hole. */
function patch(): number {
  const material = sectionStiffness({ angle: 0, ply: referencePly });
  const rectangle = { xMin: -2, xMax: 3, yMin: -1, yMax: 1.5, material };
  const mesh = plateTriangles(rectangle, [edgeCurve(ellipseNodes(0.6, 0.3, [0.1, 0.2], 0.4))], 1.5);
  const { elements, strainDof } = assembleCubic(mesh);
  const strain = { xx: 1e-3, yy: -4e-4, xy: 7e-4, zz: 2e-4 };
  const boundary = [...new Set([...mesh.sides.values()].flatMap((sides) => [...sides]))];
  const retained = [...boundary.flatMap((node) => [2 * node, 2 * node + 1]), strainDof];
  const values = Float64Array.from([
    ...boundary.flatMap((node) => {
      const [x, y] = [mesh.x[node]!, mesh.y[node]!];
      return [strain.xx * x + 0.3 * strain.xy * y, strain.yy * y + 0.7 * strain.xy * x];
    }),
    strain.zz,
  ]);
  const stress = stressOf(mesh, factorize(elements, { retained }).expand(values, 1), 0);
  const C = material.stiffness;
  const of = (row: number) =>
    C[4 * row]! * strain.xx + C[4 * row + 1]! * strain.yy + C[4 * row + 2]! * strain.xy + C[4 * row + 3]! * strain.zz;
  let worst = 0;
  for (let triangle = 0; triangle < mesh.zoneOf.length; triangle++) {
    const { xx, yy, xy, zz } = stress(triangle, 0.2, 0.7);
    worst = Math.max(worst, largest([xx - of(0), yy - of(1), xy - of(2), zz - of(3)]));
  }
  return worst / of(0);
}

const tilted = ellipseNodes(0.7, 0.3, [0.2, 1], 0.3);
const tee = once(() => teeTriangles(referenceJoint, [edgeCurve(tilted)], 2));

/** Nodal forces of a whole tee that is moved and turned without strain, against those of one element strained as much. */
function rigid(): number {
  const mesh = tee();
  const { elements } = assembleCubic(mesh);
  const [turn, right, up] = [0.02, 0.3, -0.7];
  let worst = 0;
  let scale = 0;
  for (let e = 0; e < mesh.zoneOf.length; e++)
    for (let i = 0; i < 20; i++) {
      let force = 0;
      for (let j = 0; j < 20; j++) {
        const stiffness = elements.matrices[441 * e + 21 * Math.max(i, j) + Math.min(i, j)]!;
        const node = mesh.triangles[10 * e + (j >> 1)]!;
        force += stiffness * (j % 2 === 0 ? right - turn * mesh.y[node]! : up + turn * mesh.x[node]!);
        scale = Math.max(scale, Math.abs(stiffness) * turn);
      }
      worst = Math.max(worst, Math.abs(force));
    }
  return worst / scale;
}

/** Work of the pull on the displacements that pressure causes, over that of the pressure on the pull's, less 1. */
function betti(): number {
  const mesh = tee();
  const width = 2 * layupThickness(referenceJoint.overlaminate);
  const solutions = solveTee(mesh, referenceJoint, { pull: { force: width }, pressure: { pressure: 1 } });
  const work = (side: string, traction: Parameters<typeof addTraction>[2], u: Float64Array) => {
    const load = new Float64Array(u.length);
    addTraction(mesh, mesh.sides.get(side)!, traction, load);
    return load.reduce((sum, force, dof) => sum + force * u[dof]!, 0);
  };
  const pullOnPressure = work('web-top', () => [0, 1], solutions.get('pressure')!.u);
  const pressureOnPull = work('channel', (_x, _y, nx, ny) => [-nx, -ny], solutions.get('pull')!.u);
  // The axial strains do no work: neither state has an axial force.
  return pullOnPressure / pressureOnPull - 1;
}

/** Gauss points and weights over the layers of a laminate from depth 0: `(depth, layer, weight)`. */
function through(layup: typeof referenceJoint.skin) {
  const nodes = [
    [-0.8611363115940526, 0.3478548451374538],
    [-0.3399810435848563, 0.6521451548625461],
    [0.3399810435848563, 0.6521451548625461],
    [0.8611363115940526, 0.3478548451374538],
  ] as const;
  let top = 0;
  return layup.flatMap(({ thickness }, layer) => {
    const start = top;
    top += thickness;
    return [0, 1, 2, 3].flatMap((part) =>
      nodes.map(([at, weight]) => ({
        depth: start + (thickness * (part + (at + 1) / 2)) / 4,
        layer,
        weight: (weight * thickness) / 8,
      })),
    );
  });
}

/** Forces across cuts through the web (half height) and both skin ends, under pull of 100 N/mm and side load of 10 N/mm. */
const cuts = once(() => {
  const section = meshedSection(
    referenceJoint,
    { pull: { force: 100 }, side: { force: 10 }, cure: { deltaT: -155 } },
    [],
    tilted,
  );
  const { bendRadius: R, webHeight, overlaminate, skin } = referenceJoint;
  const web = [1, -1].flatMap((side) =>
    through(overlaminate).map(({ depth, layer, weight }) => ({
      point: { place: 'web', layer, x: side * depth, y: R + webHeight / 2, normalAngle: Math.PI / 2 } as const,
      weight,
    })),
  );
  const skinCut = (x: number) =>
    through(skin).map(({ depth, layer, weight }) => ({
      point: { place: 'skin', layer, x, y: -depth, normalAngle: 0 } as const,
      weight,
    }));
  type Cut = ReturnType<typeof skinCut> | typeof web;
  const resultant = (cut: Cut, load: 'pull' | 'side' | 'cure') => {
    const stress = section.at(cut.map(({ point }) => point))[load]!;
    const sum = (component: number) =>
      cut.reduce((total, { weight }, p) => total + weight * stress[3 * p + component]!, 0);
    return { normal: sum(0), shear: sum(2) };
  };
  // The tangent is the normal turned by -90 degrees: with the normal along x it is -y, with it along y it is x.
  return {
    webPull: resultant(web, 'pull').normal,
    webSide: resultant(web, 'side').shear,
    skinPull: resultant(skinCut(-30), 'pull').shear - resultant(skinCut(30), 'pull').shear,
    skinSide: resultant(skinCut(30), 'side').normal - resultant(skinCut(-30), 'side').normal,
    webCure: resultant(web, 'cure').normal,
  };
});

/** Bending moment across the skin at x = 30: pull of 100 N/mm between simple supports at 40, and end moments of 50. */
const bending = once(() => {
  const joint = { ...referenceJoint, support: 'simple' } as const;
  const section = meshedSection(joint, { pull: { force: 100 }, moment: { moment: 50 } }, [], tilted);
  const depth = layupThickness(joint.skin);
  const cut = through(joint.skin);
  const points = cut.map(({ depth: d, layer }) => ({ place: 'skin', layer, x: 30, y: -d, normalAngle: 0 }) as const);
  const stress = section.at(points);
  const momentOf = (load: 'pull' | 'moment') =>
    cut.reduce((sum, { weight, depth: d }, p) => sum + weight * stress[load]![3 * p]! * (depth / 2 - d), 0);
  return { pull: momentOf('pull'), moment: momentOf('moment') };
});

/** Forces across a draped laminate: what shears it through its pocket and beyond, and its stretch far from the pocket against that of its plies. */
const laminateCuts = once(() => {
  const joint: LaminateJoint = { ...drapedLaminate(1), ends: 'clamped' };
  const loads = { shear: { force: 20 }, stretch: { strain: 0.001, force: 0 } };
  const nodes = ellipseNodes(0.25, 0.15, [0, 0.75], 0, 256);
  const { mesh, solutions } = meshJoint(joint, loads, [edgeCurve(nodes)], 1);
  const locate = createLocator(mesh);
  /** Beyond the pocket, where plies are level. */
  const across = (x: number, load: string, component: 'xx' | 'xy') => {
    const { u, deltaT } = solutions.get(load)!;
    const stress = stressOf(mesh, u, deltaT);
    return through(joint.layup).reduce((sum, { depth, weight }) => {
      const { triangle, L2, L3 } = locate(x, depth, () => true)!;
      return sum + weight * stress(triangle, L2, L3)[component];
    }, 0);
  };
  // Half of the plies along, half across (Jones, Mechanics of Composite Materials): plane stress, one strain along, one across without resultant.
  const { E1, E2, nu12 } = laminatePly;
  const share = 1 - (nu12 * nu12 * E2) / E1;
  const [along, both] = [(E1 + E2) / 2 / share, (nu12 * E2) / share];
  return {
    shear: [2.5, 4.5].map((x) => Math.abs(across(x, 'shear', 'xy'))),
    stretch: across(5, 'stretch', 'xx'),
    plies: 0.001 * layupThickness(joint.layup) * (along - both ** 2 / along),
  };
});

export const facts: Publication = {
  title: 'Facts of mechanics, on the meshes themselves',
  source: 'patch test: Irons & Razzaque (1972); reciprocity: Betti (1872); equilibrium',
  checks: [
    {
      quantity: 'patch test: deviation from a uniform stress, curved triangles',
      published: 0,
      compute: patch,
      tolerance: 1e-9,
      scale: 1,
    },
    {
      quantity: 'rigid motion: nodal forces of the whole tee',
      published: 0,
      compute: rigid,
      tolerance: 1e-9,
      scale: 1,
    },
    {
      quantity: 'Betti: work of pull on pressure and of pressure on pull, ratio less 1',
      published: 0,
      compute: betti,
      tolerance: 1e-8,
      scale: 1,
    },
    {
      quantity: 'tee, pull 100: force across the web',
      published: 100,
      compute: () => cuts().webPull,
      tolerance: 0.001,
    },
    {
      quantity: 'tee, pull 100: force across both skin cuts',
      published: 100,
      compute: () => Math.abs(cuts().skinPull),
      tolerance: 0.001,
    },
    {
      quantity: 'tee, side 10: force across the web',
      published: 10,
      compute: () => Math.abs(cuts().webSide),
      tolerance: 0.001,
    },
    {
      quantity: 'tee, side 10: force across both skin cuts',
      published: 10,
      compute: () => Math.abs(cuts().skinSide),
      tolerance: 0.001,
    },
    {
      quantity: 'tee, simple support, pull 100: moment across the skin 10 from its end',
      published: 500,
      compute: () => Math.abs(bending().pull),
      tolerance: 0.001,
    },
    {
      quantity: 'tee, simple support, end moments 50: moment across the skin, tension at its top',
      published: 50,
      compute: () => bending().moment,
      tolerance: 0.001,
    },
    ...[2.5, 4.5].map((x, k) => ({
      quantity: `laminate with pocket and channel, shear 20: force across it ${x} from the channel`,
      published: 20,
      compute: () => laminateCuts().shear[k]!,
      tolerance: 0.001,
    })),
    {
      quantity: 'the same, strain 0.001: force over that of its plies, by lamination theory, at its end',
      published: 1,
      compute: () => laminateCuts().stretch / laminateCuts().plies,
      tolerance: 0.001,
    },
    {
      quantity: 'tee, cure: force across the web',
      published: 0,
      compute: () => cuts().webCure,
      tolerance: 0.001,
      scale: 100,
    },
  ],
};
