import { gauss3, onUnitInterval } from '../../linear/index.js';
import type { SectionStiffness } from '../../material/index.js';
import type { CubicMesh } from './cubic-mesh.js';
import { evaluateSide } from './cubic-triangle.js';
import type { Solution } from './solution.js';

/** Hoop stress round a channel's edge, counter-clockwise; three samples a side. */
export interface EdgeHoop {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Arc length of each sample, mm, and of the whole edge. */
  readonly arc: Float64Array;
  readonly length: number;
  /** MPa */
  readonly hoop: Float64Array;
}

/** Peak tension of an edge, where it is, and the smallest hoop stress. MPa, mm. */
export interface EdgePeak {
  readonly peak: number;
  readonly at: readonly [x: number, y: number];
  readonly least: number;
}

/** At these places the slope of a cubic interpolant is superconvergent. */
const samples = onUnitInterval(gauss3);
const N = new Float64Array(4);
const dN = new Float64Array(4);

/** Sides of each edge that a mesh names 'channel': of an edge, every side begins where the next one ends. */
function edgesOf(mesh: CubicMesh): Int32Array[] {
  const sides = mesh.sides.get('channel');
  if (sides === undefined) throw new Error('the mesh has no channel');
  const edges: Int32Array[] = [];
  for (let from = 0, side = 4; side <= sides.length; side += 4) {
    if (side < sides.length && sides[side + 3] === sides[side - 4]) continue;
    edges.push(sides.subarray(from, side));
    from = side;
  }
  return edges;
}

/**
 * Hoop stress of every edge, in the order in which they were meshed, from its own stretch: with the traction on the edge known (`-pressure` normal, no shear) and the
 * axial strain uniform, the material law leaves only the tangential strain, which the edge nodes give alone.
 *
 * @param material around the edges, its tangent axis along x
 */
export function edgeHoops(mesh: CubicMesh, material: SectionStiffness, solution: Solution): EdgeHoop[] {
  return edgesOf(mesh).map((sides) => hoopOf(sides, mesh, material, solution));
}

/** Compliances in the plane of the section at a given axial strain, 1/MPa: of a material that is symmetric about its axes. */
function planeCompliances({ stiffness, thermal }: SectionStiffness) {
  const [tt, tn, , tz, , nn, , nz] = stiffness as unknown as [number, number, number, number, ...number[]];
  const [thermalT, thermalN] = thermal as unknown as [number, number];
  const determinant = tt * nn! - tn * tn;
  const [b11, b12, b22] = [nn! / determinant, -tn / determinant, tt / determinant];
  const b66 = 1 / stiffness[10]!;
  const freely = (byT: number, byN: number) => [b11 * byT + b12 * byN, b12 * byT + b22 * byN] as const;
  return {
    ...{ b11, b12, b22, b66 },
    /** Strain without stress, along the axes: of one unit of axial strain, and of one kelvin. */
    byStrainZ: freely(-tz, -nz!),
    byDeltaT: freely(thermalT, thermalN),
  };
}

