import { type NodeSpacing, spacedNodes } from './density.js';
import { cellRule } from './legendre.js';
import type { NodeRates } from './node-rates.js';
import type { CurveNodes } from './nodes.js';
import { reflect } from './placement.js';
import { perCount } from './table.js';

/** What is fixed of an outline whose curvature is free: where the pieces of its curvature meet, and how nodes run along it. */
export interface CurvatureForm {
  /** Left-right symmetric: the curvature is that of the right half, from base to top. */
  readonly mirror: boolean;
  /** Where pieces meet, in shares of the (half) outline's length, ascending, without 0 and 1. One coefficient to a piece. */
  readonly knots: Float64Array;
  readonly spacing: NodeSpacing;
}

/**
 * Outlines by their curvature: a quadratic spline over the arc length, `kappa = sum c_i B_i`, whose B-splines are positive and sum to 1, so
 * that `|c_i| <= 1/radius` bounds the curvature everywhere. The tangent's angle is its integral, a cubic of each piece; the outline is the
 * integral of `e^(i angle)`, by Gauss's rule piece by piece: it does not depend on the nodes.
 *
 * Values: mirror `y, length, c...`, y of the base's middle, where the outline runs to the right; free `x, y, turn, length, c...`, of the point where
 * it begins, turn in degrees. Length is that of the whole outline, mm; c in 1/mm. Outlines of arbitrary values do not close: `close` them.
 */
export interface CurvatureOutline {
  readonly form: CurvatureForm;
  readonly coefficients: number;
  /** Index of the length among the values; the coefficients follow. */
  readonly lengthAt: number;
  place(values: ArrayLike<number>, nodes: CurveNodes): void;
  /** Writes the rates of all nodes for every value, as many rows as there are values. */
  rates(values: ArrayLike<number>, nodes: CurveNodes, out: NodeRates): void;
  /** Writes the B-splines of every coefficient at a share of the (half) outline's length, and their integrals up to there. */
  basis(share: number, values: Float64Array, integrals: Float64Array): void;
  /** Conditions that a closed outline meets: two (mirror: turning, x at the top) or three (turning, both coordinates). */
  readonly closures: number;
  /** What is missing of each, in radians and mm, and its rate for every value, one row to a condition. */
  closure(values: ArrayLike<number>, missing: Float64Array, rates: Float64Array): void;
  /** Closes an outline by the smallest change of coefficients that keeps them within `bound` in size; false where it cannot. */
  close(values: Float64Array, bound: number): boolean;
}

const rule = cellRule(10);
const { count: points } = rule;

/** Where an outline is looked at: the piece, and there the integrals of the three B-splines that it has, from the piece's start. */
interface Place {
  readonly piece: number;
  readonly integrals: readonly [number, number, number];
  readonly values: readonly [number, number, number];
}

