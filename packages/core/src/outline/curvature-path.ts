import { type CurvatureForm, type CurvatureSplines, type NodeSplines, points } from './curvature-splines.js';

/** An integral along the outline, in shares of its (half) length. */
interface Along {
  /** What is integrated, at Gauss's points. */
  readonly rate: Float64Array;
  /** The integral up to the pieces' starts and to the end. */
  readonly upTo: Float64Array;
}

/**
 * The outline in hand, by the angle of its tangent; then, by `turnBy`, what turns it: row `k` is that of coefficient `k`, the integral of its
 * B-splines; row -1 is that of the length, the angle itself.
 */
export interface CurvaturePath {
  /** At the pieces' starts and at the end: the angle, radians, and what turns it. */
  readonly angle: Float64Array;
  readonly turned: Float64Array;
  /** Of the tangent, and of what turns it times the tangent. */
  readonly x: Along;
  readonly y: Along;
  readonly turnedX: Along;
  readonly turnedY: Along;
  /** 1: `turned` does not change over the piece, and `turnedX` and `turnedY` are known up to its start alone. */
  readonly evenly: Uint8Array;
  take(values: ArrayLike<number>): void;
  turnBy(row: number): void;
  angleAt(nodes: NodeSplines, node: number): number;
  /** 1/mm */
  curvatureAt(nodes: NodeSplines, node: number): number;
  /** What row `row`, not -1, turns a node by. */
  turnedAt(nodes: NodeSplines, node: number, row: number): number;
}

export function createCurvaturePath({ mirror }: CurvatureForm, splines: CurvatureSplines): CurvaturePath {
  const { count: n, owners, weights, integrals, whole } = splines;
  const along = (): Along => ({ rate: new Float64Array(n * points), upTo: new Float64Array(n + 1) });
  const [x, y, turnedX, turnedY] = [along(), along(), along(), along()];
  const angle = new Float64Array(n + 1);
  const turned = new Float64Array(n + 1);
  const angleInside = new Float64Array(n * points);
  /** Coefficients of each piece's three B-splines. */
  const local = new Float64Array(3 * n);
  const evenly = new Uint8Array(n);
  let length = 0;

  return {
    angle,
    turned,
    x,
    y,
    turnedX,
    turnedY,
    evenly,
    take(values) {
      const lengthAt = mirror ? 1 : 3;
      length = (mirror ? 0.5 : 1) * values[lengthAt]!;
      for (let i = 0; i < 3 * n; i++) local[i] = values[lengthAt + 1 + owners[i]!]!;
      angle[0] = mirror ? 0 : (values[2]! * Math.PI) / 180;
      for (let piece = 0; piece < n; piece++) {
        const before = angle[piece]!;
        let sumX = x.upTo[piece]!;
        let sumY = y.upTo[piece]!;
        const a = length * local[3 * piece]!;
        const b = length * local[3 * piece + 1]!;
        const c = length * local[3 * piece + 2]!;
        for (let g = piece * points; g < (piece + 1) * points; g++) {
          const here = before + a * integrals[3 * g]! + b * integrals[3 * g + 1]! + c * integrals[3 * g + 2]!;
          angleInside[g] = here;
          const cos = Math.cos(here);
          const sin = Math.sin(here);
          x.rate[g] = cos;
          y.rate[g] = sin;
          sumX += weights[g]! * cos;
          sumY += weights[g]! * sin;
        }
        const [wholeA, wholeB, wholeC] = whole[piece]!;
        angle[piece + 1] = before + (a * wholeA + b * wholeB + c * wholeC);
        x.upTo[piece + 1] = sumX;
        y.upTo[piece + 1] = sumY;
      }
    },
    turnBy(row) {
      for (let piece = 0; piece < n; piece++) {
        const before = turned[piece]!;
        let sumX = turnedX.upTo[piece]!;
        let sumY = turnedY.upTo[piece]!;
        const a = owners[3 * piece] === row ? 1 : 0;
        const b = owners[3 * piece + 1] === row ? 1 : 0;
        const c = owners[3 * piece + 2] === row ? 1 : 0;
        evenly[piece] = row < 0 || a + b + c > 0 ? 0 : 1;
        if (evenly[piece] === 1) {
          turned[piece + 1] = before;
          turnedX.upTo[piece + 1] = sumX + before * (x.upTo[piece + 1]! - x.upTo[piece]!);
          turnedY.upTo[piece + 1] = sumY + before * (y.upTo[piece + 1]! - y.upTo[piece]!);
          continue;
        }
        for (let g = piece * points; g < (piece + 1) * points; g++) {
          const here =
            row < 0
              ? angleInside[g]! - angle[0]!
              : before + a * integrals[3 * g]! + b * integrals[3 * g + 1]! + c * integrals[3 * g + 2]!;
          const alongX = here * x.rate[g]!;
          const alongY = here * y.rate[g]!;
          turnedX.rate[g] = alongX;
          turnedY.rate[g] = alongY;
          sumX += weights[g]! * alongX;
          sumY += weights[g]! * alongY;
        }
        const [wholeA, wholeB, wholeC] = whole[piece]!;
        turned[piece + 1] = row < 0 ? angle[piece + 1]! - angle[0]! : before + a * wholeA + b * wholeB + c * wholeC;
        turnedX.upTo[piece + 1] = sumX;
        turnedY.upTo[piece + 1] = sumY;
      }
    },
    angleAt({ piece, integrals: atNodes }, j) {
      let sum = 0;
      for (let a = 0, at = 3 * piece[j]!; a < 3; a++) sum += atNodes[3 * j + a]! * local[at + a]!;
      return angle[piece[j]!]! + length * sum;
    },
    curvatureAt({ piece, values }, j) {
      let curvature = 0;
      for (let a = 0, at = 3 * piece[j]!; a < 3; a++) curvature += values[3 * j + a]! * local[at + a]!;
      return curvature;
    },
    turnedAt({ piece, integrals: atNodes }, j, row) {
      let sum = turned[piece[j]!]!;
      for (let a = 0, at = 3 * piece[j]!; a < 3; a++) if (owners[at + a] === row) sum += atNodes[3 * j + a]!;
      return sum;
    },
  };
}

/** The integral up to node `j`. */
export function integralTo(nodes: NodeSplines, j: number, along: Along): number {
  return along.upTo[nodes.piece[j]!]! + integralInside(nodes, j, along);
}

/** The integral from the start of the node's piece up to node `j`. */
export function integralInside({ piece, upTo }: NodeSplines, j: number, along: Along): number {
  let sum = 0;
  for (let i = 0, g = piece[j]! * points, w = j * points; i < points; i++) sum += upTo[w + i]! * along.rate[g + i]!;
  return sum;
}
