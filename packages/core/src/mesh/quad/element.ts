import { gauss2, gauss3 } from '../../linear/index.js';
import type { SectionStiffness } from '../../material/index.js';
import {
  type MaterialAxes,
  type SectionBody,
  type SectionMesh,
  type SectionTriangles,
  tangentAngle,
} from './section-mesh.js';

/** One-dimensional quadratic shape functions of nodes -1, 0, 1 and their slopes. */
function quadratic(s: number): { N: readonly number[]; D: readonly number[] } {
  return { N: [(s * (s - 1)) / 2, 1 - s * s, (s * (s + 1)) / 2], D: [s - 0.5, -2 * s, s + 0.5] };
}

/** Shape functions of an element's nodes at one point, and their slopes along its two coordinates. */
export interface Shape {
  readonly N: Float64Array;
  readonly Da: Float64Array;
  readonly Db: Float64Array;
}

const tables = new Map<string, Shape>();

/** Shape functions of the nine nodes at (a, b) in [-1, 1]^2 and their slopes; kept, as the same few points return. */
function shape(a: number, b: number): Shape {
  const key = `${a},${b}`;
  let table = tables.get(key);
  if (table === undefined) {
    const along = quadratic(a);
    const across = quadratic(b);
    const fill = (f: readonly number[], g: readonly number[]) =>
      Float64Array.from({ length: 9 }, (_, i) => f[i % 3]! * g[Math.floor(i / 3)]!);
    table = { N: fill(along.N, across.N), Da: fill(along.D, across.N), Db: fill(along.N, across.D) };
    tables.set(key, table);
  }
  return table;
}

/** Strain rows of element `e` at (a, b), written into `rows` (54 entries); returns the Jacobian determinant. */
export function strainRows(mesh: SectionMesh, e: number, a: number, b: number, rows: Float64Array): number {
  return writeStrainRows(mesh, mesh.elements.subarray(9 * e, 9 * e + 9), shape(a, b), mesh.axes[e]!, rows);
}

/** Strains `(eps_t, eps_n, gamma_tn)` in material axes at one point of an element, three rows over its `(u, v)`; returns the Jacobian determinant. */
function writeStrainRows(
  mesh: { readonly x: Float64Array; readonly y: Float64Array },
  nodes: Int32Array,
  { N, Da, Db }: Shape,
  axes: MaterialAxes,
  rows: Float64Array,
): number {
  const count = nodes.length;
  let x = 0;
  let y = 0;
  let xa = 0;
  let ya = 0;
  let xb = 0;
  let yb = 0;
  for (let i = 0; i < count; i++) {
    const node = nodes[i]!;
    const px = mesh.x[node]!;
    const py = mesh.y[node]!;
    x += N[i]! * px;
    y += N[i]! * py;
    xa += Da[i]! * px;
    ya += Da[i]! * py;
    xb += Db[i]! * px;
    yb += Db[i]! * py;
  }
  const area = xa * yb - xb * ya;
  const angle = tangentAngle(axes, x, y);
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const width = 2 * count;
  for (let i = 0; i < count; i++) {
    const gx = (Da[i]! * yb - Db[i]! * ya) / area;
    const gy = (Db[i]! * xa - Da[i]! * xb) / area;
    const gt = gx * c + gy * s;
    const gn = gy * c - gx * s;
    rows[2 * i] = gt * c;
    rows[2 * i + 1] = gt * s;
    rows[width + 2 * i] = -gn * s;
    rows[width + 2 * i + 1] = gn * c;
    rows[2 * width + 2 * i] = gn * c - gt * s;
    rows[2 * width + 2 * i + 1] = gn * s + gt * c;
  }
  return area;
}

/** Unknowns of an element matrix: u, v of its nine nodes, then the uniform axial strain and the temperature change. */
export const elementOrder = 20;

/**
 * Stiffness of element `e` under generalised plane strain, of order `elementOrder`, row-major, lower triangle, added to
 * `out` from `start` on. Energy per mm of length `1/2 strain C strain - strain . thermal deltaT` (no `deltaT^2` term: it does no work on
 * anything). 3 x 3 Gauss points. Throws `Error` for an element turned inside out.
 */