export function curvatureOutline(form: CurvatureForm): CurvatureOutline {
  const { mirror } = form;
  const n = form.knots.length + 1;
  const lengthAt = mirror ? 1 : 3;
  const values = lengthAt + 1 + n;
  const half = mirror ? 0.5 : 1;
  const ends = Float64Array.of(0, ...form.knots, 1);
  /** End number `k`, which may be beyond the outline: mirrored there, or one turn on. */
  const end = (k: number): number => {
    if (k < 0) return mirror ? -ends[-k]! : ends[n + k]! - 1;
    if (k > n) return mirror ? 2 - ends[2 * n - k]! : 1 + ends[k - n]!;
    return ends[k]!;
  };
  /** The coefficient that B-spline number `i` (-1 to n) has: those beyond the ends belong to their images. */
  const owner = (i: number): number => {
    if (i < 0) return mirror ? 0 : n - 1;
    if (i >= n) return mirror ? n - 1 : 0;
    return i;
  };
  const owners = Int32Array.from({ length: 3 * n }, (_, k) => owner(Math.floor(k / 3) - 1 + (k % 3)));

  const placeAt = (piece: number, share: number): Place => {
    const before = end(piece) - end(piece - 1);
    const here = end(piece + 1) - end(piece);
    const after = end(piece + 2) - end(piece + 1);
    const x = share - end(piece);
    const falling = (here - x) ** 2 / ((before + here) * here);
    const rising = x ** 2 / ((here + after) * here);
    const fallen = (here ** 3 - (here - x) ** 3) / (3 * (before + here) * here);
    const risen = x ** 3 / (3 * (here + after) * here);
    return { piece, values: [falling, 1 - falling - rising, rising], integrals: [fallen, x - fallen - risen, risen] };
  };

  // Gauss's points of all pieces and, at the pieces' ends, whole integrals.
  const inside = Array.from({ length: n * points }, (_, g) => {
    const piece = Math.floor(g / points);
    return placeAt(piece, end(piece) + rule.points[g % points]! * (end(piece + 1) - end(piece)));
  });
  const whole = Array.from({ length: n }, (_, piece) => placeAt(piece, end(piece + 1)).integrals);
  const insideIntegrals = Float64Array.from(inside.flatMap(({ integrals }) => integrals));
  const weights = Float64Array.from(
    inside,
    ({ piece }, g) => rule.weights[g % points]! * (end(piece + 1) - end(piece)),
  );
  /** Integral of every coefficient's B-splines over the whole (half) outline. */
  const totals = new Float64Array(n);
  whole.forEach((integrals, piece) => {
    for (let a = 0; a < 3; a++) totals[owners[3 * piece + a]!]! += integrals[a]!;
  });

  interface NodeTable {
    readonly count: number;
    readonly piece: Int32Array;
    readonly values: Float64Array;
    readonly integrals: Float64Array;
    readonly upTo: Float64Array;
    readonly slope: Float64Array;
    readonly bend: Float64Array;
  }
  const nodeTable = perCount((count): NodeTable => {
    const rows = mirror ? count / 2 : count;
    const { share, slope, bend } = spacedNodes(form.spacing, count);
    const piece = new Int32Array(rows);
    const upTo = new Float64Array(rows * points);
    const values = new Float64Array(3 * rows);
    const integrals = new Float64Array(3 * rows);
    for (let j = 0, at = 0; j < rows; j++) {
      const here = share[j]! / half;
      while (at < n - 1 && here >= end(at + 1)) at++;
      piece[j] = at;
      const place = placeAt(at, here);
      values.set(place.values, 3 * j);
      integrals.set(place.integrals, 3 * j);
      const length = end(at + 1) - end(at);
      rule.weightsUpTo((here - end(at)) / length, upTo, j * points);
      for (let g = 0; g < points; g++) upTo[j * points + g]! *= length;
    }
    return {
      count,
      piece,
      values,
      integrals,
      upTo,
      slope: slope.map((s) => s / half),
      bend: bend.map((b) => b / half),
    };
  });

  // Of the outline in hand: angle at the pieces' starts and at the points, unit tangent there and its integral up to the pieces' starts.
  const startAngle = new Float64Array(n + 1);
  const angle = new Float64Array(n * points);
  const tangentX = new Float64Array(n * points);
  const tangentY = new Float64Array(n * points);
  const startX = new Float64Array(n + 1);
  const startY = new Float64Array(n + 1);

  const turnOf = (given: ArrayLike<number>): number => (mirror ? 0 : (given[2]! * Math.PI) / 180);

  const take = (given: ArrayLike<number>): void => {
    const length = half * given[lengthAt]!;
    const first = lengthAt + 1;
    let before = turnOf(given);
    let x = 0;
    let y = 0;
    for (let piece = 0, g = 0; piece < n; piece++) {
      const a = length * given[first + owners[3 * piece]!]!;
      const b = length * given[first + owners[3 * piece + 1]!]!;
      const c = length * given[first + owners[3 * piece + 2]!]!;
      startAngle[piece] = before;
      startX[piece] = x;
      startY[piece] = y;
      for (let i = 0; i < points; i++, g++) {
        const here =
          before + a * insideIntegrals[3 * g]! + b * insideIntegrals[3 * g + 1]! + c * insideIntegrals[3 * g + 2]!;
        angle[g] = here;
        tangentX[g] = Math.cos(here);
        tangentY[g] = Math.sin(here);
        x += weights[g]! * tangentX[g]!;
        y += weights[g]! * tangentY[g]!;
      }
      const [wholeA, wholeB, wholeC] = whole[piece]!;
      before += a * wholeA + b * wholeB + c * wholeC;
    }
    startAngle[n] = before;
    startX[n] = x;
    startY[n] = y;
  };

  const angleAtNode = (given: ArrayLike<number>, table: NodeTable, j: number): number => {
    const piece = table.piece[j]!;
    const length = half * given[lengthAt]!;
    let sum = 0;
    for (let a = 0; a < 3; a++) sum += table.integrals[3 * j + a]! * given[lengthAt + 1 + owners[3 * piece + a]!]!;
    return startAngle[piece]! + length * sum;
  };

  /** Integral up to node `j` of what is given at the points, from the pieces' starts. */
  const upToNode = (table: NodeTable, j: number, starts: Float64Array, atPoints: Float64Array): number => {
    const piece = table.piece[j]!;
    let sum = starts[piece]!;
    for (let i = 0, g = piece * points, w = j * points; i < points; i++) sum += table.upTo[w + i]! * atPoints[g + i]!;
    return sum;
  };

  // For one coefficient: the integral of its B-splines, and of that times the tangent.
  const moved = new Float64Array(n * points);
  const movedX = new Float64Array(n * points);
  const movedY = new Float64Array(n * points);
  const movedStart = new Float64Array(n + 1);
  const movedStartX = new Float64Array(n + 1);
  const movedStartY = new Float64Array(n + 1);
  /** Fills these with what turns the tangent: of coefficient `k`, or the angle itself (`k` -1), for the length. */
  const turnBy = (k: number): void => {
    let before = 0;
    let x = 0;
    let y = 0;
    for (let piece = 0, g = 0; piece < n; piece++) {
      movedStart[piece] = before;
      movedStartX[piece] = x;
      movedStartY[piece] = y;
      for (let i = 0; i < points; i++, g++) {
        let here: number;
        if (k < 0) here = angle[g]! - startAngle[0]!;
        else {
          here = before;
          for (let a = 0; a < 3; a++) if (owners[3 * piece + a] === k) here += insideIntegrals[3 * g + a]!;
        }
        moved[g] = here;
        movedX[g] = here * tangentX[g]!;
        movedY[g] = here * tangentY[g]!;
        x += weights[g]! * movedX[g]!;
        y += weights[g]! * movedY[g]!;
      }
      if (k >= 0) for (let a = 0; a < 3; a++) if (owners[3 * piece + a] === k) before += whole[piece]![a]!;
    }
    movedStart[n] = before;
    movedStartX[n] = x;
    movedStartY[n] = y;
  };

  const closures = mirror ? 2 : 3;
  const missing = new Float64Array(closures);
  const slopes = new Float64Array(closures * values);

  const outline: CurvatureOutline = {
    form,
    coefficients: n,
    lengthAt,
    closures,
    place(given, nodes) {
      const table = nodeTable(nodes.count);
      take(given);
      const length = half * given[lengthAt]!;
      const fromX = mirror ? 0 : given[0]!;
      const fromY = mirror ? given[0]! : given[1]!;
      const { x, y, dx, dy, ddx, ddy } = nodes;
      for (let j = 0; j < table.piece.length; j++) {
        const here = angleAtNode(given, table, j);
        const piece = table.piece[j]!;
        let curvature = 0;
        for (let a = 0; a < 3; a++)
          curvature += table.values[3 * j + a]! * given[lengthAt + 1 + owners[3 * piece + a]!]!;
        const cos = Math.cos(here);
        const sin = Math.sin(here);
        const speed = length * table.slope[j]!;
        const change = length * table.bend[j]!;
        const turning = curvature * speed * speed;
        x[j] = fromX + length * upToNode(table, j, startX, tangentX);
        y[j] = fromY + length * upToNode(table, j, startY, tangentY);
        dx[j] = speed * cos;
        dy[j] = speed * sin;
        ddx[j] = change * cos - turning * sin;
        ddy[j] = change * sin + turning * cos;
      }
      if (mirror) reflect(nodes);
    },
    rates(given, { count }, out) {
      const table = nodeTable(count);
      const rows = table.piece.length;
      const length = half * given[lengthAt]!;
      take(given);
      const here = Float64Array.from({ length: rows }, (_, j) => angleAtNode(given, table, j));
      out.x.fill(0);
      out.y.fill(0);
      out.dx.fill(0);
      out.dy.fill(0);
      const shift = (row: number, rate: Float64Array) => {
        for (let j = 0; j < rows; j++) rate[row * count + j] = 1;
      };
      if (mirror) shift(0, out.y);
      else {
        shift(0, out.x);
        shift(1, out.y);
        // Turned about the point where it begins.
        for (let j = 0, at = 2 * count; j < count; j++, at++) {
          const speed = (length * table.slope[j]! * Math.PI) / 180;
          out.x[at] = ((-length * Math.PI) / 180) * upToNode(table, j, startY, tangentY);
          out.y[at] = ((length * Math.PI) / 180) * upToNode(table, j, startX, tangentX);
          out.dx[at] = -speed * Math.sin(here[j]!);
          out.dy[at] = speed * Math.cos(here[j]!);
        }
      }
      for (let k = -1; k < n; k++) {
        turnBy(k);
        // Of the length: the tangent's own integral beside the turning.
        const stretch = k < 0 ? half : 0;
        const scale = k < 0 ? half : length * length;
        for (let j = 0, at = (lengthAt + 1 + k) * count; j < rows; j++, at++) {
          const cos = Math.cos(here[j]!);
          const sin = Math.sin(here[j]!);
          let turned = here[j]! - startAngle[0]!;
          if (k >= 0) {
            const piece = table.piece[j]!;
            turned = movedStart[piece]!;
            for (let a = 0; a < 3; a++) if (owners[3 * piece + a] === k) turned += table.integrals[3 * j + a]!;
          }
          const slope = table.slope[j]!;
          out.x[at] = -scale * upToNode(table, j, movedStartY, movedY);
          out.y[at] = scale * upToNode(table, j, movedStartX, movedX);
          if (k < 0) {
            out.x[at]! += stretch * upToNode(table, j, startX, tangentX);
            out.y[at]! += stretch * upToNode(table, j, startY, tangentY);
          }
          out.dx[at] = slope * (stretch * cos - scale * turned * sin);
          out.dy[at] = slope * (stretch * sin + scale * turned * cos);
        }
      }
      if (mirror) reflectRates(out, values, count);
    },
    basis(share, at, integrals) {
      let piece = 0;
      while (piece < n - 1 && share >= end(piece + 1)) piece++;
      const place = placeAt(piece, share);
      at.fill(0);
      integrals.fill(0);
      for (let before = 0; before < piece; before++)
        for (let a = 0; a < 3; a++) integrals[owners[3 * before + a]!]! += whole[before]![a]!;
      for (let a = 0; a < 3; a++) {
        at[owners[3 * piece + a]!]! += place.values[a]!;
        integrals[owners[3 * piece + a]!]! += place.integrals[a]!;
      }
    },
    closure(given, lacking, rates) {
      take(given);
      const length = half * given[lengthAt]!;
      rates.fill(0);
      lacking[0] = startAngle[n]! - startAngle[0]! - (mirror ? Math.PI : 2 * Math.PI);
      lacking[1] = length * startX[n]!;
      if (!mirror) {
        lacking[2] = length * startY[n]!;
        rates[values + 2] = (-lacking[2] * Math.PI) / 180;
        rates[2 * values + 2] = (lacking[1] * Math.PI) / 180;
      }
      for (let k = -1; k < n; k++) {
        turnBy(k);
        const at = lengthAt + 1 + k;
        const scale = k < 0 ? half : length * length;
        rates[at] = k < 0 ? (half * (startAngle[n]! - startAngle[0]!)) / length : length * totals[k]!;
        rates[values + at] = (k < 0 ? half * startX[n]! : 0) - scale * movedStartY[n]!;
        if (!mirror) rates[2 * values + at] = (k < 0 ? half * startY[n]! : 0) + scale * movedStartX[n]!;
      }
    },
    close(given, bound) {
      const first = lengthAt + 1;
      for (let turn = 0; turn < mostTurns; turn++) {
        outline.closure(given, missing, slopes);
        let worst = Math.abs(missing[0]!);
        for (let r = 1; r < closures; r++) worst = Math.max(worst, Math.abs(missing[r]!) / given[lengthAt]!);
        if (worst <= closed) return true;
        if (!(worst < Number.POSITIVE_INFINITY)) return false;
        // Coefficients at their bound do not move further out.
        const held = new Uint8Array(n);
        for (let again = 0; again < n; again++) {
          const step = smallestStep(missing, slopes, values, first, held);
          if (step === undefined) return false;
          let fresh = 0;
          for (let k = 0; k < n; k++)
            if (held[k] === 0 && Math.abs(given[first + k]! + step[k]!) > bound * (1 + 1e-12)) {
              held[k] = 1;
              fresh++;
              const to = Math.sign(step[k]!) * bound - given[first + k]!;
              given[first + k]! += to;
              for (let r = 0; r < closures; r++) missing[r]! += slopes[r * values + first + k]! * to;
            }
          if (fresh > 0) continue;
          for (let k = 0; k < n; k++) given[first + k]! += step[k]!;
          break;
        }
      }
      return false;
    },
  };
  return outline;
}

