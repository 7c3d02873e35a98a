import { type PointStress, stressOf } from './cubic-assemble.js';
import type { CubicMesh } from './cubic-mesh.js';
import { createShape, evaluateShape, nodeCoordinates } from './cubic-triangle.js';

/** Stress in the axes of a material or an interface, MPa: normal, tangential, shear. */
export type LocalStress = readonly [n: number, t: number, nt: number];

/** Components of a stress along the axis at `angle` (radians from x), across it (turned by -90 degrees), and their shear. */
export function localStress({ xx, yy, xy }: PointStress, angle: number): LocalStress {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const n = xx * c * c + yy * s * s + 2 * xy * c * s;
  return [n, xx + yy - n, (xx - yy) * c * s + xy * (s * s - c * c)];
}

/**
 * Stress at the nodes of all triangles that `wanted` picks by zone number, the mean over those triangles; by node number.
 */
export function nodalStress(
  mesh: CubicMesh,
  u: Float64Array,
  deltaT: number,
  wanted: (zone: number) => boolean,
): Map<number, PointStress> {
  const stress = stressOf(mesh, u, deltaT);
  const sums = new Map<number, PointStress & { count: number }>();
  mesh.zoneOf.forEach((zone, triangle) => {
    if (!wanted(zone)) return;
    for (let k = 0; k < 10; k++) {
      const { x, y, xx, yy, xy, zz } = stress(triangle, nodeCoordinates[3 * k + 1]!, nodeCoordinates[3 * k + 2]!);
      const node = mesh.triangles[10 * triangle + k]!;
      const sum = sums.get(node) ?? { x, y, xx: 0, yy: 0, xy: 0, zz: 0, count: 0 };
      sum.xx += xx;
      sum.yy += yy;
      sum.xy += xy;
      sum.zz += zz;
      sum.count++;
      sums.set(node, sum);
    }
  });
  for (const sum of sums.values()) {
    sum.xx /= sum.count;
    sum.yy /= sum.count;
    sum.xy /= sum.count;
    sum.zz /= sum.count;
  }
  return sums;
}

/** Where a point lies in a mesh. */
export interface MeshPlace {
  readonly triangle: number;
  readonly L2: number;
  readonly L3: number;
}

/** Finds the triangle that holds a point, or comes closest to it within the slack, among those of the zones that `wanted` picks by number. */
export type Locator = (x: number, y: number, wanted: (zone: number) => boolean) => MeshPlace | undefined;

/** A side of a sliver may be straight where the body's is curved: points may lie outside by so much, in area coordinates. */
const slack = 0.02;

/**
 * Makes the locator of a mesh: boxes round the triangles are compared first, then the curved map is inverted by Newton's method.
 */
export function createLocator(mesh: CubicMesh): Locator {
  const shape = createShape();
  const boxes = new Float64Array(4 * mesh.zoneOf.length);
  const ofZone = mesh.zones.map((): number[] => []);
  mesh.zoneOf.forEach((zone, triangle) => {
    writeBox(mesh, triangle, boxes);
    ofZone[zone]!.push(triangle);
  });

  /** How far a point lies outside a triangle, and where it is in it. */
  const inverted = (triangle: number, x: number, y: number): { outside: number; place: MeshPlace } => {
    const nodes = mesh.triangles.subarray(10 * triangle, 10 * triangle + 10);
    let L2 = 1 / 3;
    let L3 = 1 / 3;
    for (let newton = 0; newton < 12; newton++) {
      evaluateShape(L2, L3, shape);
      let [px, py, x2, y2, x3, y3] = [-x, -y, 0, 0, 0, 0];
      for (let i = 0; i < 10; i++) {
        const X = mesh.x[nodes[i]!]!;
        const Y = mesh.y[nodes[i]!]!;
        px += shape.N[i]! * X;
        py += shape.N[i]! * Y;
        x2 += shape.dN2[i]! * X;
        y2 += shape.dN2[i]! * Y;
        x3 += shape.dN3[i]! * X;
        y3 += shape.dN3[i]! * Y;
      }
      const jacobian = x2 * y3 - x3 * y2;
      const step2 = (px * y3 - py * x3) / jacobian;
      const step3 = (py * x2 - px * y2) / jacobian;
      L2 -= step2;
      L3 -= step3;
      if (!(Math.abs(L2) < 3 && Math.abs(L3) < 3)) break;
      if (Math.abs(step2) + Math.abs(step3) < 1e-12) break;
    }
    return { outside: Math.max(-L2, -L3, L2 + L3 - 1), place: { triangle, L2, L3 } };
  };

  return (x, y, wanted) => {
    let best: MeshPlace | undefined;
    let least = slack;
    for (let zone = 0; zone < ofZone.length; zone++) {
      if (!wanted(zone)) continue;
      for (const triangle of ofZone[zone]!) {
        const at = 4 * triangle;
        if (!(x > boxes[at]! && x < boxes[at + 1]! && y > boxes[at + 2]! && y < boxes[at + 3]!)) continue;
        const { outside, place } = inverted(triangle, x, y);
        if (!(outside < least)) continue;
        least = outside;
        best = place;
        if (outside <= 0) return best;
      }
    }
    return best;
  };
}

/** Writes the box round a triangle's nodes, a tenth larger on every side: left, right, low, high. */
function writeBox(mesh: CubicMesh, triangle: number, boxes: Float64Array): void {
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const node of mesh.triangles.subarray(10 * triangle, 10 * triangle + 10)) {
    left = Math.min(left, mesh.x[node]!);
    right = Math.max(right, mesh.x[node]!);
    low = Math.min(low, mesh.y[node]!);
    high = Math.max(high, mesh.y[node]!);
  }
  const room = 0.1 * Math.max(right - left, high - low);
  boxes.set([left - room, right + room, low - room, high + room], 4 * triangle);
}
