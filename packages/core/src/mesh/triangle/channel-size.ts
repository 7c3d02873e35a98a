import { InputError } from '../../errors.js';
import type { EdgeCurve } from './edge-curve.js';

/** How long the sides of the triangles are, and where the corners on the channel's edge lie. Lengths in mm. */
export interface ChannelSize {
  /** Arc lengths of the corners on the edge, from 0; an even number, so that a mirror-symmetric edge is divided so, too. */
  readonly arcs: Float64Array;
  /** Depth of the ring of triangles along the edge, at each corner. */
  readonly ring: Float64Array;
  /** Side length wanted at a point of the section. */
  at(x: number, y: number): number;
}

export interface SizeOptions {
  /** Scales every size; 1 for the fine mesh of a pair. */
  readonly coarseness: number;
  /** Distance to the nearest border of the body, mm. */
  gap(x: number, y: number): number;
  /** Largest side allowed at a point, mm. */
  largest(x: number, y: number): number;
}

/** Angle that one side spans: 48 sides round a circle. */
const anglePerSide = (2 * Math.PI) / 48;
/** Change of the curvature along one side, times its length: sides are shorter where a tip runs into a straight. */
const changePerSide = 0.01;
/** Least number of sides round the edge, whatever its curvature. */
const leastSides = 42;
/** Side length against the thickness of the wall, and at most: beyond it, border and ring meet. */
const sizePerGap = 0.45;
const largestPerGap = 0.7;
/** Growth of the side length per distance. */
const growthOfSize = 0.16;
/** Depth of the ring against the length of its sides, and at most this part of the wall. */
const ringPerSize = 0.7;
const ringPerGap = 0.35;
const samples = 768;
/** Round one edge: a tee's section then has some 100,000 triangles, a million unknowns. */
const mostSides = 1500;

/** Sizes from an edge's curvature and its distance to the border, growing evenly into the body. Throws `InputError` where that takes too many. */
export function channelSize(curve: EdgeCurve, { coarseness, gap, largest }: SizeOptions): ChannelSize {
  const growth = coarseness * growthOfSize;
  const point = new Float64Array(5);
  const step = curve.length / samples;
  const sizes = new Float64Array(samples);
  const curvature = new Float64Array(samples);
  const wall = new Float64Array(samples);
  const perGap = Math.min(sizePerGap * coarseness, largestPerGap);
  for (let k = 0; k < samples; k++) {
    curve.at((k + 0.5) * step, point);
    curvature[k] = point[4]!;
    wall[k] = perGap * gap(point[0]!, point[1]!);
  }
  for (let k = 0; k < samples; k++) {
    const before = curvature[(k + samples - 1) % samples]!;
    const change = Math.abs(curvature[(k + 1) % samples]! - before) / (2 * step);
    const bend = Math.min(anglePerSide / Math.abs(curvature[k]!), Math.sqrt(changePerSide / change));
    sizes[k] = Math.min(wall[k]!, coarseness * Math.min(bend, curve.length / leastSides));
  }
  // Neighbouring sides must not differ more than the growth allows; twice round closes the circle.
  for (let k = 1; k < 2 * samples; k++) {
    const here = k % samples;
    sizes[here] = Math.min(sizes[here]!, sizes[(k - 1) % samples]! + growth * step);
  }
  for (let k = 2 * samples - 2; k >= 0; k--) {
    const here = k % samples;
    sizes[here] = Math.min(sizes[here]!, sizes[(k + 1) % samples]! + growth * step);
  }
  refuseMany(sizes, step, Math.min(...wall) / perGap);
  const arcs = divide(curve.length, samples, (k) => sizes[k]!, 2).subarray(0, -1);

  const x = new Float64Array(arcs.length);
  const y = new Float64Array(arcs.length);
  const size = new Float64Array(arcs.length);
  const ring = new Float64Array(arcs.length);
  arcs.forEach((arc, i) => {
    curve.at(arc, point);
    x[i] = point[0]!;
    y[i] = point[1]!;
    size[i] = sizes[Math.min(samples - 1, Math.floor(arc / step))]!;
    ring[i] = Math.min(ringPerSize * size[i]!, ringPerGap * gap(x[i]!, y[i]!));
  });
  return {
    arcs,
    ring,
    at(px, py) {
      let least = coarseness * largest(px, py);
      for (let i = 0; i < size.length; i++) {
        const room = (least - size[i]!) / growth;
        if (room <= 0) continue;
        const dx = px - x[i]!;
        const dy = py - y[i]!;
        const square = dx * dx + dy * dy;
        if (square < room * room) least = size[i]! + growth * Math.sqrt(square);
      }
      return least;
    },
  };
}