function hoopOf(
  sides: Int32Array,
  mesh: CubicMesh,
  material: SectionStiffness,
  { u, deltaT, pressure }: Solution,
): EdgeHoop {
  const count = (3 * sides.length) / 4;
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const arc = new Float64Array(count);
  const hoop = new Float64Array(count);
  const { b11, b12, b22, b66, byStrainZ, byDeltaT } = planeCompliances(material);
  const strainZ = u[2 * mesh.x.length]!;
  const freeT = byStrainZ[0] * strainZ + byDeltaT[0] * deltaT;
  const freeN = byStrainZ[1] * strainZ + byDeltaT[1] * deltaT;
  let length = 0;
  for (let side = 0; 4 * side < sides.length; side++) {
    let travelled = 0;
    samples.forEach(([place, weight], q) => {
      // Sides run clockwise round the channel (body on the left); the samples run counter-clockwise.
      evaluateSide(1 - place, N, dN);
      const at = 3 * side + q;
      let dx = 0;
      let dy = 0;
      let du = 0;
      let dv = 0;
      for (let i = 0; i < 4; i++) {
        const node = sides[4 * side + i]!;
        x[at]! += N[i]! * mesh.x[node]!;
        y[at]! += N[i]! * mesh.y[node]!;
        dx += dN[i]! * mesh.x[node]!;
        dy += dN[i]! * mesh.y[node]!;
        du += dN[i]! * u[2 * node]!;
        dv += dN[i]! * u[2 * node + 1]!;
      }
      const squared = dx * dx + dy * dy;
      const strain = (dx * du + dy * dv) / squared;
      // Squares of the cosine and the sine between the edge and the material's axis: its compliances along the edge, and along it by a stress normal to it.
      const cc = (dx * dx) / squared;
      const ss = (dy * dy) / squared;
      const along = b11 * cc * cc + (2 * b12 + b66) * cc * ss + b22 * ss * ss;
      const across = (b11 + b22 - b66) * cc * ss + b12 * (cc * cc + ss * ss);
      hoop[at] = (strain - cc * freeT - ss * freeN + across * pressure) / along;
      const speed = Math.hypot(dx, dy);
      arc[at] = length + speed * place;
      travelled += weight * speed;
    });
    length += travelled;
  }
  return { x, y, arc, length, hoop };
}

/** Samples that one interpolating polynomial goes through. */
const stencil = 6;

/** Value of `values` at arc length `arc` between samples `k` and `k + 1`: the polynomial through the six nearest samples. */
function interpolate(edge: EdgeHoop, values: Float64Array, k: number, arc: number): number {
  const count = edge.arc.length;
  let sum = 0;
  for (let i = 0; i < stencil; i++) {
    const a = k + i - stencil / 2 + 1;
    let weight = 1;
    for (let j = 0; j < stencil; j++) {
      if (j === i) continue;
      const b = k + j - stencil / 2 + 1;
      weight *= (arc - unrolled(edge, b, count)) / (unrolled(edge, a, count) - unrolled(edge, b, count));
    }
    sum += weight * values[(a + count) % count]!;
  }
  return sum;
}

/** Arc length of sample `k`, counted on past either end. */
function unrolled(edge: EdgeHoop, k: number, count: number): number {
  if (k < 0) return edge.arc[k + count]! - edge.length;
  return k < count ? edge.arc[k]! : edge.arc[k - count]! + edge.length;
}

/** Hoop stress at arc lengths from 0 to `length`, that of the true edge; mm. */
export function hoopAt(edge: EdgeHoop, hoop: Float64Array, arcs: Float64Array, length: number): Float64Array {
  const count = hoop.length;
  const scale = edge.length / length;
  return arcs.map((trueArc) => {
    const arc = trueArc * scale;
    let k = Math.floor((arc / edge.length) * count);
    while (k > 0 && unrolled(edge, k, count) > arc) k--;
    while (k < count && unrolled(edge, k + 1, count) <= arc) k++;
    return k < count ? interpolate(edge, hoop, k, arc) : interpolate(edge, hoop, 0, arc - edge.length);
  });
}

/** Largest and smallest hoop stress between the samples of `hoop`, looked for at eight places per interval. */
export function edgePeak(edge: EdgeHoop, hoop: Float64Array): EdgePeak {
  const count = hoop.length;
  let peak = Number.NEGATIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  let at: readonly [number, number] = [Number.NaN, Number.NaN];
  for (let k = 0; k < count; k++) {
    const from = edge.arc[k]!;
    const span = unrolled(edge, k + 1, count) - from;
    for (let i = 0; i < 8; i++) {
      const arc = from + (span * i) / 8;
      const value = interpolate(edge, hoop, k, arc);
      least = Math.min(least, value);
      if (value > peak) {
        peak = value;
        at = [interpolate(edge, edge.x, k, arc), interpolate(edge, edge.y, k, arc)];
      }
    }
  }
  if (!Number.isFinite(peak)) throw new Error('hoop stress is not finite');
  return { peak, at, least };
}
