import { type AxialAnswer, weightsFromFrame } from '../../edge/index.js';
import {
  type DefiniteFactor,
  type DenseMatrix,
  factorDefinite,
  matrixOf,
  plus,
  scaled,
  times,
  timesTransposed,
  transposed,
} from '../../linear/index.js';
import type { Condensed, CondensedState } from './condensed.js';
import type { Inside, Trial } from './inside.js';
import { momentUnit } from './virtual-channel.js';

/** Inside and outside joined along the contour, in one class: Galerkin's equations with the trial fields as tests. */
export interface System<Outside extends Condensed = Condensed> {
  readonly inside: Inside;
  readonly trial: Trial;
  readonly outside: Outside;
  /** Nodal forces of the outside that the orthonormal fields meet, `fields x 2 nodes`. */
  readonly stiffness: DenseMatrix;
  /** `A = V^T (S V + T)`, in the orthonormal basis. */
  readonly joined: DefiniteFactor;
}

export function joinedSystem<Outside extends Condensed>(
  inside: Inside,
  trial: Trial,
  outside: Outside,
): System<Outside> {
  const { orthonormal } = trial;
  const stiffness = times(orthonormal, contourPart(outside, orthonormal.columns));
  const A = plus(timesTransposed(stiffness, orthonormal), trial.stiffness);
  const symmetricPart = scaled(plus(A, transposed(A)), 0.5);
  return { inside, trial, outside, stiffness, joined: factorDefinite(symmetricPart) };
}

/** Of the outside's matrix, what the contour's displacements alone do. */
function contourPart({ matrix, scalars }: Condensed, size: number): DenseMatrix {
  const out = new Float64Array(size * size);
  const width = size + scalars.length;
  for (let i = 0; i < size; i++) out.set(matrix.subarray(i * width, i * width + size), i * size);
  return matrixOf(out, size);
}

/** The host's answer R: coefficients of the plain fields from their moments, symmetrised in the frame. */
export function hostAnswer({ inside, trial, stiffness, joined }: System): Float64Array {
  const { orthonormal, channel, frame, order, rigid, moments: size } = trial;
  const load = plus(timesTransposed(stiffness, channel.displacement), timesTransposed(orthonormal, channel.force));
  // Translations and the turn have no moment: their rows are dropped.
  const { values, columns: count } = joined.solve(load);
  const unit = -momentUnit(inside) / 2;
  let answer: Float64Array = new Float64Array(count * count);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++)
      answer[i * count + j] = unit * (values[(rigid + i) * count + j]! + values[(rigid + j) * count + i]!);
  for (let side = 0; side < 2; side++) {
    for (let i = 0; i < count; i++) weightsFromFrame(frame, count, answer.subarray(i * count, (i + 1) * count));
    answer = transposed(matrixOf(answer, count)).values;
  }
  const out = new Float64Array(size * size);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++)
      out[order[i]! * size + order[j]!] = (answer[i * count + j]! + answer[j * count + i]!) / 2;
  return out;
}

/** A load without channel: the field inside the contour, and the state of the outside. */
export interface Undisturbed {
  readonly coefficients: Float64Array;
  readonly state: CondensedState;
  /** As `ReducedLoad.axialStress`. */
  readonly axialStress: number;
}

/** A unit of strain along the channel, without it: the force that it takes (of half a section, if the contour is half), field and state. */
export interface UnitStrain extends Pick<Undisturbed, 'coefficients' | 'state'> {
  readonly stiffness: number;
}

/** `undefined` where the outside knows no axial strain. */
export function unitStrain(system: System): UnitStrain | undefined {
  if (!system.outside.scalars.includes('strainZ')) return undefined;
  const answer = answerToScalar(system, 'strainZ');
  const { coefficients, displacement } = answer;
  return {
    coefficients,
    state: { displacement, scalars: { strainZ: 1 } },
    stiffness: axialForce(system, 'strainZ', answer),
  };
}

/** How a section strains otherwise along a channel with it than without: the whole of it. */
export function axialAnswer({ inside }: System, { coefficients, stiffness }: UnitStrain): AxialAnswer {
  const { contour, axialModulus: modulus, shearModulus, kappa } = inside;
  return {
    field: coefficients,
    stiffness: (contour.closed ? 1 : 2) * stiffness,
    modulus,
    compliance: (kappa + 1) / (2 * shearModulus),
  };
}

