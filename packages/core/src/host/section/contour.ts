import { InputError } from '../../errors.js';
import { graded } from '../../mesh/quad/index.js';
import type { Border } from '../../outline/index.js';
import type { ContourNodes } from '../condensed/index.js';
import type { RoomWish } from '../contract.js';
import type { ContourData } from '../reduced-model.js';
import { levelLines } from './level-line.js';
import { areaOf, type Box, boxOf, largestCircleIn, type Polygon, polygonBorder } from './outline-border.js';

/**
 * The control contour of any filler, from the distance to its border: where the distance is wall and edge radius lie the centres of curvature
 * of every admissible channel; that line moved outwards again keeps `inset` from the border, with round corners.
 */
export interface ControlContour extends ContourNodes, Border {
  readonly closed: true;
  readonly inset: number;
  readonly degree: number;
  /** About which the regular fields are laid. */
  readonly middle: readonly [number, number];
  readonly data: ContourData;
}

/** Share of the wall between border and contour; and of wall and edge radius, so that its corners stay round. */
const insetOfWall = 0.6;
const insetOfDepth = 0.65;

/** Longest edge: in distances from the border, and in radii of curvature. */
const stepOfGap = 0.8;
const stepOfRadius = 0.4;

/** Edges of the whole contour to a degree of the regular fields (pockets of a laminate: bending was off by 4 % with 3), and how far degrees may grow. */
const edgesPerDegree = 4.2;
const degreesMore = 16;

/** As in a pocket of a laminate: 9 times half length over half width, 28 at least. A slimmer room would take polynomials beyond degree 90. */
const degreeFor = (aspect: number): number => 2 * Math.ceil(Math.max(28, 9 * aspect) / 2);
const mostAspect = 10;

const wallOf = (wish: Omit<RoomWish, 'mirror'>) => wish.wall + wish.edgeRadius;

/** Points of the border's inside at which channels of this wall and edge radius may have centres of curvature; the part around `at`. */
export function roomLine(
  border: Border,
  box: Box,
  depth: number,
  at: readonly [number, number],
  step: number,
): Polygon | undefined {
  const lines = levelLines(border, depth, box, step).filter((line) => areaOf(line) > 0);
  return lines.find((line) => polygonBorder(line).distance(...at) > 0);
}

/** The contour round a filler over that round its box: 0.5 to 0.7 of a hat stiffener's foot, by its wall. */
const roundBox = 0.65;

/** About how many edges the contour in a box comes to: known at no cost, as the contour itself is not. */
export function contourEdges({ xMin, xMax, yMin, yMax }: Box, wish: Omit<RoomWish, 'mirror'>): number {
  const inset = Math.min(insetOfWall * wish.wall, insetOfDepth * wallOf(wish));
  const round = 2 * roundBox * (xMax - xMin + yMax - yMin);
  return Math.max(edgesPerDegree * (degreeFor(1) + degreesMore), round / (stepOfGap * inset));
}

/** Fine enough for fields of `leastDegree`, its edges divided by `refinement`. Throws InputError where wall and edge radius leave no room. */
export function controlContour(
  border: Border,
  box: Box,
  wish: Omit<RoomWish, 'mirror'>,
  leastDegree = 0,
  refinement = 1,
): ControlContour {
  const { wall, edgeRadius } = wish;
  const depth = wallOf(wish);
  const circle = largestCircleIn(border, box);
  const inset = Math.min(insetOfWall * wall, insetOfDepth * depth);
  const isInRange = wall > 0 && edgeRadius >= 0 && depth < 0.96 * circle.radius;
  const room = isInRange ? roomLine(border, box, depth, circle.at, 0.08 * inset) : undefined;
  if (room === undefined)
    throw new InputError({
      path: edgeRadius > wall || !(edgeRadius >= 0) ? 'channel.edgeRadius' : 'channel.wall',
      expected: `wall > 0, edgeRadius >= 0 and wall + edgeRadius below ${format(0.96 * circle.radius)} mm`,
      received: `wall ${wall}, edgeRadius ${edgeRadius}`,
      remedy: `the largest circle in the filler has a radius of ${format(circle.radius)} mm: reduce wall or edgeRadius`,
    });
  const radius = depth - inset;
  const inside = polygonBorder(room);
  const around: Border = { distance: (x, y) => inside.distance(x, y) + radius };
  const { xMin, xMax, yMin, yMax } = boxOf(room);
  const wider = { xMin: xMin - radius, xMax: xMax + radius, yMin: yMin - radius, yMax: yMax + radius };
  const [line] = levelLines(around, 0, wider, 0.25 * Math.min(inset, radius)).sort((a, b) => areaOf(b) - areaOf(a));
  const path = arcLength(line!);
  const aspect = Math.hypot(wider.xMax - wider.xMin, wider.yMax - wider.yMin) / 2 / (circle.radius - inset);
  if (aspect > mostAspect)
    throw new InputError({
      path: 'host.filler',
      expected: `a filler at most ${mostAspect} times as long as it is wide where channels lie`,
      received: `${format(aspect)} times`,
      remedy: 'name a part of it as the filler, and the rest as a surface of the same material',
    });
  const degree = Math.max(leastDegree, degreeFor(aspect));
  const nodes = placeNodes(path, around, border, { degree, radius, refinement });
  return {
    ...nodes,
    closed: true,
    inset,
    degree,
    middle: [(wider.xMin + wider.xMax) / 2, (wider.yMin + wider.yMax) / 2],
    data: { x: [...nodes.x], y: [...nodes.y] },
    distance: contourBorder(nodes).distance,
  };
}

