import { CholeskyDecomposition, Matrix, QrDecomposition } from 'ml-matrix';
import {
  contourRecurrence,
  createBasisTable,
  fillBasisTable,
  type HostResponse,
  halfSize,
  linearCoefficient,
  type RegularBasis,
  writeEdgeFields,
} from '../../edge/index.js';
import { inPlaneConstants } from '../../material/index.js';
import { createCurveNodes } from '../../outline/index.js';
import type { CondensedHalf, CondensedHost } from '../condensed/condensed.js';
import {
  contourPoint,
  regularContourFields,
  type SourcePoints,
  sourceContourFields,
} from '../condensed/contour-fields.js';
import type { SectionPoint } from '../place.js';
import { type HalfState, stressesAt } from '../place-maps.js';
import type { ReducedLoad, ReducedModel } from '../reduced-model.js';
import { condenseTee } from './condense.js';
import { type ControlContour, controlContour } from './contour.js';
import { placeRows } from './place-rows.js';
import { roundedFiller } from './rounded-filler.js';
import type { TeeJoint } from './tee.js';

type Scalar = CondensedHalf['scalars'][number];

/** How finely a tee is condensed: quadratic edges of the whole control contour, degree of the regular fields inside it. */
export interface Fineness {
  readonly edges: number;
  readonly degree: number;
}

/** 0.3 to 0.5 % of the peak in the worst outlines of ordinary joints, 0.1 % in most. */
export const usualFineness: Fineness = { edges: 110, degree: 28 };

/** A tee outside its control contour, solved: all that a reduced model is made of. */
export interface SolvedTee {
  readonly joint: TeeJoint;
  readonly host: CondensedHost;
  readonly frame: Frame;
  readonly supports: readonly SupportSolution[];
  readonly units: readonly UnitLoad[];
}

/** A unit load: all of it but its stresses at places, and the state of the host that gives these. */
interface UnitLoad extends Omit<ReducedLoad, 'atPlaces'> {
  readonly still: { readonly half: CondensedHalf; readonly state: HalfState } | undefined;
}

/** Supports as a joint is held under mechanical loads, and free. */
const mechanical = 0;
const freely = 1;

/** A tee with its control contour, and what lies outside it condensed onto it. */
export interface TeeOnContour {
  readonly joint: TeeJoint;
  readonly contour: ControlContour;
  readonly host: CondensedHost;
}

/** `wall`, `edgeRadius` in mm; `edges`: of the whole contour. Throws InputError for a joint or walls that leave no room. */
export function condenseOnContour(joint: TeeJoint, wall: number, edgeRadius: number, edges: number): TeeOnContour {
  const contour = controlContour(joint.bendRadius, wall, edgeRadius, edges);
  return { joint, contour, host: condenseTee(joint, contour) };
}

/** With regular fields of `degree` inside the contour. */
export function solveTee({ joint, contour, host }: TeeOnContour, degree: number): SolvedTee {
  const frame = makeFrame(joint, contour, degree);
  const held = solveSupport(frame, host, joint.support);
  const free = solveSupport(frame, host, 'free');
  const symmetricLoad = (
    name: string,
    size: string,
    { symmetric }: SupportSolution,
    scalar: Scalar,
    response: number,
  ): UnitLoad => {
    const { coefficients, state } = undisturbedSymmetric(frame, symmetric, scalar);
    return {
      name,
      size,
      undisturbed: join(coefficients, undefined, degree),
      response,
      offset: 0,
      symmetric: true,
      still: { half: symmetric.half, state },
    };
  };
  const side = undisturbedAntisymmetric(held.antisymmetric, 'side');
  const pressure = new Float64Array(4 * degree);
  // A pressure p is p less everywhere and a field of p on a free edge: phi = p z / 2.
  pressure[0] = linearCoefficient(frame.basis) / 2;
  const units: UnitLoad[] = [
    symmetricLoad('pull', 'force', held, 'pull', mechanical),
    {
      name: 'side',
      size: 'force',
      undisturbed: join(undefined, side.coefficients, degree),
      response: mechanical,
      offset: 0,
      symmetric: false,
      still: { half: held.antisymmetric.half, state: side.state },
    },
    // End moments balance each other: the joint is free to bend.
    symmetricLoad('moment', 'moment', free, 'moment', freely),
    symmetricLoad('cure', 'deltaT', free, 'deltaT', freely),
    {
      name: 'pressure',
      size: 'pressure',
      undisturbed: pressure,
      response: mechanical,
      offset: -1,
      symmetric: true,
      still: undefined,
    },
  ];
  return { joint, host, frame, supports: [held, free], units };
}

