import { contourRecurrence, framedOrder, halfSize, type RegularBasis } from '../../edge/index.js';
import { type DenseMatrix, matrixOf, orthonormalise, rightDivide, timesTransposed } from '../../linear/index.js';
import { inPlaneConstants, type Ply } from '../../material/index.js';
import { type ByClass, type ContourNodes, type FieldClass, mapClasses } from './condensed.js';
import { contourPoint, edgeCount, type Medium, regularContourFields } from './contour-fields.js';
import { type UnitMoments, unitMoments } from './virtual-channel.js';

/** What lies inside a control contour, before anything is known of the outside. */
export interface Inside extends Medium {
  readonly contour: ContourNodes;
  /** Free in-plane strain `expansion deltaT - contraction strainZ`. */
  readonly expansion: number;
  readonly contraction: number;
  /** Axial modulus (MPa) and expansion (1/K), area inside the contour (of a half contour, the right half's), mm2. */
  readonly axialModulus: number;
  readonly axialExpansion: number;
  readonly area: number;
  readonly trials: ByClass<Trial>;
}

/**
 * Trial fields of one class on the contour, made orthonormal: its rigid motions first, then the regular fields in the frame's order. All that is solved is solved in
 * these, in which moments and coefficients are of one size; what plain fields are told of it comes last.
 */
export interface Trial {
  readonly of: FieldClass;
  /** `(rigid + order.length) x 2 nodes` */
  readonly orthonormal: DenseMatrix;
  readonly rigid: number;
  /** Places of the others among the regular fields of the class. */
  readonly order: readonly number[];
  /** As `PlaceMaps.frame`. */
  readonly frame: Float64Array;
  /** Work of the nodal forces of one on the displacements of another. */
  readonly stiffness: DenseMatrix;
  /** Work of the nodal forces of the plain fields, in the frame's order, on a displacement `u = z`. */
  readonly stretched: Float64Array;
  readonly channel: UnitMoments;
  /** Regular fields of the class: as many as moments. */
  readonly moments: number;
}

/** `material`: isotropic in the plane. `basis`: of the host's choosing, see `contourBasis`. */
export function insideContour(contour: ContourNodes, material: Ply, basis: RegularBasis): Inside {
  const { G, kappa, expansion, contraction } = inPlaneConstants(material);
  const medium: Medium = { basis, shearModulus: G, kappa };
  const trial = (of: FieldClass) => trialFields(contour, medium, of);
  return {
    ...medium,
    contour,
    expansion,
    contraction,
    axialModulus: material.E1,
    axialExpansion: material.alpha1,
    area: areaInside(contour),
    trials: contour.closed
      ? { whole: trial('whole') }
      : { symmetric: trial('symmetric'), antisymmetric: trial('antisymmetric') },
  };
}

/**
 * The same with the fields up to a lower degree only. They are a part of what is known, so that several degrees take little longer than the highest
 * (a channel with one moment 1 has none of the higher ones either, which the lower fields do not see).
 */
export function upToDegree(inside: Inside, degree: number): Inside {
  const { basis } = inside;
  const rowLength = basis.recurrence.length / basis.degree;
  return {
    ...inside,
    basis: { ...basis, degree, recurrence: basis.recurrence.slice(0, degree * rowLength) },
    trials: mapClasses(inside.trials, (trial) => firstFields(trial, degree)),
  };
}

function firstFields({ of, rigid, stiffness, ...trial }: Trial, degree: number): Trial {
  const order = framedOrder(of, degree);
  const count = order.length;
  const rows = ({ values, columns }: DenseMatrix, howMany: number) =>
    matrixOf(values.subarray(0, howMany * columns), columns);
  const corner = new Float64Array((rigid + count) * (rigid + count));
  for (let i = 0; i < rigid + count; i++)
    corner.set(
      stiffness.values.subarray(i * stiffness.columns, i * stiffness.columns + rigid + count),
      i * (rigid + count),
    );
  const frame = new Float64Array((count * (count + 1)) / 2);
  for (let i = 0, to = 0, from = 0; i < count; to += count - i, from += trial.order.length - i, i++)
    frame.set(trial.frame.subarray(from, from + count - i), to);
  const { displacement, force, largest } = trial.channel;
  return {
    of,
    rigid,
    order,
    frame,
    orthonormal: rows(trial.orthonormal, rigid + count),
    stiffness: matrixOf(corner, rigid + count),
    stretched: trial.stretched.subarray(0, count),
    channel: {
      displacement: rows(displacement, count),
      force: rows(force, count),
      largest: largest.subarray(0, count),
    },
    moments: halfSize(degree) * (of === 'whole' ? 2 : 1),
  };
}

