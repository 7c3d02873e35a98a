import {
  directionInSection,
  type HostShape,
  InputError,
  placeInSection,
  placesOfOthers,
  type ShapeFrame,
  type SideBySide,
  shapeInSection,
} from '@lumenfront/core';
import { copyMove, movedChain } from './copy-move.js';
import {
  type BezierChain,
  bezierChain,
  type Extent,
  farthestFrom,
  flatten,
  type OutlineSample,
  type OutlineSampler,
  polygonExtent,
  quarterChain,
  reversedChain,
  sampleExtent,
} from './curve.js';

/** An outline as smooth curves, and as a closed polygon, counter-clockwise, `x, y` in turn. mm */
export interface DrawnOutline {
  readonly curves: BezierChain;
  readonly vertices: Float64Array;
}

/** A channel, or one of several, ready to be written in any of the formats. Lengths in mm, area in mm², of each. */
export interface Drawing extends Extent, DrawnOutline {
  /** Of several channels all others: of two the left one, the mirror image. */
  readonly others?: readonly DrawnOutline[];
  /** Largest distance measured between the outline and the polygon, at points between its vertices. */
  readonly chordError: number;
  readonly shape?: HostShape;
}

export interface DrawingRequest {
  readonly outline: OutlineSampler;
  /** Largest distance allowed between outline and polygon, mm. */
  readonly chordError?: number;
  /** Draws what is around the channel as well. */
  readonly shape?: HostShape;
  /** The frame that the outline is told in; of the shape, where that is left out. Drawings are in the axes of the section. */
  readonly frame?: ShapeFrame;
  /** The channels that the outline stands for; one where left out. */
  readonly channels?: SideBySide;
}

/** All outlines of a drawing, the given one first. */
export const outlinesOf = (drawing: Drawing): readonly DrawnOutline[] => [drawing, ...(drawing.others ?? [])];

/** All channels but the one of this outline, in the axes of the section. */
function othersOf({ curves, vertices }: DrawnOutline, channels: SideBySide, frame?: ShapeFrame): DrawnOutline[] {
  return placesOfOthers(channels).map((place) => {
    const move = copyMove(place, frame);
    const copy = (chain: Float64Array) => movedChain(place.isMirrored ? reversedChain(chain) : chain, move);
    return { curves: copy(curves), vertices: copy(vertices) };
  });
}

export const DEFAULT_CHORD_ERROR = 0.001;
/** Coordinates are written to a nanometre; a finer chord would be lost in that rounding. */
export const COORDINATE_DIGITS = 6;
const LEAST_CHORD_ERROR = 1e-5;
/** Relative difference allowed in area and in perimeter, half of the 0.01 % that the formats promise. */
const EXTENT_TOLERANCE = 5e-5;
const MOST_CURVES = 8192;
/** The trapezoidal rule is good to 1e-6 with so many nodes even where the curvature of a slot jumps. */
const EXTENT_NODES = 8192;

const agree = (a: Extent, b: Extent, tolerance: number) =>
  Math.abs(a.area - b.area) <= tolerance * b.area && Math.abs(a.perimeter - b.perimeter) <= tolerance * b.perimeter;

function inSection(outline: OutlineSampler, frame: ShapeFrame): OutlineSampler {
  return (count) => {
    const { x, y, dx, dy } = outline(count);
    const places = Array.from({ length: count }, (_, j) => placeInSection(frame, [x[j]!, y[j]!]));
    const directions = Array.from({ length: count }, (_, j) => directionInSection(frame, dx[j]!, dy[j]!));
    const part = (points: typeof places, axis: 0 | 1) => points.map((point) => point[axis]);
    return { x: part(places, 0), y: part(places, 1), dx: part(directions, 0), dy: part(directions, 1) };
  };
}

/** Largest distance between points of the same parameter, which bounds the distance between the curves. */
function farthestApart(a: OutlineSample, b: OutlineSample): number {
  let farthest = 0;
  for (let j = 0; j < a.x.length; j++) farthest = Math.max(farthest, Math.hypot(a.x[j]! - b.x[j]!, a.y[j]! - b.y[j]!));
  return farthest;
}

/** The coarsest polygon within the tolerance that also has the outline's extent, if refinement of these curves gives one. */
function inscribedPolygon(curves: BezierChain, exact: Extent, tolerance: number): Float64Array | undefined {
  for (let halvings = 0; halvings < 10; halvings++) {
    const vertices = flatten(curves, tolerance / 2 ** halvings);
    if (agree(polygonExtent(vertices), exact, EXTENT_TOLERANCE)) return vertices;
  }
  return undefined;
}

/**
 * Draws an outline as smooth curves and as a polygon, both as fine as the chord error asks and as it takes for area and
 * perimeter to stay within 0.01 %.
 *
 * @throws InputError when the chord error is out of range; RangeError for an outline that no refinement resolves.
 */
export function prepareDrawing({
  outline: told,
  chordError = DEFAULT_CHORD_ERROR,
  shape,
  frame = shape?.frame,
  channels = { number: 1 },
}: DrawingRequest): Drawing {
  if (!(chordError >= LEAST_CHORD_ERROR && chordError <= 1))
    throw new InputError({
      path: 'chord error',
      expected: `${LEAST_CHORD_ERROR} to 1 mm`,
      received: String(chordError),
      remedy: `leave it out for ${DEFAULT_CHORD_ERROR} mm`,
    });
  const outline = frame === undefined ? told : inSection(told, frame);
  const exact = sampleExtent(outline(EXTENT_NODES));
  if (!(exact.area > 0))
    throw new RangeError(`outline: expected a counter-clockwise curve, received area ${exact.area}`);
  for (let count = 64; count <= MOST_CURVES; count *= 2) {
    const curves = bezierChain(outline(count));
    const between = outline(4 * count);
    const drawn = quarterChain(curves);
    if (
      !(
        farthestApart(drawn, between) <= chordError / 8 &&
        agree(sampleExtent(drawn), sampleExtent(between), EXTENT_TOLERANCE / 5)
      )
    )
      continue;

    const vertices = inscribedPolygon(curves, exact, 0.8 * chordError);
    if (vertices === undefined) continue;
    return {
      ...exact,
      curves,
      vertices,
      // About ten points a chord, at a count that shares no parameter with the vertices.
      chordError: farthestFrom(vertices, outline(5 * vertices.length + 2)),
      ...(shape === undefined ? {} : { shape: shapeInSection(shape) }),
      ...(channels.number > 1 ? { others: othersOf({ curves, vertices }, channels, frame) } : {}),
    };
  }
  throw new RangeError(`outline: expected a smooth curve, received one that ${MOST_CURVES} curves do not follow`);
}