/**
 * Condenses a tee once into its reduced model: everything outside the control contour of `wall` and `edgeRadius` (mm) becomes a
 * small matrix per support. Throws as `condenseOnContour`.
 */
export function reduceTee(
  joint: TeeJoint,
  wall: number,
  edgeRadius: number,
  { edges, degree }: Fineness = usualFineness,
): ReducedModel {
  return modelOf(solveTee(condenseOnContour(joint, wall, edgeRadius, edges), degree));
}

export function modelOf({ joint: { bendRadius }, host, frame, supports, units }: SolvedTee): ReducedModel {
  const rows = placeRows(host.sectionPoints, bendRadius);
  const chosen = rows.flat();
  const points = chosen.map((point) => host.sectionPoints[point]!);
  const { contour } = frame;
  const { inset, tipRadius } = contour;
  return {
    kind: 'tee',
    basis: frame.basis,
    shearModulus: frame.shearModulus,
    kappa: frame.kappa,
    responses: supports.map(({ response }) => response),
    loads: units.map(({ still, ...unit }) => ({
      ...unit,
      atPlaces: still ? stressesAt(still.half, chosen, [still.state]) : new Float64Array(3 * chosen.length),
    })),
    places: {
      points,
      rows: rows.map(({ length }) => length),
      change: supports.map(({ symmetric, antisymmetric }) => ({
        symmetric: changeMap(symmetric, chosen, frame.momentUnit),
        antisymmetric: changeMap(antisymmetric, chosen, frame.momentUnit),
      })),
      continued: { points: alongContour(contour, points), within: nearEdge * inset },
      inner: { xMin: -bendRadius, xMax: bendRadius, yMin: inset, yMax: bendRadius, step: bendRadius / across },
    },
    contour: { bendRadius, inset, tipRadius },
  };
}

/**
 * Up to where the field around a channel is continued: as long as the contour runs along the interface, no further off than its inset,
 * times `along`, and some tip radii from its tips, where the regular field grows without bound. `nearEdge` is in insets.
 */
const nearEdge = 4.5;
const along = 1.05;
const fromTips = 4;

/** Points across the height of the filler where it is looked at without channel. */
const across = 24;

/** Which points lie along the contour, as far from its tips as the channel's field can be continued to them. */
function alongContour(contour: ControlContour, points: readonly SectionPoint[]): Uint8Array {
  const { bendRadius, inset, tipRadius } = contour;
  const { sideX, sideY, topY } = roundedFiller(bendRadius, inset, inset, tipRadius, tipRadius);
  return Uint8Array.from(points, ({ place, x, y }) => {
    const fromTip = Math.min(Math.hypot(x - sideX, y - sideY), Math.hypot(x, y - topY));
    const beside = place.endsWith('interface') && contour.distance(x, y) > -along * inset;
    return beside && fromTip > fromTips * tipRadius ? 1 : 0;
  });
}

/** What the joint and its contour fix before any support is chosen. */
interface Frame {
  readonly basis: RegularBasis;
  readonly shearModulus: number;
  readonly kappa: number;
  /** Moments at run time are in lengths of the basis and without the factor `(kappa + 1) / 2G`. */
  readonly momentUnit: number;
  /** Free in-plane strain `expansion deltaT - contraction strainZ`. */
  readonly expansion: number;
  readonly contraction: number;
  /** Axial modulus (MPa) and expansion (1/K) of the filler, area inside the right half of the contour (mm2). */
  readonly axialModulus: number;
  readonly axialExpansion: number;
  readonly innerArea: number;
  readonly contour: ControlContour;
  readonly symmetric: Trial;
  readonly antisymmetric: Trial;
}

