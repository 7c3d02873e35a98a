import { closeOutline, type OpenOutline } from './close-outline.js';
import { type CurvaturePath, createCurvaturePath, integralInside, integralTo } from './curvature-path.js';
import { type CurvatureForm, curvatureSplines, type NodeSplines } from './curvature-splines.js';
import { type NodeRates, reflectNodeRates } from './node-rates.js';
import type { CurveNodes } from './nodes.js';
import { reflect } from './placement.js';

/**
 * Outlines by their curvature: a quadratic spline over the arc length, `kappa = sum c_i B_i`, whose B-splines are positive and sum to 1, so
 * that `|c_i| <= 1/radius` bounds the curvature everywhere. The tangent's angle is its integral, a cubic of each piece; the outline is the
 * integral of `e^(i angle)`, by Gauss's rule piece by piece: it does not depend on the nodes.
 *
 * Values: mirror `y, length, c...`, y of the base's middle, where the outline runs to the right; free `x, y, turn, length, c...`, of the point where
 * it begins, turn in degrees. Length is that of the whole outline, mm; c in 1/mm. Outlines of arbitrary values do not close: `close` them.
 */
export interface CurvatureOutline extends OpenOutline {
  readonly form: CurvatureForm;
  readonly coefficients: number;
  place(values: ArrayLike<number>, nodes: CurveNodes): void;
  /** Writes the rates of all nodes for every value, as many rows as there are values. */
  rates(values: ArrayLike<number>, nodes: CurveNodes, out: NodeRates): void;
  /** Writes the B-splines of every coefficient at a share of the (half) outline's length, and their integrals up to there. */
  basis(share: number, values: Float64Array, integrals: Float64Array): void;
  /** Closes an outline by the smallest change of coefficients that keeps them within `bound` in size; false where it cannot. */
  close(values: Float64Array, bound: number): boolean;
}

/** The outlines of one form of curvature: nodes and rates of any of them, and its integrals, from its coefficients. */
export function curvatureOutline(form: CurvatureForm): CurvatureOutline {
  const { mirror } = form;
  const splines = curvatureSplines(form);
  const path = createCurvaturePath(form, splines);
  const n = splines.count;
  const lengthAt = mirror ? 1 : 3;
  const values = lengthAt + 1 + n;
  const half = mirror ? 0.5 : 1;

  const outline: CurvatureOutline = {
    form,
    coefficients: n,
    lengthAt,
    closures: mirror ? 2 : 3,
    basis: splines.basis,
    place(given, nodes) {
      const table = splines.atNodes(nodes.count);
      path.take(given);
      const length = half * given[lengthAt]!;
      const fromX = mirror ? 0 : given[0]!;
      const fromY = mirror ? given[0]! : given[1]!;
      const { x, y, dx, dy, ddx, ddy } = nodes;
      for (let j = 0; j < table.piece.length; j++) {
        const here = path.angleAt(table, j);
        const cos = Math.cos(here);
        const sin = Math.sin(here);
        const speed = length * table.slope[j]!;
        const change = length * table.bend[j]!;
        const turning = path.curvatureAt(table, j) * speed * speed;
        x[j] = fromX + length * integralTo(table, j, path.x);
        y[j] = fromY + length * integralTo(table, j, path.y);
        dx[j] = speed * cos;
        dy[j] = speed * sin;
        ddx[j] = change * cos - turning * sin;
        ddy[j] = change * sin + turning * cos;
      }
      if (mirror) reflect(nodes);
    },
    rates(given, { count }, out) {
      const nodes = splines.atNodes(count);
      const rows = nodes.piece.length;
      path.take(given);
      const buffer = () => new Float64Array(rows);
      const hand = {
        path,
        nodes,
        half,
        length: half * given[lengthAt]!,
        angles: buffer(),
        cos: buffer(),
        sin: buffer(),
        insideX: buffer(),
        insideY: buffer(),
      };
      for (let j = 0; j < rows; j++) {
        hand.angles[j] = path.angleAt(nodes, j);
        hand.cos[j] = Math.cos(hand.angles[j]!);
        hand.sin[j] = Math.sin(hand.angles[j]!);
        hand.insideX[j] = integralInside(nodes, j, path.x);
        hand.insideY[j] = integralInside(nodes, j, path.y);
      }
      for (const rate of [out.x, out.y, out.dx, out.dy]) rate.fill(0);
      if (mirror) out.y.fill(1, 0, rows);
      else {
        out.x.fill(1, 0, count);
        out.y.fill(1, count, 2 * count);
        writeTurn(hand, 2 * count, out);
      }
      for (let k = -1; k < n; k++) writeRow(hand, k, (lengthAt + 1 + k) * count, out);
      if (mirror) reflectNodeRates(out, values, count);
    },
    closure(given, lacking, rates) {
      path.take(given);
      const length = half * given[lengthAt]!;
      const { angle, turned, turnedX, turnedY } = path;
      const [endX, endY] = [path.x.upTo[n]!, path.y.upTo[n]!];
      rates.fill(0);
      lacking[0] = angle[n]! - angle[0]! - (mirror ? Math.PI : 2 * Math.PI);
      lacking[1] = length * endX;
      if (!mirror) {
        lacking[2] = length * endY;
        rates[values + 2] = (-lacking[2] * Math.PI) / 180;
        rates[2 * values + 2] = (lacking[1] * Math.PI) / 180;
      }
      for (let k = -1; k < n; k++) {
        path.turnBy(k);
        const at = lengthAt + 1 + k;
        const scale = k < 0 ? half : length * length;
        rates[at] = k < 0 ? (half * turned[n]!) / length : length * turned[n]!;
        rates[values + at] = (k < 0 ? half * endX : 0) - scale * turnedY.upTo[n]!;
        if (!mirror) rates[2 * values + at] = (k < 0 ? half * endY : 0) + scale * turnedX.upTo[n]!;
      }
    },
    close: (given, bound) => closeOutline(outline, given, bound),
  };
  return outline;
}