/** Before any is made. */
function refuseMany(sizes: Float64Array, step: number, gap: number): void {
  const sides = sizes.reduce((sum, size) => sum + step / size, 0);
  if (sides <= mostSides) return;
  throw new InputError({
    path: 'channel',
    expected: `an outline with at most ${mostSides} sides of triangles round it`,
    received: `one that takes about ${Number(sides.toPrecision(2))}, ${Number(gap.toPrecision(2))} mm from a border`,
    remedy: 'keep it further from the border, round its tips, or ask for a coarser mesh',
  });
}

/** Sizes around several edges of one body, which are borders to each other. */
export interface ChannelSizes {
  readonly edges: readonly { readonly curve: EdgeCurve; readonly size: ChannelSize }[];
  /** Side length wanted at a point of the section; without a channel what is allowed there. */
  at(x: number, y: number): number;
}

export function channelSizes(curves: readonly EdgeCurve[], options: SizeOptions): ChannelSizes {
  const { coarseness, gap, largest } = options;
  const edges = curves.map((curve) => {
    const others = curves.filter((other) => other !== curve).map(distanceFrom);
    const ownGap = (x: number, y: number) => others.reduce((least, from) => Math.min(least, from(x, y)), gap(x, y));
    return { curve, size: channelSize(curve, { ...options, gap: ownGap }) };
  });
  const [first, ...others] = edges;
  return {
    edges,
    // Of each edge it is no more than what is allowed.
    at: (x, y) =>
      first === undefined
        ? coarseness * largest(x, y)
        : others.reduce((least, { size }) => Math.min(least, size.at(x, y)), first.size.at(x, y)),
  };
}

/** Distance from a curve, by its points: no more than it is, nor less by more than half of what lies between two of them. */
function distanceFrom(curve: EdgeCurve): (x: number, y: number) => number {
  const point = new Float64Array(5);
  const places = Array.from({ length: samples }, (_, k) => {
    curve.at((k * curve.length) / samples, point);
    return [point[0]!, point[1]!] as const;
  });
  return (px, py) => {
    let least = Number.POSITIVE_INFINITY;
    for (const [x, y] of places) least = Math.min(least, (x - px) ** 2 + (y - py) ** 2);
    return Math.sqrt(least);
  };
}

/**
 * Divides a path of `length` so that its parts follow `sizeOf(k)`, the size wanted in the middle of the k-th of `count` equal steps:
 * positions from 0 to `length`, both included; the number of parts is a multiple of `multiple`.
 */
export function divide(length: number, count: number, sizeOf: (k: number) => number, multiple = 1): Float64Array {
  const step = length / count;
  const sum = new Float64Array(count + 1);
  for (let k = 0; k < count; k++) sum[k + 1] = sum[k]! + step / sizeOf(k);
  const parts = Math.max(1, Math.ceil(sum[count]! / multiple - 1e-9)) * multiple;
  const positions = new Float64Array(parts + 1);
  let k = 0;
  for (let i = 1; i < parts; i++) {
    const target = (sum[count]! * i) / parts;
    while (sum[k + 1]! < target) k++;
    positions[i] = step * (k + (target - sum[k]!) / (sum[k + 1]! - sum[k]!));
  }
  positions[parts] = length;
  return positions;
}