interface Path {
  readonly length: number;
  at(s: number): readonly [number, number];
}

function arcLength({ x, y }: Polygon): Path {
  const count = x.length;
  const start = new Float64Array(count + 1);
  for (let i = 0; i < count; i++) {
    const j = (i + 1) % count;
    start[i + 1] = start[i]! + Math.hypot(x[j]! - x[i]!, y[j]! - y[i]!);
  }
  const length = start[count]!;
  return {
    length,
    at(s) {
      const turns = s / length;
      const place = (turns - Math.floor(turns)) * length;
      let [low, high] = [0, count - 1];
      while (low < high) {
        const middle = (low + high + 1) >> 1;
        if (start[middle]! <= place) low = middle;
        else high = middle - 1;
      }
      const j = (low + 1) % count;
      const share = (place - start[low]!) / Math.max(start[low + 1]! - start[low]!, Number.MIN_VALUE);
      return [x[low]! + share * (x[j]! - x[low]!), y[low]! + share * (y[j]! - y[low]!)];
    },
  };
}

const samples = 800;
/** Growth of the edges along the contour. */
const growth = 0.25;

function placeNodes(
  path: Path,
  line: Border,
  border: Border,
  { degree, radius, refinement }: { readonly degree: number; readonly radius: number; readonly refinement: number },
): { readonly x: Float64Array; readonly y: Float64Array } {
  const { length } = path;
  const edges = Math.ceil(refinement * edgesPerDegree * (degree + degreesMore));
  const longest = length / edges;
  const direction = (s: number) => {
    const [a, b] = [path.at(s - 0.35 * radius), path.at(s + 0.35 * radius)];
    return Math.atan2(b[1] - a[1], b[0] - a[0]);
  };
  const size = Array.from({ length: samples }, (_, k) => {
    const s = ((k + 0.5) * length) / samples;
    const turn = direction(s + 0.35 * radius) - direction(s - 0.35 * radius);
    const bend = Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn))) / (0.7 * radius);
    const own = Math.min(stepOfGap * Math.max(border.distance(...path.at(s)), 0.1 * radius), stepOfRadius / bend);
    return Math.min(longest, own / refinement);
  });
  const grown = size.map((_, k) => {
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < samples; i++) {
      const apart = Math.min(Math.abs(i - k), samples - Math.abs(i - k));
      least = Math.min(least, size[i]! + (growth * apart * length) / samples);
    }
    return least;
  });
  const ends = graded(length, (s) => grown[Math.min(samples - 1, Math.floor((s / length) * samples))]!, edges);
  const places = ends.slice(0, -1).flatMap((end, i) => [end, (end + ends[i + 1]!) / 2]);
  const points = places.map((s) => onto(line, path.at(s), 0.01 * radius));
  return { x: Float64Array.from(points, ([x]) => x), y: Float64Array.from(points, ([, y]) => y) };
}

/** Moves a point that lies close to a line of distance 0 onto it. */
function onto(line: Border, [x, y]: readonly [number, number], step: number): readonly [number, number] {
  let [px, py] = [x, y];
  for (let pass = 0; pass < 4; pass++) {
    const away = line.distance(px, py);
    const gx = (line.distance(px + step, py) - line.distance(px - step, py)) / (2 * step);
    const gy = (line.distance(px, py + step) - line.distance(px, py - step)) / (2 * step);
    const square = gx * gx + gy * gy;
    if (!(square > 0.25)) break;
    px -= (away * gx) / square;
    py -= (away * gy) / square;
  }
  return [px, py];
}

/** Points along an edge by which a contour is told. */
const perEdge = 4;

/** The border of a control contour by its nodes. */
export function contourBorder({ x, y }: Polygon): Border {
  const count = x.length;
  const points: (readonly [number, number])[] = [];
  for (let edge = 0; 2 * edge < count; edge++)
    for (let k = 0; k < perEdge; k++) {
      const s = (2 * k) / perEdge - 1;
      const N = [(s * (s - 1)) / 2, 1 - s * s, (s * (s + 1)) / 2];
      const at = (v: ArrayLike<number>) => N.reduce((sum, n, i) => sum + n * v[(2 * edge + i) % count]!, 0);
      points.push([at(x), at(y)]);
    }
  return polygonBorder({ x: points.map(([px]) => px), y: points.map(([, py]) => py) });
}

const format = (value: number) => String(Number(value.toPrecision(3)));
