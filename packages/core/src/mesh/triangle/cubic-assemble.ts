import { type ElementMatrices, gauss5, onUnitInterval } from '../../linear/index.js';
import type { SectionStiffness } from '../../material/index.js';
import { type CubicMesh, normalAngle, type Zone } from './cubic-mesh.js';
import {
  createShape,
  evaluateShape,
  evaluateSide,
  quadrature,
  quadratureShapes,
  type Shape,
} from './cubic-triangle.js';

/** Displacements of node `i` are dofs `2 i` and `2 i + 1`; the uniform axial strain is the last one. */
export interface CubicSystem {
  readonly elements: ElementMatrices;
  readonly strainDof: number;
  /** Load vector of a temperature change of 1 K. */
  readonly thermalLoad: Float64Array;
}

const dofsPerTriangle = 21;

/** A place in the first triangle that is turned inside out; `undefined` where none is. */
export function turnedPlace(mesh: CubicMesh): readonly [x: number, y: number] | undefined {
  const gradient = createGradient();
  for (let e = 0; e < mesh.zoneOf.length; e++)
    for (const shape of quadratureShapes) {
      evaluateGradient(mesh, mesh.triangles.subarray(10 * e, 10 * e + 10), shape, gradient);
      if (!(gradient.jacobian > 0)) return [gradient.x, gradient.y];
    }
  return undefined;
}

/** Stiffness of every triangle under generalised plane strain, and the load of a uniform temperature change. */
export function assembleCubic(mesh: CubicMesh): CubicSystem {
  const count = mesh.zoneOf.length;
  const nodeCount = mesh.x.length;
  const strainDof = 2 * nodeCount;
  const square = dofsPerTriangle * dofsPerTriangle;
  const dofs = new Int32Array(dofsPerTriangle * count);
  const matrices = new Float64Array(square * count);
  const thermalLoad = new Float64Array(strainDof + 1);
  const cx = new Float64Array(count);
  const cy = new Float64Array(count);
  const C = new Float64Array(16);
  const thermal = new Float64Array(4);
  const gradient = createGradient();
  for (let e = 0; e < count; e++) {
    const nodes = mesh.triangles.subarray(10 * e, 10 * e + 10);
    const zone = mesh.zones[mesh.zoneOf[e]!]!;
    for (let i = 0; i < 10; i++) {
      dofs[dofsPerTriangle * e + 2 * i] = 2 * nodes[i]!;
      dofs[dofsPerTriangle * e + 2 * i + 1] = 2 * nodes[i]! + 1;
    }
    dofs[dofsPerTriangle * e + 20] = strainDof;
    cx[e] = mesh.x[nodes[9]!]!;
    cy[e] = mesh.y[nodes[9]!]!;
    const K = matrices.subarray(square * e, square * (e + 1));
    for (let q = 0; q < quadratureShapes.length; q++) {
      evaluateGradient(mesh, nodes, quadratureShapes[q]!, gradient);
      if (!(gradient.jacobian > 0))
        throw new Error(`triangle ${e} is turned inside out near (${gradient.x}, ${gradient.y})`);
      turned(zone, gradient.x, gradient.y, C, thermal);
      const w = quadrature.weight[q]! * gradient.jacobian;
      addStiffness(K, gradient.Nx, gradient.Ny, C, w);
      for (let i = 0; i < 10; i++) {
        const Nx = w * gradient.Nx[i]!;
        const Ny = w * gradient.Ny[i]!;
        thermalLoad[2 * nodes[i]!]! += Nx * thermal[0]! + Ny * thermal[2]!;
        thermalLoad[2 * nodes[i]! + 1]! += Ny * thermal[1]! + Nx * thermal[2]!;
      }
      thermalLoad[strainDof]! += w * thermal[3]!;
    }
  }
  const offsets = Int32Array.from({ length: count + 1 }, (_, e) => dofsPerTriangle * e);
  return { elements: { dofCount: strainDof + 1, offsets, dofs, x: cx, y: cy, matrices }, strainDof, thermalLoad };
}