export function addElementStiffness(body: SectionBody, e: number, out: Float64Array, start: number): void {
  const { mesh, materials } = body;
  const material = materials[mesh.material[e]!]!;
  const nodes = mesh.elements.subarray(9 * e, 9 * e + 9);
  for (const { at, weights } of stiffnessPoints) {
    const area = writeStrainRows(mesh, nodes, at, mesh.axes[e]!, strain);
    if (!(area > 0)) throw new Error(`element ${e} is turned inside out`);
    addPoint(material, 9, area * weights[0] * weights[1], out, start);
  }
}

const stiffnessPoints = gauss3.flatMap(([a, weightA]) =>
  gauss3.map(([b, weightB]) => ({ at: shape(a, b), weights: [weightA, weightB] as const })),
);

const strain = new Float64Array(54);
const stress = new Float64Array(3 * elementOrder);

/** Adds one point of quadrature to the matrix of an element of `count` nodes, whose strain rows stand in `strain`. */
function addPoint(
  { stiffness: C, thermal }: SectionStiffness,
  count: number,
  weight: number,
  out: Float64Array,
  start: number,
): void {
  const width = 2 * count;
  const order = width + 2;
  for (let r = 0; r < 3; r++) {
    const c0 = weight * C[4 * r]!;
    const c1 = weight * C[4 * r + 1]!;
    const c2 = weight * C[4 * r + 2]!;
    for (let i = 0; i < width; i++)
      stress[r * order + i] = c0 * strain[i]! + c1 * strain[width + i]! + c2 * strain[2 * width + i]!;
  }
  for (let i = 0; i < width; i++) {
    const row = start + i * order;
    const e0 = strain[i]!;
    const e1 = strain[width + i]!;
    const e2 = strain[2 * width + i]!;
    for (let j = 0; j <= i; j++)
      out[row + j]! += e0 * stress[j]! + e1 * stress[order + j]! + e2 * stress[2 * order + j]!;
    out[start + width * order + i]! += weight * (C[3]! * e0 + C[7]! * e1 + C[11]! * e2);
    out[start + (width + 1) * order + i]! -= weight * (thermal[0]! * e0 + thermal[1]! * e1 + thermal[2]! * e2);
  }
  out[start + width * order + width]! += weight * C[15]!;
  out[start + (width + 1) * order + width]! -= weight * thermal[3]!;
}

/**
 * Stress in material axes `(s_t, s_n, s_tn)` at (a, b) of element `e`, as rows of `elementOrder` entries over its unknowns.
 * Interpolated from the 2 x 2 Gauss points, where the stress of quadratic elements is most accurate (Barlow, Int. J. Numer.
 * Meth. Eng. 10 (1976) 243-251).
 */
export function stressRows(body: SectionBody, e: number, a: number, b: number): Float64Array {
  const { stiffness: C, thermal } = body.materials[body.mesh.material[e]!]!;
  const rows = new Float64Array(3 * elementOrder);
  for (const [pa] of gauss2)
    for (const [pb] of gauss2) {
      const share = ((1 + 3 * pa * a) * (1 + 3 * pb * b)) / 4;
      strainRows(body.mesh, e, pa, pb, strain);
      for (let r = 0; r < 3; r++) {
        for (let i = 0; i < 18; i++)
          rows[r * elementOrder + i]! +=
            share * (C[4 * r]! * strain[i]! + C[4 * r + 1]! * strain[18 + i]! + C[4 * r + 2]! * strain[36 + i]!);
        rows[r * elementOrder + 18]! += share * C[4 * r + 3]!;
        rows[r * elementOrder + 19]! -= share * thermal[r]!;
      }
    }
  return rows;
}

/** Unknowns of a triangle's matrix: u, v of its six nodes, then the uniform axial strain and the temperature change. */
export const triangleOrder = 14;