/** Trial fields of one symmetry class on the contour, made orthonormal: `plain = orthonormal factor`. */
interface Trial {
  /** Rows: `2 degree` regular fields, then the rigid translation of this symmetry. `fields x 2 nodes` */
  readonly orthonormal: Matrix;
  readonly factor: Matrix;
  /** Nodal forces of the plain fields, `fields x 2 nodes`. */
  readonly force: Matrix;
  /** Fields of a virtual channel with one moment 1 and the others 0, `2 degree x 2 nodes`. */
  readonly channel: { readonly displacement: Matrix; readonly force: Matrix };
  /** Place of the field that turns the channel as a whole: without stress and moment, left at zero. -1: none. */
  readonly rotation: number;
}

function makeFrame(joint: TeeJoint, contour: ControlContour, degree: number): Frame {
  const { G, kappa, expansion, contraction } = inPlaneConstants(joint.filler);
  const centreY = joint.bendRadius / 4;
  let length = 0;
  for (let j = 0; j < contour.x.length; j++)
    length = Math.max(length, Math.hypot(contour.x[j]!, contour.y[j]! - centreY));
  const basis = regularBasis(contour, degree, centreY, length);
  const momentUnit = ((kappa + 1) / (2 * G)) * length * length;
  const sources = virtualChannel(contour, basis);
  const width = 2 * contour.x.length;
  const trial = (symmetric: boolean): Trial => {
    const regular = regularContourFields(contour, basis, G, kappa, symmetric);
    const translation = Array.from({ length: width }, (_, i) => (i % 2 === (symmetric ? 1 : 0) ? 1 : 0));
    const plain = rowsOf(regular.displacement, width).addRow(translation);
    const channel = sourceContourFields(contour, basis, G, kappa, symmetric, sources);
    const moments = sourceMoments(basis, symmetric, sources, momentUnit);
    const rotation = symmetric ? -1 : 0;
    const unit = unitMoments(moments, rotation);
    return {
      ...orthonormalise(plain),
      force: rowsOf(regular.force, width).addRow(new Array<number>(width).fill(0)),
      channel: {
        displacement: unit.mmul(rowsOf(channel.displacement, width)),
        force: unit.mmul(rowsOf(channel.force, width)),
      },
      rotation,
    };
  };
  return {
    basis,
    shearModulus: G,
    kappa,
    momentUnit,
    expansion,
    contraction,
    axialModulus: joint.filler.E1,
    axialExpansion: joint.filler.alpha1,
    innerArea: halfArea(contour),
    contour,
    symmetric: trial(true),
    antisymmetric: trial(false),
  };
}

/** Fields that are nearly orthonormal on the contour, about (0, `centreY`). */
function regularBasis({ x, y }: ControlContour, degree: number, centreY: number, length: number): RegularBasis {
  const localY = y.map((value) => (value - centreY) / length);
  const localX = x.map((value) => value / length);
  const step = (i: number, j: number) => Math.hypot(x[j]! - x[i]!, y[j]! - y[i]!);
  const weights = x.map((_, j) => (j > 0 ? step(j - 1, j) : 0) + (j + 1 < x.length ? step(j, j + 1) : 0));
  return { degree, centreX: 0, centreY, length, recurrence: contourRecurrence(localX, localY, weights, degree) };
}

const rowsOf = (data: Float64Array, width: number) => Matrix.from1DArray(data.length / width, width, data);

/** QR of the rows, each scaled to unit length first. */
function orthonormalise(plain: Matrix): { orthonormal: Matrix; factor: Matrix } {
  const scale = Array.from({ length: plain.rows }, (_, l) => Math.hypot(...plain.getRow(l)));
  const scaled = plain.transpose();
  scale.forEach((value, l) => {
    scaled.mulColumn(l, 1 / value);
  });
  const qr = new QrDecomposition(scaled);
  const factor = qr.upperTriangularMatrix.clone();
  scale.forEach((value, l) => {
    factor.mulColumn(l, value);
  });
  return { orthonormal: qr.orthogonalMatrix.transpose(), factor };
}

