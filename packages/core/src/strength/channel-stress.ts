import { halfSize } from '../edge/index.js';
import type { ReducedModel } from '../host/index.js';
import { multiply } from '../linear/index.js';
import type { CurveNodes } from '../outline/index.js';
import type { ActingLoad, SolvedEdge } from '../stress/index.js';
import { createFillerField, type FillerField, type PlaneStress } from './filler-field.js';

/** Stress in the filler around a solved channel, of all loads. */
export interface ChannelStress {
  /** Takes one solved outline; it must stay as it is until the last `at`. */
  take(edge: SolvedEdge): void;
  /** Stresses (MPa) of every load at a place (mm) off the edge, overwritten by the next call. The first call for an outline is the costly one. */
  at(x: number, y: number): readonly PlaneStress[];
  /** Distance of a place from the edge, between nodes too, mm. */
  distance(x: number, y: number): number;
}

export function createChannelStress(model: ReducedModel, loads: readonly ActingLoad[]): ChannelStress {
  const { basis } = model;
  const half = halfSize(basis.degree);
  const byCount = new Map<number, FillerField>();
  const coefficients = loads.map(() => new Float64Array(2 * half));
  const answer = new Float64Array(2 * half);
  const found: PlaneStress[] = loads.map(() => ({ xx: 0, yy: 0, xy: 0 }));
  let made = false;
  let field: FillerField;
  let edge: SolvedEdge;

  const make = (): void => {
    const { nodes, mirror, inner, slopes } = edge;
    for (let l = 0; l < loads.length; l++) {
      const { undisturbed, response } = loads[l]!;
      const whole = coefficients[l]!;
      whole.set(undisturbed);
      if (response === undefined) continue;
      const moments = edge.moments[l]!;
      multiply(response.symmetric, half, half, moments, answer);
      if (!mirror) multiply(response.antisymmetric, half, half, moments.subarray(half), answer.subarray(half));
      for (let i = 0; i < (mirror ? half : 2 * half); i++) whole[i]! += answer[i]!;
    }
    let known = byCount.get(nodes.count);
    if (known === undefined) {
      known = createFillerField(basis, nodes.count, loads.length);
      byCount.set(nodes.count, known);
    }
    field = known;
    field.take(nodes, slopes, coefficients, inner);
    made = true;
  };

  return {
    take(solved) {
      edge = solved;
      made = false;
    },
    at(x, y) {
      if (!made) make();
      field.stressAt(x, y, found);
      for (let l = 0; l < loads.length; l++) {
        const { offset } = loads[l]!;
        found[l]!.xx += offset;
        found[l]!.yy += offset;
      }
      return found;
    },
    distance: (x, y) => distanceFrom(edge.nodes, x, y),
  };
}

/** Distance from the outline: from the nearest node on, along its Taylor polynomial of second degree. */
function distanceFrom({ count, x, y, dx, dy, ddx, ddy }: CurveNodes, px: number, py: number): number {
  let at = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < count; j++) {
    const squared = (x[j]! - px) ** 2 + (y[j]! - py) ** 2;
    if (squared >= least) continue;
    least = squared;
    at = j;
  }
  // Newton's steps to where the place is seen along the normal, at most half a spacing away.
  const half = Math.PI / count;
  let step = 0;
  let nearest = Math.sqrt(least);
  for (let k = 0; k < 3; k++) {
    const ex = x[at]! + step * (dx[at]! + (step / 2) * ddx[at]!) - px;
    const ey = y[at]! + step * (dy[at]! + (step / 2) * ddy[at]!) - py;
    nearest = Math.min(nearest, Math.hypot(ex, ey));
    const tx = dx[at]! + step * ddx[at]!;
    const ty = dy[at]! + step * ddy[at]!;
    const bend = tx * tx + ty * ty + ex * ddx[at]! + ey * ddy[at]!;
    if (!(bend > 0)) break;
    step = Math.min(half, Math.max(-half, step - (ex * tx + ey * ty) / bend));
  }
  return nearest;
}