/** A path that has taken an outline, and its nodes' angles. */
interface Hand {
  readonly path: CurvaturePath;
  readonly nodes: NodeSplines;
  /** Share of the outline that is written, and its length. */
  readonly half: number;
  readonly length: number;
  readonly angles: Float64Array;
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  /** The tangent's integrals from the start of each node's piece up to the node. */
  readonly insideX: Float64Array;
  readonly insideY: Float64Array;
}

/** Writes the rates of a turn, in degrees, about the point where the outline begins, from place `from` on. */
function writeTurn({ path, nodes, length, cos, sin }: Hand, from: number, out: NodeRates): void {
  for (let j = 0, at = from; j < cos.length; j++, at++) {
    const speed = (length * nodes.slope[j]! * Math.PI) / 180;
    out.x[at] = ((-length * Math.PI) / 180) * integralTo(nodes, j, path.y);
    out.y[at] = ((length * Math.PI) / 180) * integralTo(nodes, j, path.x);
    out.dx[at] = -speed * sin[j]!;
    out.dy[at] = speed * cos[j]!;
  }
}

/** Writes the rates of a row of the path from place `from` on. */
function writeRow(
  { path, nodes, half, length, angles, cos, sin, insideX, insideY }: Hand,
  row: number,
  from: number,
  out: NodeRates,
): void {
  path.turnBy(row);
  // Of the length: the tangent's own integral beside the turning.
  const stretch = row < 0 ? half : 0;
  const scale = row < 0 ? half : length * length;
  for (let j = 0, at = from; j < angles.length; j++, at++) {
    const piece = nodes.piece[j]!;
    const slope = nodes.slope[j]!;
    let turned = path.turned[piece]!;
    let [turnedX, turnedY] = [path.turnedX.upTo[piece]!, path.turnedY.upTo[piece]!];
    if (path.evenly[piece] === 1) {
      turnedX += turned * insideX[j]!;
      turnedY += turned * insideY[j]!;
    } else {
      turned = row < 0 ? angles[j]! - path.angle[0]! : path.turnedAt(nodes, j, row);
      turnedX += integralInside(nodes, j, path.turnedX);
      turnedY += integralInside(nodes, j, path.turnedY);
    }
    out.x[at] = -scale * turnedY;
    out.y[at] = scale * turnedX;
    if (row < 0) {
      out.x[at]! += stretch * (path.x.upTo[piece]! + insideX[j]!);
      out.y[at]! += stretch * (path.y.upTo[piece]! + insideY[j]!);
    }
    out.dx[at] = slope * (stretch * cos[j]! - scale * turned * sin[j]!);
    out.dy[at] = slope * (stretch * sin[j]! + scale * turned * cos[j]!);
  }
}