/** Least combinations of sources with one moment 1 and the others 0, `moments x sources`; those for `rotation` are zero. */
function unitMoments(moments: Matrix, rotation: number): Matrix {
  if (rotation >= 0) moments.removeRow(rotation);
  // moments^T = O^T F, so the pseudo-inverse is O^T F^-T. Condition 1e8 at degree 28: no rank to cut off.
  const { orthonormal, factor } = orthonormalise(moments);
  const out = leftDivide(factor, orthonormal);
  return rotation >= 0 ? out.addRow(rotation, new Array<number>(out.columns).fill(0)) : out;
}

/** Area between the right half of the contour and the mirror line, by the boundary integral of x dy. */
function halfArea(contour: ControlContour): number {
  let area = 0;
  const edges = (contour.x.length - 1) / 2;
  for (let edge = 0; edge < edges; edge++)
    for (const [xi, weight] of simpson) {
      const point = contourPoint(contour, edge, xi);
      area += weight * point.x * point.dy;
    }
  return area;
}

/** Exact for the cubic x dy of a quadratic edge. */
const simpson = [
  [-1, 1 / 3],
  [0, 4 / 3],
  [1, 1 / 3],
] as const;

/** Sources per edge of the contour. */
const perEdge = [-2 / 3, 0, 2 / 3] as const;

/**
 * A channel inside the contour, whose field stands for that of every channel, in local coordinates. It keeps one edge's length off: the
 * edges carry the field of a source quadratically, which a source nearer than 0.6 of its edge is too uneven for (errors
 * of percents, worst for sharp tips). From 0.6 to 1.6 edges off, the peaks are the same within 0.1 %.
 */
function virtualChannel(contour: ControlContour, basis: RegularBasis): SourcePoints {
  const edges = (contour.x.length - 1) / 2;
  const points = Array.from({ length: edges }, (_, edge) =>
    perEdge.map((xi) => {
      const { x, y, dx, dy } = contourPoint(contour, edge, xi);
      // Inwards is to the left of a counter-clockwise curve; an edge runs from -1 to 1.
      return { x: x - 2 * dy, y: y + 2 * dx, dx: (2 / 3) * dx, dy: (2 / 3) * dy };
    }),
  ).flat();
  const { length, centreY } = basis;
  return {
    x: Float64Array.from(points, (p) => p.x / length),
    y: Float64Array.from(points, (p) => (p.y - centreY) / length),
    dx: Float64Array.from(points, (p) => p.dx / length),
    dy: Float64Array.from(points, (p) => p.dy / length),
  };
}

/** Moments `((kappa + 1)/2G) Re conj(p) (-i dF_l)` of the sources with their images, `2 degree x 2 sources`. */
function sourceMoments(basis: RegularBasis, symmetric: boolean, sources: SourcePoints, factor: number): Matrix {
  const points = sources.x.length;
  const count = 2 * points;
  const nodes = createCurveNodes(count);
  // Only the first half is read; the step takes the place of t' 2 pi / count.
  const perStep = count / (2 * Math.PI);
  for (let s = 0; s < points; s++) {
    nodes.x[s] = sources.x[s]!;
    nodes.y[s] = sources.y[s]!;
    nodes.dx[s] = sources.dx[s]! * perStep;
    nodes.dy[s] = sources.dy[s]! * perStep;
  }
  const half = halfSize(basis.degree);
  const Q = new Float64Array(half * count);
  const H = new Float64Array(count * half);
  const middle = { x: 0, y: 0 };
  const table = createBasisTable(basis, points);
  fillBasisTable(nodes, points, middle, table);
  writeEdgeFields(nodes, true, table, symmetric, middle, half, 0, { H, Q });
  return rowsOf(Q, count).mul(factor);
}

/** Trial fields against one condensed half: solve for coefficients in the orthonormal basis. */
interface HalfSystem {
  readonly trial: Trial;
  readonly half: CondensedHalf;
  /** Nodal forces of the host that the orthonormal fields meet, `fields x 2 nodes`. */
  readonly stiffness: Matrix;
  /** `A^-1` in the orthonormal basis. */
  readonly solve: CholeskyDecomposition;
}

interface SupportSolution {
  readonly response: HostResponse;
  readonly symmetric: HalfSystem;
  readonly antisymmetric: HalfSystem;
}