/** Adds `w B^T C B` to the lower triangle; strain order xx, yy, xy, zz. */
function addStiffness(K: Float64Array, Nx: Float64Array, Ny: Float64Array, C: Float64Array, w: number): void {
  const [c00, c01, c02, c03] = [C[0]!, C[1]!, C[2]!, C[3]!];
  const [c11, c12, c13] = [C[5]!, C[6]!, C[7]!];
  const [c22, c23, c33] = [C[10]!, C[11]!, C[15]!];
  for (let j = 0; j < 10; j++) {
    const x = w * Nx[j]!;
    const y = w * Ny[j]!;
    const uxx = c00 * x + c02 * y;
    const uyy = c01 * x + c12 * y;
    const uxy = c02 * x + c22 * y;
    const vxx = c01 * y + c02 * x;
    const vyy = c11 * y + c12 * x;
    const vxy = c12 * y + c22 * x;
    for (let i = j; i < 10; i++) {
      const X = Nx[i]!;
      const Y = Ny[i]!;
      const row = 42 * i + 2 * j;
      K[row]! += X * uxx + Y * uxy;
      K[row + 1]! += X * vxx + Y * vxy;
      K[row + 21]! += Y * uyy + X * uxy;
      K[row + 22]! += Y * vyy + X * vxy;
    }
    K[420 + 2 * j]! += c03 * x + c23 * y;
    K[421 + 2 * j]! += c13 * y + c23 * x;
  }
  K[440]! += w * c33;
}

/** Gradients of the shape functions at one point of a triangle. */
interface Gradient {
  readonly Nx: Float64Array;
  readonly Ny: Float64Array;
  jacobian: number;
  x: number;
  y: number;
}

function createGradient(): Gradient {
  return { Nx: new Float64Array(10), Ny: new Float64Array(10), jacobian: 0, x: 0, y: 0 };
}

function evaluateGradient(mesh: CubicMesh, nodes: Int32Array, shape: Shape, out: Gradient): void {
  const { N, dN2, dN3 } = shape;
  let x = 0;
  let y = 0;
  let x2 = 0;
  let y2 = 0;
  let x3 = 0;
  let y3 = 0;
  for (let i = 0; i < 10; i++) {
    const X = mesh.x[nodes[i]!]!;
    const Y = mesh.y[nodes[i]!]!;
    x += N[i]! * X;
    y += N[i]! * Y;
    x2 += dN2[i]! * X;
    y2 += dN2[i]! * Y;
    x3 += dN3[i]! * X;
    y3 += dN3[i]! * Y;
  }
  const jacobian = x2 * y3 - x3 * y2;
  for (let i = 0; i < 10; i++) {
    out.Nx[i] = (dN2[i]! * y3 - dN3[i]! * y2) / jacobian;
    out.Ny[i] = (dN3[i]! * x2 - dN2[i]! * x3) / jacobian;
  }
  out.jacobian = jacobian;
  out.x = x;
  out.y = y;
}

/** Stiffness and thermal stress of a zone in x, y axes at a point; order xx, yy, xy, zz. */
function turned(zone: Zone, x: number, y: number, C: Float64Array, thermal: Float64Array): void {
  const angle = normalAngle(zone, x, y);
  // The tangent is the normal turned by -90 degrees.
  turnStiffness(zone.material, Math.sin(angle), -Math.cos(angle), C, thermal);
}

const T = new Float64Array(16);
const CT = new Float64Array(16);

/** `T^T C T` with T from strains in x, y to strains along a tangent of direction `(c, s)` and its normal. */
function turnStiffness(material: SectionStiffness, c: number, s: number, C: Float64Array, thermal: Float64Array): void {
  const local = material.stiffness;
  T.set([c * c, s * s, c * s, 0, s * s, c * c, -c * s, 0, -2 * c * s, 2 * c * s, c * c - s * s, 0, 0, 0, 0, 1]);
  for (let i = 0; i < 4; i++)
    for (let j = 0; j < 4; j++) {
      let sum = 0;
      for (let k = 0; k < 4; k++) sum += local[4 * i + k]! * T[4 * k + j]!;
      CT[4 * i + j] = sum;
    }
  for (let i = 0; i < 4; i++) {
    let load = 0;
    for (let k = 0; k < 4; k++) load += T[4 * k + i]! * material.thermal[k]!;
    thermal[i] = load;
    for (let j = 0; j < 4; j++) {
      let sum = 0;
      for (let k = 0; k < 4; k++) sum += T[4 * k + i]! * CT[4 * k + j]!;
      C[4 * i + j] = sum;
    }
  }
}

