import { InputError } from '../../errors.js';
import { graded, growing, withMiddles } from '../../mesh/quad/index.js';
import type { Border } from '../../outline/index.js';
import { contourBorder } from './border.js';
import type { ContourPath } from './filler-border.js';
import { fillerRadius, roundedFiller } from './rounded-filler.js';

/**
 * The control contour of a tee: the filler's border moved inwards by `inset`, its three tips rounded with `tipRadius`.
 * `inset + tipRadius` is the least wall plus the least edge radius, so that every admissible channel lies inside
 * (a channel of edge radius rho that keeps the wall w keeps its centres of curvature w + rho from the border). Lengths in mm.
 */
export interface ControlContour extends ContourPath, Border {
  readonly closed: false;
  readonly bendRadius: number;
  readonly inset: number;
  readonly tipRadius: number;
}

/**
 * Inset over wall. A channel at the limit of the wall stands so far from the contour as the contour from the border: nearer to the channel its moments do not converge there (at 0.9
 * a tip in the side cusp has 0.906, 0.909, 0.976, 0.969 MPa with degrees 28, 36, 44, 52, at a half 0.905, 0.906, 0.905, 0.906), nearer to the border the host's fields take finer meshes.
 */
const insetOfWall = 0.5;

/** Edges of the whole contour, both halves: 100 to 120 were enough for every contour that was tried. */
const usualEdges = 110;

/**
 * Makes the contour for a filler between the base y = 0 and two arcs of `bendRadius` about (±bendRadius, bendRadius), for
 * channels that keep `wall` and `edgeRadius`. `edges` is the wanted number of quadratic edges of the whole contour.
 * The inset is half the wall, and low enough that the tips are not sharper than their distance asks for.
 * Throws `InputError` where wall and edge radius leave no room in the filler, whose largest inscribed circle has radius `fillerRadius`.
 */
export function controlContour(
  bendRadius: number,
  wall: number,
  edgeRadius: number,
  edges: number = usualEdges,
): ControlContour {
  const depth = wall + edgeRadius;
  const deepest = fillerRadius(bendRadius);
  if (!(wall > 0 && edgeRadius >= 0 && depth < 0.96 * deepest))
    throw new InputError({
      path: edgeRadius > wall || !(edgeRadius >= 0) ? 'channel.edgeRadius' : 'channel.wall',
      expected: `wall > 0, edgeRadius >= 0 and wall + edgeRadius below ${format(0.96 * deepest)} mm`,
      received: `wall ${wall}, edgeRadius ${edgeRadius}`,
      remedy: `the filler's largest inscribed circle has a radius of ${format(deepest)} mm: reduce wall or edgeRadius, or enlarge bendRadius`,
    });
  const inset = Math.min(insetOfWall * wall, 0.65 * depth);
  const tipRadius = depth - inset;
  const R = bendRadius;
  const centres = roundedFiller(R, inset, inset, tipRadius, tipRadius);
  const base = { x: centres.sideX, y: centres.sideY };
  const top = { x: 0, y: centres.topY };
  const towardsBend = (from: { x: number; y: number }) => Math.atan2(R - from.y, R - from.x);
  const baseTurn = towardsBend(base);
  const topTurn = towardsBend(top);
  const noseTurn = (baseTurn - Math.PI / 2) / 2;

  const arc = (x: number, y: number, radius: number, from: number, to: number): Piece => ({
    length: radius * Math.abs(to - from),
    at: (f) => [x + radius * Math.cos(from + f * (to - from)), y + radius * Math.sin(from + f * (to - from))],
  });
  const line: Piece = { length: base.x, at: (f) => [f * base.x, inset] };
  const below = arc(base.x, base.y, tipRadius, -Math.PI / 2, noseTurn);
  const above = arc(base.x, base.y, tipRadius, noseTurn, baseTurn);
  const side = arc(R, R, R + inset, baseTurn + Math.PI, topTurn + Math.PI);
  const topTip = arc(top.x, top.y, tipRadius, topTurn, Math.PI / 2);

  // Steps along the tips: 0.4 radii with the usual number of edges; growing to what the rest leaves for base and side.
  const tipStep = (0.4 * tipRadius * usualEdges) / edges;
  const steps = (most: number) => {
    const least = Math.min(tipStep, most);
    const towards = (piece: Piece, first: number, last: number) =>
      graded(piece.length, growing(piece.length, first, last, 0.2, most));
    return [
      towards(line, most, least),
      graded(below.length, () => least, 2),
      graded(above.length, () => least, 2),
      towards(side, least, least),
      graded(topTip.length, () => least, 2),
    ];
  };
  const half = Math.round(edges / 2);
  let most = (line.length + side.length) / half;
  const count = (all: readonly (readonly number[])[]) => all.reduce((sum, ends) => sum + ends.length - 1, 0);
  for (let trial = 0; trial < 40 && count(steps(most)) > half; trial++) most *= 1.04;
  const pieces = [line, below, above, side, topTip];
  const ends = steps(most);
  const points: (readonly [number, number])[] = [];
  const breaks = [0];
  pieces.forEach((piece, p) => {
    const along = withMiddles(ends[p]!).map((s) => piece.at(s / piece.length));
    points.push(...(p === 0 ? along : along.slice(1)));
    breaks.push((points.length - 1) / 2);
  });
  const x = Float64Array.from(points, (point) => point[0]);
  const y = Float64Array.from(points, (point) => point[1]);
  x[x.length - 1] = 0;

  return {
    closed: false,
    bendRadius,
    inset,
    tipRadius,
    x,
    y,
    baseEnd: breaks[1]!,
    nose: breaks[2]!,
    sideStart: breaks[3]!,
    sideEnd: breaks[4]!,
    distance: contourBorder(bendRadius, inset, tipRadius).distance,
  };
}

interface Piece {
  readonly length: number;
  /** Point at a fraction of the length. */
  at(fraction: number): readonly [number, number];
}

const format = (value: number) => String(Number(value.toPrecision(3)));