function solveSupport(frame: Frame, host: CondensedHost, support: CondensedHalf['support']): SupportSolution {
  const find = (symmetry: CondensedHalf['symmetry']) => {
    const half = host.halves.find((one) => one.symmetry === symmetry && one.support === support)!;
    return halfSystem(symmetry === 'symmetric' ? frame.symmetric : frame.antisymmetric, half);
  };
  const symmetric = find('symmetric');
  const antisymmetric = find('antisymmetric');
  return {
    response: {
      symmetric: hostResponse(symmetric, frame.momentUnit),
      antisymmetric: hostResponse(antisymmetric, frame.momentUnit),
    },
    symmetric,
    antisymmetric,
  };
}

/** Galerkin's matrix `A = V^T (S V + T)` with the trial fields as tests. */
function halfSystem(trial: Trial, half: CondensedHalf): HalfSystem {
  const { orthonormal, factor, force } = trial;
  const size = orthonormal.columns;
  const whole = rowsOf(half.matrix, size + half.scalars.length);
  const stiffness = orthonormal.mmul(whole.subMatrix(0, size - 1, 0, size - 1));
  const inner = rightDivide(orthonormal.mmul(force.transpose()), factor);
  const A = stiffness.mmul(orthonormal.transpose()).add(inner);
  const symmetricPart = Matrix.add(A, A.transpose()).mul(0.5);
  return { trial, half, stiffness, solve: new CholeskyDecomposition(symmetricPart) };
}

/** `matrix factor^-1` for an upper triangular factor. */
function rightDivide(matrix: Matrix, factor: Matrix): Matrix {
  const out = matrix.clone();
  for (let i = 0; i < out.rows; i++)
    for (let j = 0; j < out.columns; j++) {
      let sum = out.get(i, j);
      for (let k = 0; k < j; k++) sum -= out.get(i, k) * factor.get(k, j);
      out.set(i, j, sum / factor.get(j, j));
    }
  return out;
}

/** `factor^-1 matrix`. */
function leftDivide(factor: Matrix, matrix: Matrix): Matrix {
  const out = matrix.clone();
  for (let i = out.rows - 1; i >= 0; i--)
    for (let j = 0; j < out.columns; j++) {
      let sum = out.get(i, j);
      for (let k = i + 1; k < out.rows; k++) sum -= factor.get(i, k) * out.get(k, j);
      out.set(i, j, sum / factor.get(i, i));
    }
  return out;
}

/** The host's answer R: coefficients from moments, symmetrised. */
function hostResponse({ trial, stiffness, solve }: HalfSystem, momentUnit: number): Float64Array {
  const { orthonormal, channel } = trial;
  const load = stiffness.mmul(channel.displacement.transpose()).add(orthonormal.mmul(channel.force.transpose()));
  // Coefficients of the plain fields; the translation has no moment, its row is dropped.
  const answer = leftDivide(trial.factor, solve.solve(load).mul(-momentUnit));
  if (trial.rotation >= 0) answer.mulRow(trial.rotation, 0);
  const half = answer.columns;
  const out = new Float64Array(half * half);
  for (let i = 0; i < half; i++)
    for (let j = 0; j < half; j++) out[i * half + j] = (answer.get(i, j) + answer.get(j, i)) / 2;
  return out;
}

/**
 * Stress at the chosen places per moment, rows of `3 places` over `2 degree` moments: what the contour's displacements
 * `V A^+ q` do to the host. A half of the contour sees half of a moment.
 */
function changeMap({ trial, half, solve }: HalfSystem, chosen: readonly number[], momentUnit: number): Float64Array {
  const displacements = leftDivide(trial.factor, solve.solve(trial.orthonormal)).mul(momentUnit / 2);
  const moments = trial.orthonormal.rows - 1;
  const states = Array.from({ length: moments }, (_, l) => ({ displacement: displacements.getRow(l), scalars: {} }));
  return stressesAt(half, chosen, states);
}

/** Row of a scalar over the contour's displacements. */
function scalarRow(
  { half, stiffness }: HalfSystem,
  scalar: Scalar,
): { coupling: Float64Array; with: (other: Scalar) => number } {
  const size = stiffness.columns;
  const width = size + half.scalars.length;
  const at = size + half.scalars.indexOf(scalar);
  return {
    coupling: half.matrix.slice(at * width, at * width + size),
    with: (other) => half.matrix[at * width + size + half.scalars.indexOf(other)]!,
  };
}

