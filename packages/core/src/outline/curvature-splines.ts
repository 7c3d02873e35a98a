import { cube } from '../power.js';
import { type NodeSpacing, spacedNodes } from './density.js';
import { cellRule } from './legendre.js';
import { perCount } from './table.js';

/** What is fixed of an outline whose curvature is free: where the pieces of its curvature meet, and how nodes run along it. */
export interface CurvatureForm {
  /** Left-right symmetric: the curvature is that of the right half, from base to top. */
  readonly mirror: boolean;
  /** Where pieces meet, in shares of the (half) outline's length, ascending, without 0 and 1. One coefficient to a piece. */
  readonly knots: Float64Array;
  readonly spacing: NodeSpacing;
}

const rule = cellRule(10);
/** Gauss's points of a piece. */
export const points = rule.count;

type Three = readonly [number, number, number];

/** The three B-splines that a piece has, at a place of it, and their integrals from the piece's start. */
interface Place {
  readonly values: Three;
  readonly integrals: Three;
}

/** B-splines at the nodes (mirror: of the right half), three to a node. */
export interface NodeSplines {
  readonly count: number;
  readonly piece: Int32Array;
  readonly values: Float64Array;
  readonly integrals: Float64Array;
  /** Weights of the points of the node's piece in an integral from the piece's start to the node. */
  readonly upTo: Float64Array;
  /** Derivatives of the share of the (half) length by the node's parameter. */
  readonly slope: Float64Array;
  readonly bend: Float64Array;
}

/** The B-splines of a form, integrals over shares of the (half) length. */
export interface CurvatureSplines {
  /** Of pieces and of coefficients. */
  readonly count: number;
  /** The coefficients that a piece's three B-splines have. */
  readonly owners: Int32Array;
  /** Weights of all points, and the integrals of their piece's B-splines up to there. */
  readonly weights: Float64Array;
  readonly integrals: Float64Array;
  /** Integrals over whole pieces. */
  readonly whole: readonly Three[];
  atNodes(count: number): NodeSplines;
  /** Writes the B-splines of every coefficient at a share of the length, and their integrals up to there. */
  basis(share: number, values: Float64Array, integrals: Float64Array): void;
}

export function curvatureSplines({ mirror, knots, spacing }: CurvatureForm): CurvatureSplines {
  const n = knots.length + 1;
  const ends = Float64Array.of(0, ...knots, 1);
  /** End number `k`, which may be beyond the outline: mirrored there, or one turn on. */
  const end = (k: number): number => {
    if (k < 0) return mirror ? -ends[-k]! : ends[n + k]! - 1;
    if (k > n) return mirror ? 2 - ends[2 * n - k]! : 1 + ends[k - n]!;
    return ends[k]!;
  };
  const sizeOf = (piece: number): number => end(piece + 1) - end(piece);
  /** The coefficient that B-spline number `i` (-1 to n) has: those beyond the ends belong to their images. */
  const owner = (i: number): number => {
    if (i < 0) return mirror ? 0 : n - 1;
    if (i >= n) return mirror ? n - 1 : 0;
    return i;
  };
  const owners = Int32Array.from({ length: 3 * n }, (_, k) => owner(Math.floor(k / 3) - 1 + (k % 3)));
  const placeAt = (piece: number, share: number): Place =>
    splinesAt(share - end(piece), sizeOf(piece - 1), sizeOf(piece), sizeOf(piece + 1));

  const pieceOf = (g: number): number => Math.floor(g / points);
  const inside = Array.from({ length: n * points }, (_, g) =>
    placeAt(pieceOf(g), end(pieceOf(g)) + rule.points[g % points]! * sizeOf(pieceOf(g))),
  );
  const whole = Array.from({ length: n }, (_, piece) => placeAt(piece, end(piece + 1)).integrals);

  const atNodes = (count: number): NodeSplines => {
    const rows = mirror ? count / 2 : count;
    const half = mirror ? 0.5 : 1;
    const { share, slope, bend } = spacedNodes(spacing, count);
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
      rule.weightsUpTo((here - end(at)) / sizeOf(at), upTo, j * points);
      for (let g = 0; g < points; g++) upTo[j * points + g]! *= sizeOf(at);
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
  };

  return {
    count: n,
    owners,
    weights: Float64Array.from(inside, (_, g) => rule.weights[g % points]! * sizeOf(pieceOf(g))),
    integrals: Float64Array.from(inside.flatMap(({ integrals }) => integrals)),
    whole,
    atNodes: perCount(atNodes),
    basis(share, values, integrals) {
      let piece = 0;
      while (piece < n - 1 && share >= end(piece + 1)) piece++;
      const place = placeAt(piece, share);
      values.fill(0);
      integrals.fill(0);
      for (let before = 0; before < piece; before++)
        for (let a = 0; a < 3; a++) integrals[owners[3 * before + a]!]! += whole[before]![a]!;
      for (let a = 0; a < 3; a++) {
        values[owners[3 * piece + a]!]! += place.values[a]!;
        integrals[owners[3 * piece + a]!]! += place.integrals[a]!;
      }
    },
  };
}

/** Of a piece of size `here` between two others, at `x` from its start. */
function splinesAt(x: number, before: number, here: number, after: number): Place {
  const falling = (here - x) ** 2 / ((before + here) * here);
  const rising = x ** 2 / ((here + after) * here);
  const fallen = (cube(here) - cube(here - x)) / (3 * (before + here) * here);
  const risen = cube(x) / (3 * (here + after) * here);
  return { values: [falling, 1 - falling - rising, rising], integrals: [fallen, x - fallen - risen, risen] };
}
