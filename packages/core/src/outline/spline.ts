import type { OutlineFamily, OutlineParameter, OutlineRoom } from './family.js';
import { type CurveRates, reflectRates, writeShift, writeStretch } from './node-rates.js';
import type { CurveNodes } from './nodes.js';
import { reflect } from './placement.js';
import { position } from './symmetric-family.js';
import { angleTable, perCount } from './table.js';
import { curveOf, evenWaveTable, fullWaveTable, type WaveTable } from './waves.js';

/** Highest wave of a mirror-symmetric and of a free outline. */
const evenWaves = 11;
const fullWaves = 8;

/**
 * Splines: closed band-limited curves of ln(radius) in polar coordinates that are stretched by a width-to-height ratio, so
 * that long flat outlines are as easy to reach as round ones.
 *
 * The curve is given by the amplitudes of its waves. The values at 12 equally spaced knots of the half outline give the
 * same curves, but 12 knots and a size are one number too many, and independent knots make a ragged edge: with them a
 * genetic search of the largest admissible channel reached 2.2 mm2 in 3000 evaluations where waves reached 5.0 (medians
 * of 7 seeds).
 */
export function splineFamily(room: OutlineRoom): OutlineFamily {
  return room.mirror ? mirrorSpline(room) : freeSpline(room);
}

/**
 * `(x, y) = (0, y) + size exp(p(v)) (e^(stretch/2) sin w(v), -e^(-stretch/2) cos w(v))`: `v` from 0 at the bottom to pi at
 * the top, `p(v) = sum_k wave_k cos(k v)`, `w` a monotone warp of the angle that crowds waves and nodes together at the
 * sides and at the base. The warp is made of two maps that keep rational sines and cosines,
 * `tan w1 = e^side tan v` and `tan(w/2) = e^-base tan(w1/2)`.
 */
function mirrorSpline(room: OutlineRoom): OutlineFamily {
  const angles = perCount(angleTable);
  const tables = perCount((count) => evenWaveTable(count, evenWaves));
  return {
    name: 'spline',
    mirror: true,
    parameters: mirrorParameters(room),
    place(values, nodes) {
      const { count, x, y, dx, dy, ddx, ddy } = nodes;
      const { cos, sin } = angles(count);
      const { curve, slope: slopes, bend: bends } = curveOf(values, 5, tables(count));
      const height = values[0]!;
      const across = values[1]! * Math.exp(values[2]! / 2);
      const up = values[1]! * Math.exp(-values[2]! / 2);
      const warp = takeWarp(values[3]!, values[4]!);
      for (let j = 0, half = count / 2; j < half; j++) {
        warpAt(warp, cos[j]!, sin[j]!);
        const { cosine: cw, sine: sw, slope: dw, bend: ddw } = warp;
        const slope = slopes[j]!;
        const radius = Math.exp(curve[j]!);
        const second = bends[j]! + slope * slope - dw * dw;
        const mixed = 2 * slope * dw + ddw;
        x[j] = across * radius * sw;
        y[j] = height - up * radius * cw;
        dx[j] = across * radius * (slope * sw + dw * cw);
        dy[j] = -up * radius * (slope * cw - dw * sw);
        ddx[j] = across * radius * (second * sw + mixed * cw);
        ddy[j] = -up * radius * (second * cw - mixed * sw);
      }
      reflect(nodes);
    },
    rates(values, nodes, out) {
      const { count } = nodes;
      const height = values[0]!;
      const slant = Math.exp(values[2]!);
      const warp = takeWarp(values[3]!, values[4]!);
      const { cos, sin } = angles(count);
      const waves = tables(count);
      warpRate.height = height;
      warpRate.slant = slant;
      writeShift(out, 0, count, 0, 1);
      writeStretch(out, 1, nodes, [0, height], [1 / values[1]!, 0, 0, 1 / values[1]!]);
      writeStretch(out, 2, nodes, [0, height], [0.5, 0, 0, -0.5]);
      for (let j = 0; j < count / 2; j++) {
        writeWaves(out, nodes, j, [0, height], waves);
        warpAt(warp, cos[j]!, sin[j]!);
        const { eccentricity, over, cosine1: c1, sine1: s1, slope1, bend1, slope2 } = warp;
        // dw1 = sin w1 cos w1 of the side warp, times dw/dw1; its derivatives by w1.
        const bend2 = slope2 * eccentricity * s1 * over;
        const bent2 = bend2 * eccentricity * s1 * over + slope2 * eccentricity * over * (c1 + eccentricity) * over;
        const product = s1 * c1;
        const double = c1 * c1 - s1 * s1;
        const by1 = bend2 * product + slope2 * double;
        const by2 = bent2 * product + 2 * bend2 * double - 4 * slope2 * product;
        warpRate.rate = slope2 * product;
        warpRate.slope = by1 * slope1;
        warpRate.bend = by2 * slope1 * slope1 + by1 * bend1;
        writeWarp(out, 3, nodes, j, warpRate);
        // dw = -sin w of the base warp.
        const { cosine, sine, slope, bend } = warp;
        warpRate.rate = -sine;
        warpRate.slope = -cosine * slope;
        warpRate.bend = sine * slope * slope - cosine * bend;
        writeWarp(out, 4, nodes, j, warpRate);
      }
      reflectRates(out, firstWave + waves.amplitudes, count);
    },
    imitate: (nodes) => imitateMirrored(nodes, room),
  };
}