const mostTurns = 30;
/** Radians, and shares of the length. */
const closed = 1e-13;

/** The smallest step of the coefficients that are not held which makes up for what is missing, to first order. */
function smallestStep(
  missing: Float64Array,
  slopes: Float64Array,
  stride: number,
  first: number,
  held: Uint8Array,
): Float64Array | undefined {
  const rows = missing.length;
  const n = held.length;
  const matrix = new Float64Array(rows * rows);
  for (let r = 0; r < rows; r++)
    for (let q = 0; q < rows; q++)
      for (let k = 0; k < n; k++)
        if (held[k] === 0) matrix[r * rows + q]! += slopes[r * stride + first + k]! * slopes[q * stride + first + k]!;
  const factors = missing.slice();
  if (!solveSmall(matrix, factors)) return undefined;
  return Float64Array.from({ length: n }, (_, k) => {
    if (held[k] === 1) return 0;
    let step = 0;
    for (let r = 0; r < rows; r++) step -= slopes[r * stride + first + k]! * factors[r]!;
    return step;
  });
}

/** Gauss without exchanges, for a positive definite matrix of two or three rows; false where it is not. */
function solveSmall(matrix: Float64Array, right: Float64Array): boolean {
  const n = right.length;
  for (let k = 0; k < n; k++) {
    const pivot = matrix[k * n + k]!;
    if (!(pivot > 0)) return false;
    for (let i = k + 1; i < n; i++) {
      const share = matrix[i * n + k]! / pivot;
      for (let j = k; j < n; j++) matrix[i * n + j]! -= share * matrix[k * n + j]!;
      right[i]! -= share * right[k]!;
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    for (let j = k + 1; j < n; j++) right[k]! -= matrix[k * n + j]! * right[j]!;
    right[k]! /= matrix[k * n + k]!;
  }
  return true;
}

/** Rates of the left half, from those of the right. */
function reflectRates({ x, y, dx, dy }: NodeRates, rows: number, count: number): void {
  for (let row = 0; row < rows; row++)
    for (let j = row * count, k = j + count - 1; j < k; j++, k--) {
      x[k] = -x[j]!;
      y[k] = y[j]!;
      dx[k] = dx[j]!;
      dy[k] = -dy[j]!;
    }
}
