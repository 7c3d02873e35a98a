import type { CurveNodes } from './nodes.js';

/** Rates of an outline's nodes for several parameters, one row of `count` to a parameter: of positions and of first derivatives. mm per unit of the parameter */
export interface NodeRates {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly dx: Float64Array;
  readonly dy: Float64Array;
}

/** The same with second derivatives, for the rates of curvature. */
export interface CurveRates extends NodeRates {
  readonly ddx: Float64Array;
  readonly ddy: Float64Array;
}

/** Buffers for `parameters` rows of outlines of `count` nodes. */
export function createCurveRates(parameters: number, count: number): CurveRates {
  const buffer = () => new Float64Array(parameters * count);
  return { x: buffer(), y: buffer(), dx: buffer(), dy: buffer(), ddx: buffer(), ddy: buffer() };
}

/** Completes rows of a mirror-symmetric outline whose right halves have been written, as `reflect` does it for nodes. */
export function reflectRates(rates: CurveRates, rows: number, count: number): void {
  reflectNodeRates(rates, rows, count);
  reflectRows(rates.ddx, rates.ddy, -1, rows, count);
}

/** The same without second derivatives. */
export function reflectNodeRates(rates: NodeRates, rows: number, count: number): void {
  reflectRows(rates.x, rates.y, -1, rows, count);
  reflectRows(rates.dx, rates.dy, 1, rows, count);
}

/** `sign`: of x at the image; y has the other one. */
function reflectRows(x: Float64Array, y: Float64Array, sign: 1 | -1, rows: number, count: number): void {
  for (let row = 0; row < rows; row++)
    for (let j = row * count, k = j + count - 1; j < k; j++, k--) {
      x[k] = sign * x[j]!;
      y[k] = -sign * y[j]!;
    }
}

/** Writes rows of the mirror image of an outline, whose node `count - 1 - j` is the image of node `j`. */
export function writeMirroredRates({ x, y, dx, dy }: NodeRates, rows: number, count: number, out: NodeRates): void {
  for (let row = 0; row < rows; row++)
    for (let j = row * count, k = j + count - 1; k >= row * count; j++, k--) {
      out.x[k] = -x[j]!;
      out.y[k] = y[j]!;
      out.dx[k] = dx[j]!;
      out.dy[k] = -dy[j]!;
    }
}

/** Turns rows `from` to `to` as `turnAndMove` turns the nodes. */
export function turnRates(rates: CurveRates, from: number, to: number, count: number, turn: number): void {
  const c = Math.cos((turn * Math.PI) / 180);
  const s = Math.sin((turn * Math.PI) / 180);
  for (let i = from * count; i < to * count; i++) {
    turnVector(rates.x, rates.y, i, c, s);
    turnVector(rates.dx, rates.dy, i, c, s);
    turnVector(rates.ddx, rates.ddy, i, c, s);
  }
}

function turnVector(x: Float64Array, y: Float64Array, i: number, c: number, s: number): void {
  const px = x[i]!;
  x[i] = c * px - s * y[i]!;
  y[i] = s * px + c * y[i]!;
}

/** Writes the row of a shift by (x, y). */
export function writeShift(rates: CurveRates, row: number, count: number, x: number, y: number): void {
  const [from, to] = [row * count, (row + 1) * count];
  rates.x.fill(x, from, to);
  rates.y.fill(y, from, to);
  rates.dx.fill(0, from, to);
  rates.dy.fill(0, from, to);
  rates.ddx.fill(0, from, to);
  rates.ddy.fill(0, from, to);
}

/** Writes the row of a turn, in degrees, of the outline at `nodes` about (middleX, middleY). */
export function writeTurn(rates: CurveRates, row: number, nodes: CurveNodes, middleX: number, middleY: number): void {
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  const radian = Math.PI / 180;
  for (let j = 0, at = row * count; j < count; j++, at++) {
    rates.x[at] = -radian * (y[j]! - middleY);
    rates.y[at] = radian * (x[j]! - middleX);
    rates.dx[at] = -radian * dy[j]!;
    rates.dy[at] = radian * dx[j]!;
    rates.ddx[at] = -radian * ddy[j]!;
    rates.ddy[at] = radian * ddx[j]!;
  }
}

/** Writes the row of a stretch of the outline at `nodes` about `middle` by the matrix ((xx, xy), (yx, yy)). */
export function writeStretch(
  rates: CurveRates,
  row: number,
  nodes: CurveNodes,
  [middleX, middleY]: readonly [x: number, y: number],
  [xx, xy, yx, yy]: readonly [number, number, number, number],
): void {
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  for (let j = 0, at = row * count; j < count; j++, at++) {
    const [px, py] = [x[j]! - middleX, y[j]! - middleY];
    rates.x[at] = xx * px + xy * py;
    rates.y[at] = yx * px + yy * py;
    rates.dx[at] = xx * dx[j]! + xy * dy[j]!;
    rates.dy[at] = yx * dx[j]! + yy * dy[j]!;
    rates.ddx[at] = xx * ddx[j]! + xy * ddy[j]!;
    rates.ddy[at] = yx * ddx[j]! + yy * ddy[j]!;
  }
}
