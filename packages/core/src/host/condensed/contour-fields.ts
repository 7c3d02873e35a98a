import { createFunctions, functionAt, halfSize, isReal, type RegularBasis, writeFunctions } from '../../edge/index.js';
import { gauss4 } from '../../linear/index.js';
import type { ContourNodes, FieldClass } from './condensed.js';

/** What is homogeneous inside a contour, and the regular fields there. */
export interface Medium {
  readonly basis: RegularBasis;
  /** In-plane shear modulus (MPa) and Kolosov constant. */
  readonly shearModulus: number;
  readonly kappa: number;
}

/**
 * Displacements and nodal forces of fields on a control contour, one row a field.
 * Displacements `2G (u + iv) = kappa phi - z conj(phi') - conj(psi)` (Muskhelishvili); consistent nodal forces by parts,
 * `f_i = int N_i (-i dF) = i int F N_i' dxi`, `F = phi + z conj(phi') + conj(psi)`, by four Gauss points an edge. The ends of a half
 * contour would add a force across the mirror line only, which no field of the same symmetry works on: it is left out.
 */
export interface ContourFields {
  readonly rows: number;
  /** `rows x 2 nodes`, mm per MPa. */
  readonly displacement: Float64Array;
  /** `rows x 2 nodes`, N/mm per MPa: force on the inner region. */
  readonly force: Float64Array;
}

/** A field at one point in local coordinates: values and derivatives of phi and psi. */
export interface FieldValue {
  phiX: number;
  phiY: number;
  slopeX: number;
  slopeY: number;
  psiX: number;
  psiY: number;
}

/** The three quadratic shape functions on (-1, 1) and their derivatives. */
const shapes = (xi: number) => [(xi * (xi - 1)) / 2, 1 - xi * xi, (xi * (xi + 1)) / 2] as const;
const slopes = (xi: number) => [xi - 0.5, -2 * xi, xi + 0.5] as const;

export const edgeCount = ({ x }: ContourNodes): number => x.length >> 1;

/** Point at `xi` of edge `edge`, in mm. */
export function contourPoint(
  { x, y }: ContourNodes,
  edge: number,
  xi: number,
): { x: number; y: number; dx: number; dy: number } {
  const out = { x: 0, y: 0, dx: 0, dy: 0 };
  const N = shapes(xi);
  const dN = slopes(xi);
  for (let a = 0; a < 3; a++) {
    const node = (2 * edge + a) % x.length;
    out.x += N[a]! * x[node]!;
    out.y += N[a]! * y[node]!;
    out.dx += dN[a]! * x[node]!;
    out.dy += dN[a]! * y[node]!;
  }
  return out;
}

/** Evaluates `rows` fields, given at points by `valueAt`, on the contour. */
function contourFields(
  nodes: ContourNodes,
  { basis, shearModulus, kappa }: Medium,
  rows: number,
  valueAt: (x: number, y: number, visit: (row: number, value: FieldValue) => void) => void,
): ContourFields {
  const count = nodes.x.length;
  const width = 2 * count;
  const { centreX, centreY, length } = basis;
  const displacement = new Float64Array(rows * width);
  const force = new Float64Array(rows * width);
  for (let node = 0; node < count; node++) {
    const x = (nodes.x[node]! - centreX) / length;
    const y = (nodes.y[node]! - centreY) / length;
    const scale = length / (2 * shearModulus);
    valueAt(x, y, (row, v) => {
      const at = row * width + 2 * node;
      displacement[at] = scale * (kappa * v.phiX - (x * v.slopeX + y * v.slopeY) - v.psiX);
      displacement[at + 1] = scale * (kappa * v.phiY - (y * v.slopeX - x * v.slopeY) + v.psiY);
    });
  }
  for (let edge = 0; edge < edgeCount(nodes); edge++)
    for (const [xi, weight] of gauss4) {
      const point = contourPoint(nodes, edge, xi);
      const x = (point.x - centreX) / length;
      const y = (point.y - centreY) / length;
      const dN = slopes(xi);
      valueAt(x, y, (row, v) => {
        const fX = length * (v.phiX + (x * v.slopeX + y * v.slopeY) + v.psiX);
        const fY = length * (v.phiY + (y * v.slopeX - x * v.slopeY) - v.psiY);
        for (let a = 0; a < 3; a++) {
          const at = row * width + 2 * ((2 * edge + a) % count);
          force[at]! -= weight * dN[a]! * fY;
          force[at + 1]! += weight * dN[a]! * fX;
        }
      });
    }
  return { rows, displacement, force };
}

const value: FieldValue = { phiX: 0, phiY: 0, slopeX: 0, slopeY: 0, psiX: 0, psiY: 0 };

const symmetries = { symmetric: [true], antisymmetric: [false], whole: [true, false] } as const;

/** The symmetry classes in a field class, in the order of their coefficients, each with the place of its first. */
export function classesIn(of: FieldClass, degree: number): readonly { symmetric: boolean; first: number }[] {
  return symmetries[of].map((symmetric, n) => ({ symmetric, first: n * halfSize(degree) }));
}