/** Components (0: u, 1: v) in which a class may move as a whole. */
const translations = { symmetric: [1], antisymmetric: [0], whole: [0, 1] } as const;

function trialFields(contour: ContourNodes, medium: Medium, of: FieldClass): Trial {
  const { x, y } = contour;
  const width = 2 * x.length;
  const { degree } = medium.basis;
  const regular = regularContourFields(contour, medium, of);
  const moved = translations[of];
  const order = framedOrder(of, degree);
  // phi = i f_1, the first of the antisymmetric fields, turns all as one.
  const turned = of === 'symmetric' ? [] : [of === 'whole' ? halfSize(degree) : 0];
  const listed = [...turned, ...order];
  const plain = new Float64Array((moved.length + listed.length) * width);
  const force = new Float64Array(plain.length);
  moved.forEach((component, l) => {
    for (let i = component; i < width; i += 2) plain[l * width + i] = 1;
  });
  listed.forEach((field, k) => {
    const row = (moved.length + k) * width;
    plain.set(regular.displacement.subarray(field * width, (field + 1) * width), row);
    force.set(regular.force.subarray(field * width, (field + 1) * width), row);
  });
  const { orthonormal, factor } = orthonormalise(matrixOf(plain, width));
  const rigid = moved.length + turned.length;
  const count = order.length;
  const frame = new Float64Array((count * (count + 1)) / 2);
  for (let i = 0, at = 0; i < count; i++)
    for (let j = i; j < count; j++) frame[at++] = factor.values[(rigid + i) * factor.columns + rigid + j]!;
  const stretched = Float64Array.from(order, (_, k) => {
    const row = (rigid + k) * width;
    let work = 0;
    for (let j = 0; j < x.length; j++) work += x[j]! * force[row + 2 * j]! + y[j]! * force[row + 2 * j + 1]!;
    return work;
  });
  return {
    of,
    orthonormal,
    rigid,
    order,
    frame,
    stiffness: rightDivide(timesTransposed(orthonormal, matrixOf(force, width)), factor),
    stretched,
    channel: unitMoments(contour, medium, { of, order, frame }),
    moments: regular.rows,
  };
}

/** A basis of fields that are nearly orthonormal on the contour, about `centreX, centreY`, mm: on the mirror line of one that is `mirrored` (half ones are). */
export function contourBasis(
  { x, y, closed }: ContourNodes,
  centreX: number,
  centreY: number,
  degree: number,
  mirrored = true,
): RegularBasis {
  let length = 0;
  for (let j = 0; j < x.length; j++) length = Math.max(length, Math.hypot(x[j]! - centreX, y[j]! - centreY));
  const localX = x.map((value) => (value - centreX) / length);
  const localY = y.map((value) => (value - centreY) / length);
  const count = x.length;
  /** Length of what follows node `j`, the last one's only if the contour is closed. */
  const step = (j: number) => {
    const next = (j + 1) % count;
    return next > 0 || closed ? Math.hypot(x[next]! - x[j]!, y[next]! - y[j]!) : 0;
  };
  const weights = x.map((_, j) => step((j + count - 1) % count) + step(j));
  const recurrence = contourRecurrence(localX, localY, weights, degree, mirrored);
  return { degree, centreX, centreY, length, recurrence, ...(mirrored ? {} : { complex: true }) };
}

/**
 * A basis that is not mirrored, and poles (mm) outside its contour: for what fields come out of corners that are cut into it. Each counts as a degree more, and
 * is as large as 1 where the contour is nearest.
 */
export function withPoles(
  basis: RegularBasis,
  { x, y }: Pick<ContourNodes, 'x' | 'y'>,
  poles: readonly (readonly [x: number, y: number])[],
): RegularBasis {
  if (poles.length === 0) return basis;
  const { degree, centreX, centreY, length } = basis;
  const sized = poles.flatMap(([poleX, poleY]) => {
    let least = Number.POSITIVE_INFINITY;
    for (let j = 0; j < x.length; j++) least = Math.min(least, Math.hypot(x[j]! - poleX, y[j]! - poleY));
    return [(poleX - centreX) / length, (poleY - centreY) / length, least / length];
  });
  return { ...basis, degree: degree + poles.length, poles: Float64Array.from(sized) };
}

/** By the boundary integral of x dy, to which the mirror line adds nothing. */
function areaInside(contour: ContourNodes): number {
  let area = 0;
  for (let edge = 0; edge < edgeCount(contour); edge++)
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