/** The warp `w(w1(v))` at one angle: cosine, sine and derivatives by `v` of both maps, `slope2` and `over` those of the second alone. */
interface Warp {
  side: number;
  eccentricity: number;
  shrink: number;
  cosine1: number;
  sine1: number;
  slope1: number;
  bend1: number;
  over: number;
  slope2: number;
  cosine: number;
  sine: number;
  slope: number;
  bend: number;
}

const sharedWarp: Warp = {
  side: 1,
  eccentricity: 0,
  shrink: 1,
  cosine1: 1,
  sine1: 0,
  slope1: 1,
  bend1: 0,
  over: 1,
  slope2: 1,
  cosine: 1,
  sine: 0,
  slope: 1,
  bend: 0,
};

/** Sets the warp of one outline. */
function takeWarp(sideWarp: number, baseWarp: number): Warp {
  sharedWarp.side = Math.exp(sideWarp);
  sharedWarp.eccentricity = Math.tanh(baseWarp);
  sharedWarp.shrink = Math.sqrt(1 - sharedWarp.eccentricity * sharedWarp.eccentricity);
  return sharedWarp;
}

/** Evaluates it at the angle of cosine `c` and sine `s`. */
function warpAt(out: Warp, c: number, s: number): void {
  const { side, eccentricity, shrink } = out;
  const squared = c * c + side * side * s * s;
  const root = Math.sqrt(squared);
  const c1 = c / root;
  const s1 = (side * s) / root;
  const slope1 = side / squared;
  const bend1 = (-slope1 * 2 * (side * side - 1) * s * c) / squared;
  const over = 1 / (1 + eccentricity * c1);
  const slope2 = shrink * over;
  out.cosine1 = c1;
  out.sine1 = s1;
  out.slope1 = slope1;
  out.bend1 = bend1;
  out.over = over;
  out.slope2 = slope2;
  out.cosine = (c1 + eccentricity) * over;
  out.sine = shrink * s1 * over;
  out.slope = slope2 * slope1;
  out.bend = slope2 * eccentricity * s1 * over * slope1 * slope1 + slope2 * bend1;
}

function mirrorParameters(room: OutlineRoom): OutlineParameter[] {
  return [
    position('y', 'Height of the pole from which the radii are counted.', room.yMin, room.yMax),
    ...sizeAndStretch(room),
    {
      name: 'sideWarp',
      unit: '1',
      lower: -1.2,
      upper: 1.2,
      start: 'calm',
      meaning: 'Crowds waves and nodes together at the sides (positive) or at base and top (negative).',
    },
    {
      name: 'baseWarp',
      unit: '1',
      lower: -0.7,
      upper: 0.7,
      start: 'calm',
      meaning: 'Crowds waves and nodes together at the base (positive) or at the top (negative).',
    },
    ...waveParameters('wave', evenWaves, 'alike on both sides'),
  ];
}

/** Rate of a warp's angle at a node, with its derivatives along the edge; `slant` is the width-to-height ratio, about which the plane turns. */
interface WarpRate {
  height: number;
  slant: number;
  rate: number;
  slope: number;
  bend: number;
}

const warpRate: WarpRate = { height: 0, slant: 1, rate: 0, slope: 0, bend: 0 };

