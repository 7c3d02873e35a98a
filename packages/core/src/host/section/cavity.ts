import { InputError } from '../../errors.js';
import { sideKey } from '../../mesh/quad/index.js';
import { encroachedSegments, triangulate } from '../../mesh/triangle/index.js';
import type { Division, Face } from './division.js';
import { areaOf, type Polygon } from './outline-border.js';

const unfit = (received: string) =>
  new InputError({
    path: 'host.mesh',
    expected: 'elements of the filler that leave one opening around the channel',
    received,
    remedy: 'mesh the filler more finely, in elements of more even size',
  });

/** A hole in the filler's elements, ready for others. */
export interface Cavity {
  /** Its border, counter-clockwise: numbers of the division's corners. */
  readonly loop: readonly number[];
  /** All faces outside it. */
  readonly kept: readonly Face[];
}

/** The cavity's own triangles: corners of the loop by number `0 … loop - 1`, then those of the inner loop, then the new ones. */
export interface Filling extends Polygon {
  readonly triangles: Int32Array;
}

/** What is to be surrounded by new elements, and what of the old ones goes. */
export interface Surrounded {
  readonly division: Division;
  /** Number of the filler's surface. */
  readonly filler: number;
  /** Distance from an inner loop, mm; negative inside it. */
  gap(x: number, y: number): number;
  /** Elements that come nearer to it than this go, and those that come nearer than half their own length. */
  readonly least: number;
}

/**
 * Takes the filler's elements out where they come near to an inner loop. Elements in the filler's tips stay: whoever meshed them has
 * resolved them. Throws `InputError` where they leave no opening in one piece.
 */
export function openCavity({ division, filler, gap, least }: Surrounded): Cavity {
  const { x, y } = division;
  const sidesOf = ({ corners }: Face) => corners.map((a, i) => [a, corners[(i + 1) % corners.length]!] as const);
  const own = division.faces().filter((face) => division.surfaceOf(face) === filler);
  const out = new Set<Face>();
  const isNear = (face: Face) => {
    const long = sidesOf(face).reduce((most, [a, b]) => Math.max(most, Math.hypot(x[a]! - x[b]!, y[a]! - y[b]!)), 0);
    const room = Math.max(least, 0.5 * long);
    return (
      face.corners.some((corner) => gap(x[corner]!, y[corner]!) < room) ||
      sidesOf(face).some(([a, b]) => gap(...division.along(a, b, 0.5)) < room)
    );
  };
  for (const face of own) if (isNear(face)) out.add(face);
  for (let pass = 0; pass < 100; pass++) {
    const next = new Map<number, number[]>();
    for (const face of out)
      for (const [a, b] of sidesOf(face))
        if (!division.beside(a, b).some((other) => other !== face && out.has(other)))
          next.set(a, [...(next.get(a) ?? []), b]);
    // Where the border of the cavity touches itself, the elements between go as well.
    const pinched = new Set([...next].filter(([, list]) => list.length > 1).map(([corner]) => corner));
    if (pinched.size > 0) {
      const more = own.filter((face) => !out.has(face) && face.corners.some((corner) => pinched.has(corner)));
      if (more.length === 0) break;
      for (const face of more) out.add(face);
      continue;
    }
    const loops = loopsOf(next);
    const polygonOf = (loop: readonly number[]) => ({ x: loop.map((c) => x[c]!), y: loop.map((c) => y[c]!) });
    loops.sort((a, b) => areaOf(polygonOf(b)) - areaOf(polygonOf(a)));
    const [outer, ...others] = loops;
    if (others.length === 0) return { loop: outer!, kept: division.faces().filter((face) => !out.has(face)) };
    // A part of the cavity by itself stays; an island in it goes.
    const apart = new Set(others.filter((loop) => areaOf(polygonOf(loop)) > 0).flat());
    const island = new Set(others.filter((loop) => areaOf(polygonOf(loop)) < 0).flat());
    for (const face of own)
      if (out.has(face) ? face.corners.some((c) => apart.has(c)) : face.corners.some((c) => island.has(c)))
        if (out.has(face)) out.delete(face);
        else out.add(face);
  }
  throw unfit('an opening that meets itself');
}

function loopsOf(next: ReadonlyMap<number, readonly number[]>): number[][] {
  const left = new Set(next.keys());
  const loops: number[][] = [];
  for (const start of next.keys()) {
    if (!left.has(start)) continue;
    const loop: number[] = [];
    for (let at = start; left.has(at); at = next.get(at)![0]!) {
      left.delete(at);
      loop.push(at);
    }
    loops.push(loop);
  }
  return loops;
}

/** Passes in which sides of a cavity are halved until the triangles take every one of them. */
const passes = 12;

/**
 * Fills a cavity around an inner loop with triangles; sides of the cavity that are too long for what is opposite are halved, in the elements outside as
 * well. Throws `InputError` where that leads to no end.
 */
export function fillCavity(
  surrounded: Surrounded,
  inner: Polygon,
  sizeAt: (x: number, y: number) => number,
): { readonly cavity: Cavity; readonly filling: Filling } {
  const { division } = surrounded;
  for (let pass = 0; ; pass++) {
    const cavity = openCavity(surrounded);
    const { loop } = cavity;
    const loops = [{ x: loop.map((c) => division.x[c]!), y: loop.map((c) => division.y[c]!) }, inner];
    const halve = (k: number) => {
      const [a, b] = [loop[k]!, loop[(k + 1) % loop.length]!];
      if (division.beside(a, b).length > 0) division.halve(a, b);
    };
    const tight = encroachedSegments(loops).filter((k) => k < loop.length);
    if (tight.length > 0 && pass < passes / 2) {
      tight.forEach(halve);
      continue;
    }
    const filling = triangulate(loops, sizeAt);
    const missing = missingSides(filling.triangles, [loop.length, inner.x.length]);
    if (missing.length === 0) return { cavity, filling };
    if (pass >= passes || missing.some((k) => k >= loop.length))
      throw unfit(`an opening with ${missing.length} sides that no triangle fits`);
    missing.forEach(halve);
  }
}

/** Sides of the loops that no triangle has. */
function missingSides(triangles: Int32Array, sizes: readonly number[]): number[] {
  const known = new Set<number>();
  for (let t = 0; t < triangles.length; t += 3)
    for (let k = 0; k < 3; k++) known.add(sideKey(triangles[t + k]!, triangles[t + ((k + 1) % 3)]!));
  const missing: number[] = [];
  let first = 0;
  for (const size of sizes) {
    for (let k = 0; k < size; k++)
      if (!known.has(sideKey(first + k, first + ((k + 1) % size)))) missing.push(first + k);
    first += size;
  }
  return missing;
}