/**
 * Adds the consistent nodal forces of a traction on a part of the boundary to `load`; `traction` gives `(tx, ty)` in MPa
 * at a point with outward normal `(nx, ny)`. Five Gauss points a side.
 */
export function addTraction(
  mesh: CubicMesh,
  sides: Int32Array,
  traction: (x: number, y: number, nx: number, ny: number) => readonly [number, number],
  load: Float64Array,
): void {
  const N = new Float64Array(4);
  const dN = new Float64Array(4);
  for (let at = 0; at < sides.length; at += 4)
    for (const [place, weight] of alongSide) {
      evaluateSide(place, N, dN);
      let x = 0;
      let y = 0;
      let dx = 0;
      let dy = 0;
      for (let i = 0; i < 4; i++) {
        const node = sides[at + i]!;
        x += N[i]! * mesh.x[node]!;
        y += N[i]! * mesh.y[node]!;
        dx += dN[i]! * mesh.x[node]!;
        dy += dN[i]! * mesh.y[node]!;
      }
      const speed = Math.hypot(dx, dy);
      const [tx, ty] = traction(x, y, dy / speed, -dx / speed);
      for (let i = 0; i < 4; i++) {
        const node = sides[at + i]!;
        load[2 * node]! += weight * speed * N[i]! * tx;
        load[2 * node + 1]! += weight * speed * N[i]! * ty;
      }
    }
}

const alongSide = onUnitInterval(gauss5);

/** Stress at one point of a triangle. MPa */
export interface PointStress {
  x: number;
  y: number;
  xx: number;
  yy: number;
  xy: number;
  zz: number;
}

/**
 * A function that gives the stress of a solution anywhere in a triangle (area coordinates `L2, L3`), MPa.
 * `u`: dofs, the axial strain last; `deltaT`: temperature change, K. The result is written again by the next call.
 */
export function stressOf(
  mesh: CubicMesh,
  u: Float64Array,
  deltaT: number,
): (triangle: number, L2: number, L3: number) => PointStress {
  const shape = createShape();
  const gradient = createGradient();
  const C = new Float64Array(16);
  const thermal = new Float64Array(4);
  const out: PointStress = { x: 0, y: 0, xx: 0, yy: 0, xy: 0, zz: 0 };
  const strainZ = u[2 * mesh.x.length]!;
  return (triangle, L2, L3) => {
    const nodes = mesh.triangles.subarray(10 * triangle, 10 * triangle + 10);
    evaluateShape(L2, L3, shape);
    evaluateGradient(mesh, nodes, shape, gradient);
    turned(mesh.zones[mesh.zoneOf[triangle]!]!, gradient.x, gradient.y, C, thermal);
    let ex = 0;
    let ey = 0;
    let exy = 0;
    for (let i = 0; i < 10; i++) {
      const ux = u[2 * nodes[i]!]!;
      const uy = u[2 * nodes[i]! + 1]!;
      ex += gradient.Nx[i]! * ux;
      ey += gradient.Ny[i]! * uy;
      exy += gradient.Ny[i]! * ux + gradient.Nx[i]! * uy;
    }
    const row = (i: number) =>
      C[4 * i]! * ex + C[4 * i + 1]! * ey + C[4 * i + 2]! * exy + C[4 * i + 3]! * strainZ - thermal[i]! * deltaT;
    out.x = gradient.x;
    out.y = gradient.y;
    out.xx = row(0);
    out.yy = row(1);
    out.xy = row(2);
    out.zz = row(3);
    return out;
  };
}
