import { contourRecurrence, halfSize, type RegularBasis } from '../../edge/index.js';
import { type DenseMatrix, matrixOf, orthonormalise } from '../../linear/index.js';
import { inPlaneConstants, type Ply } from '../../material/index.js';
import type { ByClass, ContourNodes, FieldClass } from './condensed.js';
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

/** Trial fields of one class on the contour, made orthonormal: `plain = factor^T orthonormal`. */
export interface Trial {
  readonly of: FieldClass;
  /** Rows: the regular fields, then the rigid translations of this class. `fields x 2 nodes` */
  readonly orthonormal: DenseMatrix;
  readonly factor: DenseMatrix;
  /** Nodal forces of the plain fields, `fields x 2 nodes`. */
  readonly force: DenseMatrix;
  readonly channel: UnitMoments;
  /** Regular fields: as many as moments. */
  readonly moments: number;
  /** Place of the field that turns the channel as a whole: without stress and moment, left at zero. -1: none. */
  readonly rotation: number;
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

/** Components (0: u, 1: v) in which a class may move as a whole. */
const translations = { symmetric: [1], antisymmetric: [0], whole: [0, 1] } as const;

function trialFields(contour: ContourNodes, medium: Medium, of: FieldClass): Trial {
  const width = 2 * contour.x.length;
  const regular = regularContourFields(contour, medium, of);
  const moved = translations[of];
  const plain = new Float64Array(regular.displacement.length + moved.length * width);
  const force = new Float64Array(plain.length);
  plain.set(regular.displacement);
  force.set(regular.force);
  moved.forEach((component, l) => {
    for (let i = component; i < width; i += 2) plain[(regular.rows + l) * width + i] = 1;
  });
  // phi = i f_1, the first of the antisymmetric fields.
  const rotation = { symmetric: -1, antisymmetric: 0, whole: halfSize(medium.basis.degree) }[of];
  return {
    of,
    ...orthonormalise(matrixOf(plain, width)),
    force: matrixOf(force, width),
    channel: unitMoments(contour, medium, of, rotation),
    moments: regular.rows,
    rotation,
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