/** Coefficients (plain, without the translation) and the contour's displacements under a load on the orthonormal fields. */
function respond(
  { trial, solve }: HalfSystem,
  load: Matrix,
): { coefficients: Float64Array; displacement: Float64Array } {
  const answer = solve.solve(load);
  return {
    coefficients: Float64Array.from(leftDivide(trial.factor, answer).getColumn(0).slice(0, -1)),
    displacement: Float64Array.from(answer.transpose().mmul(trial.orthonormal).getRow(0)),
  };
}

/** A unit load without channel: the field inside the contour and the state of the host. */
interface Undisturbed {
  readonly coefficients: Float64Array;
  readonly state: HalfState;
}

/** Undisturbed field of a unit symmetric load, with the axial strain that leaves no axial force. */
function undisturbedSymmetric(frame: Frame, system: HalfSystem, scalar: Scalar): Undisturbed {
  const byLoad = responseToScalar(frame, system, scalar);
  const byStrain = responseToScalar(frame, system, 'strainZ');
  const strainZ = -byLoad.axialForce / byStrain.axialForce;
  const both = (a: Float64Array, b: Float64Array) => a.map((value, i) => value + strainZ * b[i]!);
  return {
    coefficients: both(byLoad.coefficients, byStrain.coefficients),
    state: { displacement: both(byLoad.displacement, byStrain.displacement), scalars: { [scalar]: 1, strainZ } },
  };
}

/** One unit scalar with everything it does inside the contour: free strain of the filler and axial force of the half joint. */
function responseToScalar(frame: Frame, system: HalfSystem, scalar: Scalar) {
  const { x, y } = frame.contour;
  const freeStrain = scalar === 'deltaT' ? frame.expansion : scalar === 'strainZ' ? -frame.contraction : 0;
  const free = new Float64Array(2 * x.length);
  for (let j = 0; j < x.length; j++) {
    free[2 * j] = freeStrain * x[j]!;
    free[2 * j + 1] = freeStrain * y[j]!;
  }
  const own = scalarRow(system, scalar);
  const { orthonormal, force } = system.trial;
  const load = orthonormal
    .mmul(Matrix.columnVector(own.coupling))
    .add(system.stiffness.mmul(Matrix.columnVector(free)));
  const { coefficients, displacement } = respond(system, load.mul(-1));
  displacement.forEach((value, i) => {
    displacement[i] = value + free[i]!;
  });
  const axial = scalarRow(system, 'strainZ');
  let axialForce = axial.with(scalar);
  axial.coupling.forEach((value, i) => {
    axialForce += value * displacement[i]!;
  });
  // Inside: s_z = nu12 (s_x + s_y) + E1 (strainZ - alpha1 deltaT), and int (s_x + s_y) is the work of the nodal forces on u = z.
  for (let l = 0; l < coefficients.length; l++)
    for (let j = 0; j < x.length; j++)
      axialForce +=
        frame.contraction * coefficients[l]! * (x[j]! * force.get(l, 2 * j) + y[j]! * force.get(l, 2 * j + 1));
  const axialStrain = scalar === 'strainZ' ? 1 : scalar === 'deltaT' ? -frame.axialExpansion : 0;
  axialForce += frame.axialModulus * axialStrain * frame.innerArea;
  return { coefficients, displacement, axialForce };
}

function undisturbedAntisymmetric(system: HalfSystem, scalar: Scalar): Undisturbed {
  const { coupling } = scalarRow(system, scalar);
  const load = system.trial.orthonormal.mmul(Matrix.columnVector(coupling)).mul(-1);
  const { coefficients, displacement } = respond(system, load);
  return { coefficients, state: { displacement, scalars: { [scalar]: 1 } } };
}

function join(
  symmetric: Float64Array | undefined,
  antisymmetric: Float64Array | undefined,
  degree: number,
): Float64Array {
  const out = new Float64Array(4 * degree);
  if (symmetric) out.set(symmetric);
  if (antisymmetric) out.set(antisymmetric, halfSize(degree));
  return out;
}
