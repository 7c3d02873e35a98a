import { multiplyBatch, type Rows, rowsIn, trigonometricRule } from '../linear/index.js';
import { byCount, type CurveNodes } from '../outline/index.js';
import { type EdgeFold, imageSign, isHalf } from './fold.js';

/**
 * Trigonometric differentiation and interpolation half way to the next node as matrices on the solved nodes, `rows x rows`. On a mirror-symmetric edge values are odd or even from node to image:
 * Re phi and y are odd, Im phi and x even, and their derivatives along the parameter the other way round; of antisymmetric fields, Re phi is even and Im phi odd.
 */
interface ReadingTables {
  /** Derivative at the nodes and half way of odd and of even values. */
  readonly slopes: readonly [odd: Float64Array, even: Float64Array];
  readonly halfSlopes: readonly [odd: Float64Array, even: Float64Array];
  /** Value half way of odd and of even values. */
  readonly halves: readonly [odd: Float64Array, even: Float64Array];
}

const ofHalf = byCount((count) => readingTables(count, true));
const ofWhole = byCount((count) => readingTables(count, false));

function readingTables(count: number, mirror: boolean): ReadingTables {
  const rule = trigonometricRule(count);
  const half = new Float64Array(count);
  rule.weightsAt(0.5, half);
  // All three are circulant: their first rows say all.
  const impulse = new Float64Array(2 * count);
  impulse[0] = 1;
  const response = new Float64Array(2 * count);
  rule.differentiate(impulse, response);
  const slope = Float64Array.from({ length: count }, (_, j) => response[2 * ((count - j) % count)]!);
  const halfSlope = Float64Array.from({ length: count }, (_, j) =>
    half.reduce((sum, weight, k) => sum + weight * slope[(j - k + count) % count]!, 0),
  );
  const folded = (first: Float64Array): readonly [Float64Array, Float64Array] => {
    const rows = mirror ? count / 2 : count;
    const fold = (sign: number) =>
      Float64Array.from({ length: rows * rows }, (_, at) => {
        const [i, j] = [Math.floor(at / rows), at % rows];
        const image = mirror ? sign * first[(count - 1 - j - i + count) % count]! : 0;
        return first[(j - i + count) % count]! + image;
      });
    return [fold(-1), fold(1)];
  };
  return { slopes: folded(slope), halfSlopes: folded(halfSlope), halves: folded(half) };
}

/** Rates of the hoop stress from those of phi and of the edge; buffers for one node count and a number of motions. */
export interface HoopRates {
  /** Takes an edge in local coordinates and the velocities of its derivatives, mm, one row of `count` to a motion. */
  take(nodes: CurveNodes, dx: Float64Array, dy: Float64Array, motions: number, length: number): void;
  /** Writes the rates at the nodes and half way to the next, one row of solved nodes to a motion, from phi and its rates (one row to a motion). MPa */
  write(phi: Float64Array, rates: Rows, atNodes: Rows, halfway: Rows): void;
}

export function createHoopRates(count: number, fold: EdgeFold, most: number): HoopRates {
  const mirror = isHalf(fold);
  /** Which of the two tables Re phi and Im phi take. */
  const [ofRe, ofIm] = mirror && imageSign(fold) === -1 ? ([1, 0] as const) : ([0, 1] as const);
  const rows = mirror ? count / 2 : count;
  const order = 2 * rows;
  const { slopes, halfSlopes, halves } = (mirror ? ofHalf : ofWhole)(count);
  /** Quotients by t' of the derivatives of phi that a unit value gives, `rows x order`, at the nodes and half way. */
  const readers = [new Float64Array(rows * order), new Float64Array(rows * order)] as const;
  const tangents = [new Float64Array(order), new Float64Array(order)] as const;
  const quotients = [new Float64Array(order), new Float64Array(order)] as const;
  const speedX = new Float64Array(rows * most);
  const speedY = new Float64Array(rows * most);
  let velocityX: Float64Array;
  let velocityY: Float64Array;
  let motions = 0;
  let scale = 1;

  return {
    take(nodes, dx, dy, howMany, length) {
      velocityX = dx;
      velocityY = dy;
      motions = howMany;
      scale = 1 / length;
      const [odd, even] = halves;
      multiplyBatch({ values: even, rows, columns: rows }, rowsIn(dx, count), motions, rowsIn(speedX, rows));
      multiplyBatch({ values: odd, rows, columns: rows }, rowsIn(dy, count), motions, rowsIn(speedY, rows));
      const [here, between] = tangents;
      for (let i = 0; i < rows; i++) {
        let x = 0;
        let y = 0;
        for (let j = 0; j < rows; j++) {
          x += even[i * rows + j]! * nodes.dx[j]!;
          y += odd[i * rows + j]! * nodes.dy[j]!;
        }
        between[2 * i] = x;
        between[2 * i + 1] = y;
        here[2 * i] = nodes.dx[i]!;
        here[2 * i + 1] = nodes.dy[i]!;
      }
      for (let place = 0; place < 2; place++) {
        const tables = place === 0 ? slopes : halfSlopes;
        const [re, im] = [tables[ofRe], tables[ofIm]];
        const tangent = tangents[place]!;
        const reader = readers[place]!;
        for (let i = 0, at = 0; i < rows; i++) {
          const tx = tangent[2 * i]!;
          const ty = tangent[2 * i + 1]!;
          const factor = 4 / (tx * tx + ty * ty);
          for (let j = i * rows; j < (i + 1) * rows; j++) {
            reader[at++] = factor * tx * re[j]!;
            reader[at++] = factor * ty * im[j]!;
          }
        }
      }
    },
    write(phi, rates, atNodes, halfway) {
      for (let place = 0; place < 2; place++) {
        const tables = place === 0 ? slopes : halfSlopes;
        const [re, im] = [tables[ofRe], tables[ofIm]];
        const tangent = tangents[place]!;
        const quotient = quotients[place]!;
        for (let i = 0; i < rows; i++) {
          let px = 0;
          let py = 0;
          for (let j = 0, at = i * rows; j < rows; j++, at++) {
            px += re[at]! * phi[2 * j]!;
            py += im[at]! * phi[2 * j + 1]!;
          }
          const tx = tangent[2 * i]!;
          const ty = tangent[2 * i + 1]!;
          // 4 phi' / t'^2
          const squareX = tx * tx - ty * ty;
          const squareY = 2 * tx * ty;
          const factor = (4 * scale) / (squareX * squareX + squareY * squareY);
          quotient[2 * i] = factor * (px * squareX + py * squareY);
          quotient[2 * i + 1] = factor * (py * squareX - px * squareY);
        }
        const out = place === 0 ? atNodes : halfway;
        const reader = { values: readers[place]!, rows, columns: order };
        multiplyBatch(reader, rates, motions, out);
        const x = place === 0 ? velocityX : speedX;
        const y = place === 0 ? velocityY : speedY;
        const stride = place === 0 ? count : rows;
        for (let p = 0; p < motions; p++)
          for (let i = 0, from = p * stride, to = out.at + p * out.stride; i < rows; i++)
            out.values[to + i]! -= quotient[2 * i]! * x[from + i]! - quotient[2 * i + 1]! * y[from + i]!;
      }
    },
  };
}