/** Writes node `j` of the row of a warp. */
function writeWarp(
  { x, y, dx, dy, ddx, ddy }: CurveRates,
  row: number,
  nodes: CurveNodes,
  j: number,
  { height, slant, rate, slope, bend }: WarpRate,
): void {
  const at = row * nodes.count + j;
  const px = nodes.x[j]! / slant;
  const py = -slant * (nodes.y[j]! - height);
  const qx = nodes.dx[j]! / slant;
  const qy = -slant * nodes.dy[j]!;
  x[at] = rate * py;
  y[at] = rate * px;
  dx[at] = rate * qy + slope * py;
  dy[at] = rate * qx + slope * px;
  ddx[at] = -rate * slant * nodes.ddy[j]! + 2 * slope * qy + bend * py;
  ddy[at] = (rate * nodes.ddx[j]!) / slant + 2 * slope * qx + bend * px;
}

/** Parameters before the waves: position, size and form. */
const firstWave = 5;

/** Writes node `j` of the rows of all waves: each lets the distance from the pole grow at a relative rate. */
function writeWaves(
  rates: CurveRates,
  nodes: CurveNodes,
  j: number,
  [poleX, poleY]: readonly [x: number, y: number],
  { weights, amplitudes }: WaveTable,
): void {
  const { count, dx, dy, ddx, ddy } = nodes;
  const x = nodes.x[j]! - poleX;
  const y = nodes.y[j]! - poleY;
  for (let k = 0, wave = 3 * j * amplitudes, at = firstWave * count + j; k < amplitudes; k++, wave++, at += count) {
    const rate = weights[wave]!;
    const slope = weights[wave + amplitudes]!;
    const bend = weights[wave + 2 * amplitudes]!;
    rates.x[at] = rate * x;
    rates.y[at] = rate * y;
    rates.dx[at] = rate * dx[j]! + slope * x;
    rates.dy[at] = rate * dy[j]! + slope * y;
    rates.ddx[at] = rate * ddx[j]! + 2 * slope * dx[j]! + bend * x;
    rates.ddy[at] = rate * ddy[j]! + 2 * slope * dy[j]! + bend * y;
  }
}

/** Rays from the pole that an imitation is read along. */
const rays = 64;

/**
 * The mirror spline without warps whose pole is the middle of the outline's height and whose waves are the cosine sums of ln(radius)
 * along rays; exact for an ellipse, cut at the highest wave for others. Amplitudes beyond their bounds are brought back.
 */
function imitateMirrored(nodes: CurveNodes, room: OutlineRoom): Float64Array {
  const { x, y } = nodes;
  const parameters = mirrorParameters(room);
  const [top, bottom, right] = [Math.max(...y), Math.min(...y), Math.max(...x)];
  const pole = (top + bottom) / 2;
  const stretch = Math.log((2 * right) / (top - bottom));
  const across = Math.exp(stretch / 2);
  const sums = new Float64Array(evenWaves + 1);
  for (let ray = 0; ray < rays; ray++) {
    const v = ((ray + 0.5) * Math.PI) / rays;
    const [ux, uy] = [across * Math.sin(v), -Math.cos(v) / across];
    const radius = radiusAlong(nodes, 0, pole, ux, uy);
    const logarithm = Math.log(Math.max(radius, 1e-3 * right));
    for (let k = 0; k <= evenWaves; k++) sums[k]! += (logarithm * Math.cos(k * v) * (k === 0 ? 1 : 2)) / rays;
  }
  const values = [pole, Math.exp(sums[0]!), stretch, 0, 0, ...sums.subarray(1)];
  return Float64Array.from(parameters, ({ lower, upper }, i) => Math.min(upper, Math.max(lower, values[i]!)));
}

/** How far the outline is from a point along a direction, in lengths of that direction's vector; the furthest where it is crossed more than once. */
function radiusAlong({ count, x, y }: CurveNodes, fromX: number, fromY: number, ux: number, uy: number): number {
  let radius = 0;
  for (let i = 0, j = count - 1; i < count; j = i++) {
    // Crossing of the ray with the chord from node j to node i.
    const [px, py, ex, ey] = [x[j]! - fromX, y[j]! - fromY, x[i]! - x[j]!, y[i]! - y[j]!];
    const across = ux * ey - uy * ex;
    const along = (ux * py - uy * px) / -across;
    if (along >= 0 && along <= 1) radius = Math.max(radius, (px * ey - py * ex) / across);
  }
  return radius;
}

/**
 * The free spline whose pole is the outline's centroid, whose stretch is that of the ellipse with the same second moments, and whose
 * waves are the sums of ln(radius) along rays; exact for an ellipse. Amplitudes beyond their bounds are brought back.
 */