/** The undisturbed field of one unit of a scalar, with the strain along the channel (if there is one) that leaves no axial force. */
export function undisturbedField(system: System, scalar: string, unit: UnitStrain | undefined): Undisturbed {
  const byLoad = answerToScalar(system, scalar);
  const { coefficients, displacement } = byLoad;
  const strainZ = unit === undefined ? 0 : -axialForce(system, scalar, byLoad) / unit.stiffness;
  const state = { displacement, scalars: { strainZ, [scalar]: 1 } };
  const { axialModulus, axialExpansion } = system.inside;
  const axialStress = axialModulus * (strainZ - (scalar === 'deltaT' ? axialExpansion : 0));
  if (unit === undefined) return { coefficients, state, axialStress };
  const both = (a: ArrayLike<number>, b: ArrayLike<number>) =>
    Float64Array.from(a, (value, i) => value + strainZ * b[i]!);
  return {
    coefficients: both(coefficients, unit.coefficients),
    state: { ...state, displacement: both(displacement, unit.state.displacement) },
    axialStress,
  };
}

interface ScalarAnswer {
  /** Of the plain fields, without the translations. */
  readonly coefficients: Float64Array;
  readonly displacement: Float64Array;
}

/** One unit of a scalar with the free strain that it causes inside the contour. */
function answerToScalar(system: System, scalar: string): ScalarAnswer {
  const { inside, trial, stiffness, joined } = system;
  const { x, y } = inside.contour;
  const freeStrain = scalar === 'deltaT' ? inside.expansion : scalar === 'strainZ' ? -inside.contraction : 0;
  const free = new Float64Array(2 * x.length);
  for (let j = 0; j < x.length; j++) {
    free[2 * j] = freeStrain * x[j]!;
    free[2 * j + 1] = freeStrain * y[j]!;
  }
  const { coupling } = scalarRow(system, scalar);
  const row = (values: Float64Array) => matrixOf(values, values.length);
  const load = plus(timesTransposed(trial.orthonormal, row(coupling)), timesTransposed(stiffness, row(free)));
  const answer = joined.solve(scaled(load, -1));
  const displacement = times(transposed(answer), trial.orthonormal).values;
  const framed = answer.values.slice(trial.rigid);
  weightsFromFrame(trial.frame, framed.length, framed);
  // A turn has no stress but is hundreds of times as large as what has: on an edge its discretisation error would be all there is. It stays 0.
  const coefficients = new Float64Array(trial.moments);
  trial.order.forEach((place, k) => {
    coefficients[place] = framed[k]!;
  });
  return {
    coefficients,
    displacement: free.map((value, i) => displacement[i]! + value),
  };
}

/** Axial force of inside and outside (of the right half, if the contour is half). */
function axialForce(system: System, scalar: string, { coefficients, displacement }: ScalarAnswer): number {
  const { inside, trial } = system;
  const axial = scalarRow(system, 'strainZ');
  let force = axial.with(scalar);
  axial.coupling.forEach((value, i) => {
    force += value * displacement[i]!;
  });
  // Inside: s_z = nu12 (s_x + s_y) + E1 (strainZ - alpha1 deltaT), and int (s_x + s_y) is the work of the nodal forces on u = z.
  trial.order.forEach((place, k) => {
    force += inside.contraction * coefficients[place]! * trial.stretched[k]!;
  });
  const axialStrain = scalar === 'strainZ' ? 1 : scalar === 'deltaT' ? -inside.axialExpansion : 0;
  return force + inside.axialModulus * axialStrain * inside.area;
}

/** Row of a scalar over the contour's displacements. */
function scalarRow(
  { outside, stiffness }: System,
  scalar: string,
): { coupling: Float64Array; with: (other: string) => number } {
  const size = stiffness.columns;
  const width = size + outside.scalars.length;
  const at = size + outside.scalars.indexOf(scalar);
  return {
    coupling: outside.matrix.slice(at * width, at * width + size),
    with: (other) => outside.matrix[at * width + size + outside.scalars.indexOf(other)]!,
  };
}
