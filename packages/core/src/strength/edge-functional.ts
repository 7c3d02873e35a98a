import { trigonometricRule } from '../linear/index.js';
import type { CurveNodes } from '../outline/index.js';
import type { SolvedEdge } from '../stress/index.js';

/** What something is of an edge, linear in phi, in the nodes' velocities w and in those w' of their derivatives: `Re(g v)`, `g` as `(re, im)` point by point. */
export interface EdgeFunctional {
  readonly phi: Float64Array;
  readonly moved: Float64Array;
  readonly turned: Float64Array;
}

export function createEdgeFunctional(count: number): EdgeFunctional {
  const values = () => new Float64Array(2 * count);
  return { phi: values(), moved: values(), turned: values() };
}

/** Points of an edge with the values of phi there, one array per load. */
export interface EdgePoints {
  readonly nodes: Pick<CurveNodes, 'count' | 'x' | 'y' | 'dx' | 'dy'>;
  readonly phi: readonly Float64Array[];
}

/** Folds a functional of all nodes to the right half of a mirror-symmetric edge: the image of a node carries `-conj phi`, `-conj w` and `conj w'`. */
export function foldNodes({ phi, moved, turned }: EdgeFunctional): void {
  for (let j = 0, m = phi.length - 2; j < m; j += 2, m -= 2) foldPair(phi, moved, turned, j, m);
}

function foldPair(phi: Float64Array, moved: Float64Array, turned: Float64Array, j: number, m: number): void {
  phi[j]! -= phi[m]!;
  phi[j + 1]! += phi[m + 1]!;
  moved[j]! -= moved[m]!;
  moved[j + 1]! += moved[m + 1]!;
  turned[j]! += turned[m]!;
  turned[j + 1]! -= turned[m + 1]!;
}

/** Points half way between the nodes of an edge of one count, by trigonometric interpolation: with them, sums over the nodes see twice as close. */
export interface HalfwayPoints extends EdgePoints {
  take(edge: Pick<SolvedEdge, 'nodes'>, phi: readonly Float64Array[]): void;
  /** Adds what a functional of these points is of the nodes; of the right half's, where `mirror`: then `from` is folded in place. */
  spread(from: EdgeFunctional, mirror: boolean, into: EdgeFunctional): void;
}

export function createHalfwayPoints(count: number, loads: number): HalfwayPoints {
  const weights = new Float64Array(count);
  trigonometricRule(count).weightsAt(0.5, weights);
  const values = (size: number) => new Float64Array(size);
  const nodes = { count, x: values(count), y: values(count), dx: values(count), dy: values(count) };
  const phi = Array.from({ length: loads }, () => values(2 * count));
  const interpolate = (from: Float64Array, out: Float64Array, stride: 1 | 2, at = 0): void => {
    for (let k = 0; k < count; k++) {
      let sum = 0;
      for (let m = 0, j = k; m < count; m++, j = j + 1 === count ? 0 : j + 1)
        sum += weights[m]! * from[stride * j + at]!;
      out[stride * k + at] = sum;
    }
  };
  /** Of an interpolation between points `first` to `last`, the shares of the nodes, from those of which `even` alternates sign in the image. */
  const add = (from: EdgeFunctional, k: number, mirror: boolean, into: EdgeFunctional): void => {
    const rows = mirror ? count / 2 : count;
    const [phiX, phiY] = [from.phi[2 * k]!, from.phi[2 * k + 1]!];
    const [movedX, movedY] = [from.moved[2 * k]!, from.moved[2 * k + 1]!];
    const [turnedX, turnedY] = [from.turned[2 * k]!, from.turned[2 * k + 1]!];
    for (let j = 0; j < rows; j++) {
      const own = weights[j >= k ? j - k : j - k + count]!;
      const image = mirror ? weights[(2 * count - 1 - j - k) % count]! : 0;
      const odd = own - image;
      const even = own + image;
      into.phi[2 * j]! += odd * phiX;
      into.phi[2 * j + 1]! += even * phiY;
      into.moved[2 * j]! += odd * movedX;
      into.moved[2 * j + 1]! += even * movedY;
      into.turned[2 * j]! += even * turnedX;
      into.turned[2 * j + 1]! += odd * turnedY;
    }
  };

  return {
    nodes,
    phi,
    take(edge, given) {
      for (const of of ['x', 'y', 'dx', 'dy'] as const) interpolate(edge.nodes[of], nodes[of], 1);
      for (let l = 0; l < loads; l++) for (const at of [0, 1]) interpolate(given[l]!, phi[l]!, 2, at);
    },
    spread(from, mirror, into) {
      // Point k lies after node k: its image after node count - 2 - k; the last one, and that half way round, lie on the axis.
      const half = count / 2;
      if (mirror)
        for (let k = 0; k < half - 1; k++) foldPair(from.phi, from.moved, from.turned, 2 * k, 2 * (count - 2 - k));
      for (let k = 0; k < (mirror ? half : count); k++) add(from, k, mirror, into);
      if (mirror) add(from, count - 1, true, into);
    },
  };
}