function imitateFree(nodes: CurveNodes, parameters: readonly OutlineParameter[]): Float64Array {
  const { count, x, y } = nodes;
  let [area, sumX, sumY, sumXX, sumXY, sumYY] = [0, 0, 0, 0, 0, 0];
  for (let i = 0, j = count - 1; i < count; j = i++) {
    // Moments of the triangle from the origin to the chord.
    const [ax, ay, bx, by] = [x[j]!, y[j]!, x[i]!, y[i]!];
    const triangle = (ax * by - bx * ay) / 2;
    area += triangle;
    sumX += (triangle * (ax + bx)) / 3;
    sumY += (triangle * (ay + by)) / 3;
    sumXX += (triangle * (ax * ax + ax * bx + bx * bx)) / 6;
    sumXY += (triangle * (2 * ax * ay + ax * by + bx * ay + 2 * bx * by)) / 12;
    sumYY += (triangle * (ay * ay + ay * by + by * by)) / 6;
  }
  const [middleX, middleY] = [sumX / area, sumY / area];
  const xx = sumXX / area - middleX * middleX;
  const xy = sumXY / area - middleX * middleY;
  const yy = sumYY / area - middleY * middleY;
  // Scaled to determinant 1 the moments are S^2, the exponential of ((stretch, slant), (slant, -stretch)).
  const root = Math.sqrt(xx * yy - xy * xy);
  const [odd, slanted] = [(xx - yy) / (2 * root), xy / root];
  const sinh = Math.hypot(odd, slanted);
  const times = sinh > 1e-8 ? Math.asinh(sinh) / sinh : 1;
  const [stretch, slant] = [odd * times, slanted * times];
  const half = Math.hypot(stretch, slant) / 2;
  const share = (half > 1e-8 ? Math.sinh(half) / half : 1) / 2;
  const even = Math.cosh(half);
  const waves = new Float64Array(fullWaves + 1);
  const skews = new Float64Array(fullWaves + 1);
  for (let ray = 0; ray < 2 * rays; ray++) {
    const v = (ray * Math.PI) / rays;
    const [c, s] = [Math.sin(v), -Math.cos(v)];
    const ux = (even + share * stretch) * c + share * slant * s;
    const uy = share * slant * c + (even - share * stretch) * s;
    const logarithm = Math.log(Math.max(radiusAlong(nodes, middleX, middleY, ux, uy), 1e-3 * Math.sqrt(root)));
    for (let k = 0; k <= fullWaves; k++) {
      waves[k]! += (logarithm * Math.cos(k * v)) / (k === 0 ? 2 * rays : rays);
      skews[k]! += (logarithm * Math.sin(k * v)) / rays;
    }
  }
  const values = [middleX, middleY, Math.exp(waves[0]!), stretch, slant, ...waves.subarray(1), ...skews.subarray(1)];
  return Float64Array.from(parameters, ({ lower, upper }, i) => Math.min(upper, Math.max(lower, values[i]!)));
}

/**
 * `z = (x, y) + size exp(p(v)) S (sin v, -cos v)`, `p(v) = sum_k wave_k cos(k v) + skew_k sin(k v)`. `S` is the
 * exponential of the symmetric matrix `((stretch, slant), (slant, -stretch))/2`: a stretch by `e^m`, `m` the length
 * of `(stretch, slant)`, along half that vector's angle. So every direction of a long outline is reached without a
 * turn, which would do nothing to a round one.
 */