/** The regular fields of one class (order of `RegularBasis`) on the contour. */
export function regularContourFields(nodes: ContourNodes, medium: Medium, of: FieldClass): ContourFields {
  const { degree } = medium.basis;
  const functions = createFunctions(degree);
  const classes = classesIn(of, degree);
  return contourFields(nodes, medium, classes.length * halfSize(degree), (x, y, visit) => {
    writeFunctions(medium.basis, x, y, 1, functions);
    for (const { symmetric, first } of classes)
      for (let k = 1; k <= degree; k++) {
        const at = functionAt(k);
        const real = isReal(k, symmetric);
        value.phiX = real ? functions[at]! : -functions[at + 1]!;
        value.phiY = real ? functions[at + 1]! : functions[at]!;
        value.slopeX = real ? functions[at + 2]! : -functions[at + 3]!;
        value.slopeY = real ? functions[at + 3]! : functions[at + 2]!;
        value.psiX = 0;
        value.psiY = 0;
        visit(first + 2 * (k - 1), value);
        value.psiX = value.phiX;
        value.psiY = value.phiY;
        value.phiX = 0;
        value.phiY = 0;
        value.slopeX = 0;
        value.slopeY = 0;
        visit(first + 2 * (k - 1) + 1, value);
      }
  });
}

/** Points of a virtual channel with the steps `dz` between them, local coordinates; along a half contour those of the right half. */
export interface SourcePoints {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly dx: Float64Array;
  readonly dy: Float64Array;
}

/**
 * Elementary sources of a channel's field, two rows a point (real and imaginary boundary value of phi), of a symmetry class each
 * together with its mirror image. A boundary value `p` with step `dt` at `t` gives, outside the channel,
 * `phi = -(1/2 pi i) p dt / (t - z)`,
 * `psi = (1/2 pi i) [conj(p) dt / (t - z) - p (conj(dt) / (t - z) - conj(t) dt / (t - z)^2)]`
 * (Cauchy integrals of the traction-free edge, `psi = -conj(phi) - conj(t) phi'` there, by parts; derived here).
 */
export function sourceContourFields(
  nodes: ContourNodes,
  medium: Medium,
  of: FieldClass,
  sources: SourcePoints,
): ContourFields {
  const count = sources.x.length;
  const points = Array.from({ length: count }, (_, s): Source => {
    const [x, y, dx, dy] = [sources.x[s]!, sources.y[s]!, sources.dx[s]!, sources.dy[s]!];
    return { x, y, dx, dy };
  });
  // The image: t -> -conj t, dt -> conj dt, p -> -conj p (symmetric) or conj p.
  const sign = of === 'symmetric' ? -1 : 1;
  const images = of === 'whole' ? [] : points.map(({ x, y, dx, dy }): Source => ({ x: -x, y, dx, dy: -dy }));
  return contourFields(nodes, medium, 2 * count, (zx, zy, visit) => {
    for (let s = 0; s < count; s++)
      for (let part = 0; part < 2; part++) {
        value.phiX = 0;
        value.phiY = 0;
        value.slopeX = 0;
        value.slopeY = 0;
        value.psiX = 0;
        value.psiY = 0;
        const px = part === 0 ? 1 : 0;
        const py = 1 - px;
        addSource(zx, zy, points[s]!, px, py);
        const image = images[s];
        if (image !== undefined) addSource(zx, zy, image, sign * px, -sign * py);
        visit(2 * s + part, value);
      }
  });
}

/** Point and step of a source. */
interface Source {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

/** Adds one source's phi, phi' and psi at z to `value`. */
function addSource(zx: number, zy: number, { x: tx, y: ty, dx, dy }: Source, px: number, py: number): void {
  const ex = tx - zx;
  const ey = ty - zy;
  const squared = ex * ex + ey * ey;
  // g = 1 / (t - z), g2 = g^2
  const gx = ex / squared;
  const gy = -ey / squared;
  const g2x = gx * gx - gy * gy;
  const g2y = 2 * gx * gy;
  // a = p dt
  const ax = px * dx - py * dy;
  const ay = px * dy + py * dx;
  const w = 1 / (2 * Math.PI);
  // 1/(2 pi i) X = w (Xy, -Xx)
  value.phiX -= w * (ax * gy + ay * gx);
  value.phiY += w * (ax * gx - ay * gy);
  value.slopeX -= w * (ax * g2y + ay * g2x);
  value.slopeY += w * (ax * g2x - ay * g2y);
  // b = conj(p) dt - p conj(dt) = -2i Im(p conj dt); X = b g + conj(t) a g2
  const bY = -2 * (py * dx - px * dy);
  const cx = tx * ax + ty * ay;
  const cy = tx * ay - ty * ax;
  const X = -bY * gy + cx * g2x - cy * g2y;
  const Y = bY * gx + cx * g2y + cy * g2x;
  value.psiX += w * Y;
  value.psiY -= w * X;
}