/** Shape functions of a six-node triangle at area coordinates `L2, L3`, and their slopes along these. */
function triangleShape(L2: number, L3: number): Shape {
  const L1 = 1 - L2 - L3;
  return {
    N: Float64Array.of(L1 * (2 * L1 - 1), L2 * (2 * L2 - 1), L3 * (2 * L3 - 1), 4 * L1 * L2, 4 * L2 * L3, 4 * L3 * L1),
    Da: Float64Array.of(1 - 4 * L1, 4 * L2 - 1, 0, 4 * (L1 - L2), 4 * L3, -4 * L3),
    Db: Float64Array.of(1 - 4 * L1, 0, 4 * L3 - 1, -4 * L2, 4 * L2, 4 * (L1 - L3)),
  };
}

/** Six points that integrate polynomials of degree 4 exactly (Dunavant, Int. J. Numer. Meth. Engng 21 (1985) 1129-1148); weights of the reference triangle. */
const trianglePoints = (
  [
    [0.223381589678011, 0.445948490915965],
    [0.109951743655322, 0.091576213509771],
  ] as const
).flatMap(([weight, a]) =>
  (
    [
      [a, a],
      [1 - 2 * a, a],
      [a, 1 - 2 * a],
    ] as const
  ).map(([L2, L3]) => [triangleShape(L2, L3), weight / 2] as const),
);

const middleOfTriangle = [1 / 3, 1 / 3] as const;

const trianglesOf = ({ mesh }: SectionBody): SectionTriangles => mesh.triangles!;

/** The first triangle that is turned inside out, -1 where none is: its sides bend too much for its size. */
export function turnedTriangle(body: SectionBody): number {
  const { elements, axes } = trianglesOf(body);
  return axes.findIndex((own, e) => {
    const nodes = elements.subarray(6 * e, 6 * e + 6);
    return !trianglePoints.every(([at]) => writeStrainRows(body.mesh, nodes, at, own, strain) > 0);
  });
}

/** As `addElementStiffness` of triangle `e`, of order `triangleOrder`. */
export function addTriangleStiffness(body: SectionBody, e: number, out: Float64Array, start: number): void {
  const { elements, axes, material } = trianglesOf(body);
  const nodes = elements.subarray(6 * e, 6 * e + 6);
  for (const [at, weight] of trianglePoints) {
    const area = writeStrainRows(body.mesh, nodes, at, axes[e]!, strain);
    if (!(area > 0)) throw new Error(`triangle ${e} is turned inside out`);
    addPoint(body.materials[material[e]!]!, 6, area * weight, out, start);
  }
}

/** Stress in material axes `(s_t, s_n, s_tn)` in triangle `e` at area coordinates `L2, L3` (left out: its middle), as rows of `triangleOrder` entries over its unknowns, and that place. */
export function triangleStress(
  body: SectionBody,
  e: number,
  [L2, L3]: readonly [number, number] = middleOfTriangle,
): { readonly rows: Float64Array; readonly x: number; readonly y: number } {
  const { elements, axes, material } = trianglesOf(body);
  const nodes = elements.subarray(6 * e, 6 * e + 6);
  const { stiffness: C, thermal } = body.materials[material[e]!]!;
  const at = triangleShape(L2, L3);
  writeStrainRows(body.mesh, nodes, at, axes[e]!, strain);
  const rows = new Float64Array(3 * triangleOrder);
  for (let r = 0; r < 3; r++) {
    for (let i = 0; i < 12; i++)
      rows[r * triangleOrder + i] =
        C[4 * r]! * strain[i]! + C[4 * r + 1]! * strain[12 + i]! + C[4 * r + 2]! * strain[24 + i]!;
    rows[r * triangleOrder + 12] = C[4 * r + 3]!;
    rows[r * triangleOrder + 13] = -thermal[r]!;
  }
  const sum = (values: Float64Array) => nodes.reduce((total, node, i) => total + at.N[i]! * values[node]!, 0);
  return { rows, x: sum(body.mesh.x), y: sum(body.mesh.y) };
}

/** The place of (a, b) of element `e`. */
export function placeIn(mesh: SectionMesh, e: number, a: number, b: number): readonly [number, number] {
  const { N } = shape(a, b);
  let x = 0;
  let y = 0;
  for (let i = 0; i < 9; i++) {
    x += N[i]! * mesh.x[mesh.elements[9 * e + i]!]!;
    y += N[i]! * mesh.y[mesh.elements[9 * e + i]!]!;
  }
  return [x, y];
}