function freeSpline(room: OutlineRoom): OutlineFamily {
  const angles = perCount(angleTable);
  const tables = perCount((count) => fullWaveTable(count, fullWaves));
  const [size, stretch] = sizeAndStretch(room);
  const slant: OutlineParameter = {
    ...stretch,
    name: 'slant',
    lower: -stretch.upper,
    meaning: 'The same along the diagonals: positive for an outline that rises to the right.',
  };
  const parameters: OutlineParameter[] = [
    position('x', 'Horizontal position of the pole from which the radii are counted.', room.xMin, room.xMax),
    position('y', 'Height of the pole from which the radii are counted.', room.yMin, room.yMax),
    size,
    stretch,
    slant,
    ...waveParameters('wave', fullWaves, 'alike on both sides'),
    ...waveParameters('skew', fullWaves, 'opposite on both sides'),
  ];
  return {
    name: 'spline',
    mirror: false,
    parameters,
    rates(values, nodes, out) {
      const { count } = nodes;
      const [x, y, meanRadius, stretched, slanted] = [values[0]!, values[1]!, values[2]!, values[3]!, values[4]!];
      const waves = tables(count);
      writeShift(out, 0, count, 1, 0);
      writeShift(out, 1, count, 0, 1);
      writeStretch(out, 2, nodes, [x, y], [1 / meanRadius, 0, 0, 1 / meanRadius]);
      writeStretch(out, 3, nodes, [x, y], stretchRate(stretched, slanted, 1, 0));
      writeStretch(out, 4, nodes, [x, y], stretchRate(stretched, slanted, 0, 1));
      for (let j = 0; j < count; j++) writeWaves(out, nodes, j, [x, y], waves);
    },
    imitate: (nodes) => imitateFree(nodes, parameters),
    place(values, nodes) {
      const { count, x, y, dx, dy, ddx, ddy } = nodes;
      const { cos, sin } = angles(count);
      const { curve, slope: slopes, bend: bends } = curveOf(values, 5, tables(count));
      const half = Math.hypot(values[3]!, values[4]!) / 2;
      const even = values[2]! * Math.cosh(half);
      // sinh(half) / half, its limit 1 for a round outline
      const odd = (values[2]! * (half > 1e-8 ? Math.sinh(half) / half : 1)) / 2;
      const xx = even + odd * values[3]!;
      const yy = even - odd * values[3]!;
      const xy = odd * values[4]!;
      for (let j = 0; j < count; j++) {
        const c = sin[j]!;
        const s = -cos[j]!;
        const slope = slopes[j]!;
        const radius = Math.exp(curve[j]!);
        const second = bends[j]! + slope * slope - 1;
        const ux = radius * (slope * c - s);
        const uy = radius * (slope * s + c);
        const vx = radius * (second * c - 2 * slope * s);
        const vy = radius * (second * s + 2 * slope * c);
        x[j] = values[0]! + radius * (xx * c + xy * s);
        y[j] = values[1]! + radius * (xy * c + yy * s);
        dx[j] = xx * ux + xy * uy;
        dy[j] = xy * ux + yy * uy;
        ddx[j] = xx * vx + xy * vy;
        ddy[j] = xy * vx + yy * vy;
      }
    },
  };
}

/** `dS/S` of the matrix exponential `S` of ((stretch, slant), (slant, -stretch))/2, for its exponent's rate: what the plane does about the pole. */
function stretchRate(
  stretch: number,
  slant: number,
  stretchBy: number,
  slantBy: number,
): [number, number, number, number] {
  const length2 = stretch * stretch + slant * slant;
  const length = Math.sqrt(length2);
  // S = even + odd M, M^2 = length^2; their rates go by M's own part of the change.
  const even = Math.cosh(length / 2);
  const odd = length > 1e-8 ? Math.sinh(length / 2) / length : 0.5;
  const along = stretch * stretchBy + slant * slantBy;
  const evenRate = (odd * along) / 2;
  const oddRate = length > 1e-3 ? (along * (even / 2 - odd)) / length2 : along * (1 / 24 + length2 / 960);
  const straight = oddRate * stretch + odd * stretchBy;
  const across = oddRate * slant + odd * slantBy;
  // (evenRate + straight, across; across, evenRate - straight) times the inverse, even - odd M.
  const [a, d] = [evenRate + straight, evenRate - straight];
  const [p, q] = [even - odd * stretch, even + odd * stretch];
  const r = -odd * slant;
  return [a * p + across * r, a * r + across * q, across * p + d * r, across * r + d * q];
}

function sizeAndStretch(room: OutlineRoom): [OutlineParameter, OutlineParameter] {
  const width = room.xMax - room.xMin;
  const height = room.yMax - room.yMin;
  return [
    {
      name: 'size',
      unit: 'mm',
      lower: room.edgeRadius,
      upper: Math.sqrt(width * height) / 2,
      start: 'small',
      meaning: 'Mean radius (geometric), before the stretch.',
    },
    {
      name: 'stretch',
      unit: '1',
      lower: -Math.log(4),
      upper: Math.log(8),
      meaning: 'Natural logarithm of width over height.',
    },
  ];
}

/** Amplitudes whose bounds fall with the order, so that most of what lies within them is a sensible outline. */
function waveParameters(name: 'wave' | 'skew', highest: number, sides: string): OutlineParameter[] {
  return Array.from({ length: highest }, (_, i) => {
    const order = i + 1;
    const bound = Math.min(1, 1.9 / (order * Math.sqrt(order)));
    return {
      name: `${name}${order}`,
      unit: '1',
      lower: -bound,
      upper: bound,
      start: 'calm',
      meaning: `Amplitude of wave ${order} in the natural logarithm of the radius, ${sides}.`,
    };
  });
}
