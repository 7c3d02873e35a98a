import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { ellipseNodes, referencePly } from '../../../../test/fixtures/tee-reference.js';
import { inPlaneConstants, type Ply, sectionStiffness } from '../material/index.js';
import { createEdgeSolver } from './edge-solver.js';
import { hoopRule } from './hoop.js';
import type { HostResponse } from './host-response.js';
import { sheet } from './test/far-field.js';

/**
 * A rod of fibres along z, bonded in a tube of resin, with a hole along its axis: axially symmetric, so that `u = A r + B / r` in each (Lamé), with one
 * strain along z that leaves no axial force.
 */
const resin = {
  ...referencePly,
  E1: 3500,
  E2: 3500,
  nu12: 0.35,
  nu23: 0.35,
  G12: 3500 / 2.7,
  alpha1: 6e-5,
  alpha2: 6e-5,
};
const [between, outer] = [2, 2.5];

interface Part {
  readonly G: number;
  readonly k: number;
  readonly radial: (r: number, shift: number) => number[];
  readonly z: number;
  readonly zz: number;
  readonly thermal: ArrayLike<number>;
}

const partOf = (ply: Ply): Part => {
  const { G, k } = inPlaneConstants(ply);
  const { stiffness, thermal } = sectionStiffness({ angle: 90, ply });
  const z = stiffness[3]!;
  /** Radial stress over A and B, from `shift` on, and the strain along z; heat comes off it. */
  const radial = (r: number, shift: number) => {
    const row = [0, 0, 0, 0, z];
    row[shift] = 2 * k;
    row[shift + 1] = (-2 * G) / (r * r);
    return row;
  };
  return { G, k, radial, z, zz: stiffness[15]!, thermal };
};
const [rod, tube] = [partOf(referencePly), partOf(resin)];

interface Acting {
  readonly hole?: number;
  readonly deltaT?: number;
  readonly pressure?: number;
  /** Where it is given, for the sum of the axial stresses. */
  readonly strain?: number;
  /** B of the rod, where it has no hole. */
  readonly source?: number;
}

/** A and B of both, the strain along z and the axial force that is left. */
function solved({ hole = 0, deltaT = 0, pressure = 0, strain, source = 0 }: Acting) {
  const heat = ({ thermal }: Part, component: number) => thermal[component]! * deltaT;
  const [inside, outside] = [rod.radial(between, 0), tube.radial(between, 2)];
  const [rodArea, tubeArea] = [Math.PI * (between ** 2 - hole ** 2), Math.PI * (outer ** 2 - between ** 2)];
  const axial = [2 * rod.z * rodArea, 0, 2 * tube.z * tubeArea, 0, rod.zz * rodArea + tube.zz * tubeArea];
  const axialHeat = heat(rod, 3) * rodArea + heat(tube, 3) * tubeArea;
  const values = solve(
    new Matrix([
      hole > 0 ? rod.radial(hole, 0) : [0, 1, 0, 0, 0],
      tube.radial(outer, 2),
      inside.map((value, i) => value - outside[i]!),
      [between, 1 / between, -between, -1 / between, 0],
      strain === undefined ? axial : [0, 0, 0, 0, 1],
    ]),
    Matrix.columnVector([
      hole > 0 ? heat(rod, 1) - pressure : source,
      heat(tube, 1),
      heat(rod, 1) - heat(tube, 1),
      0,
      strain ?? axialHeat,
    ]),
  ).to1DArray() as [number, number, number, number, number];
  const force = axial.reduce((sum, weight, i) => sum + weight * values[i]!, -axialHeat);
  const [A, B, , , strainZ] = values;
  /** Without hole, the rod's stress in the section's plane is the same everywhere. */
  const inPlane = 2 * rod.k * A + rod.z * strainZ - heat(rod, 1);
  const hoopAt = (r: number) => inPlane + (2 * rod.G * B) / (r * r);
  return { inPlane, strainZ, force, hoopAt };
}

describe('an edge in a host that is free to strain along it', () => {
  const { E1: modulus, alpha1, nu12 } = referencePly;
  const unit = solved({ strain: 1 });
  // A source of B = 1 does the work 2 pi B (kappa + 1) with phi = z: the moment 4 pi G B.
  const answer = solved({ strain: 0, source: 1 }).inPlane / 2 / (4 * Math.PI * rod.G);
  const response: HostResponse = {
    symmetric: Float64Array.of(answer, 0, 0, 0),
    antisymmetric: new Float64Array(4),
    axial: {
      field: Float64Array.of(unit.inPlane / 2, 0),
      stiffness: unit.force,
      modulus,
      compliance: (inPlaneConstants(referencePly).kappa + 1) / (2 * rod.G),
    },
  };

  it.each([
    ['a change of temperature', { deltaT: -100 }],
    ['a pressure in the hole', { pressure: 50 }],
  ])('has the stress and the strain of a rod in a tube under %s', (_, load) => {
    const still = solved(load);
    const { deltaT = 0, pressure = 0 } = { deltaT: 0, pressure: 0, ...load };
    const acting = {
      undisturbed: Float64Array.of((still.inPlane + pressure) / 2, 0, 0, 0),
      response,
      axialStress: modulus * (still.strainZ - alpha1 * deltaT) - 2 * nu12 * pressure,
    };
    for (const hole of [0.4, 1.2, 1.9]) {
      const { strainZ, hoopAt } = solved({ ...load, hole });
      const nodes = ellipseNodes(hole, hole, [0, 0], 0, 64);
      const { phi, strains } = createEdgeSolver(sheet, 64, 'half', 1, 1e-14).solve(nodes, [acting]);
      const [slope, hoop] = [new Float64Array(128), new Float64Array(64)];
      hoopRule(64).slope(phi[0]!, slope);
      hoopRule(64).take(nodes, slope, 1, -pressure);
      hoopRule(64).atNodes(hoop);
      for (const value of hoop) expect(value / hoopAt(hole)).toBeCloseTo(1, 10);
      expect(strains[0]! / (strainZ - still.strainZ)).toBeCloseTo(1, 10);
    }
  });
});
