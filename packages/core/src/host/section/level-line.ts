import type { Border } from '../../outline/index.js';
import type { Box, Polygon } from './outline-border.js';

/** Squares of the first look along the longer side of the box. */
const coarse = 24;

/**
 * The lines on which a distance has a value, as closed polygons with the larger values on their left. Only squares that can hold a
 * piece of them are divided, down to about `step`: a distance changes no faster than the way. Points lie on the line itself.
 */
export function levelLines(border: Border, level: number, box: Box, step: number): Polygon[] {
  const margin = 2 * step;
  const whole = Math.max(box.xMax - box.xMin, box.yMax - box.yMin) + 2 * margin;
  const depth = Math.max(0, Math.ceil(Math.log2(whole / coarse / step)));
  const size = whole / coarse / 2 ** depth;
  // Off the box's own lines, on which borders like to lie.
  const [x0, y0] = [box.xMin - margin - 0.137 * size, box.yMin - margin - 0.119 * size];
  const value = (i: number, j: number) => border.distance(x0 + i * size, y0 + j * size) - level;
  const corners = new Map<number, number>();
  const width = coarse * 2 ** depth + 2;
  const at = (i: number, j: number) => {
    const key = j * width + i;
    let found = corners.get(key);
    if (found === undefined) {
      found = value(i, j);
      corners.set(key, found);
    }
    return found;
  };
  /** From the crossing of one grid edge to that of the next, by their keys; and the places of crossings. */
  const next = new Map<number, number>();
  const places = new Map<number, readonly [number, number]>();
  const crossing = (i: number, j: number, upright: boolean): number => {
    const key = 2 * (j * width + i) + (upright ? 1 : 0);
    if (!places.has(key)) {
      const [di, dj] = upright ? [0, 1] : [1, 0];
      let [low, high] = [0, 1];
      const below = at(i, j) < 0;
      for (let pass = 0; pass < 32; pass++) {
        const middle = (low + high) / 2;
        if (value(i + middle * di, j + middle * dj) < 0 === below) low = middle;
        else high = middle;
      }
      const share = (low + high) / 2;
      places.set(key, [x0 + (i + share * di) * size, y0 + (j + share * dj) * size]);
    }
    return key;
  };
  const leaf = (i: number, j: number) => {
    const values = [at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)];
    // Sides of the square, counter-clockwise: where the value falls below zero a piece begins, where it rises it ends.
    const sides = [
      () => crossing(i, j, false),
      () => crossing(i + 1, j, true),
      () => crossing(i, j + 1, false),
      () => crossing(i, j, true),
    ];
    const enters: number[] = [];
    const leaves: number[] = [];
    for (let k = 0; k < 4; k++) {
      const [here, there] = [values[k]! < 0, values[(k + 1) % 4]! < 0];
      if (here === there) continue;
      if (here) leaves.push(k);
      else enters.push(k);
    }
    for (const enter of enters) {
      // The next side round at which the larger values end.
      const leave = [1, 2, 3].map((turn) => (enter + 4 - turn) % 4).find((k) => leaves.includes(k))!;
      next.set(sides[enter]!(), sides[leave]!());
    }
  };
  const look = (i: number, j: number, span: number) => {
    if (Math.abs(value(i + span / 2, j + span / 2)) > (span * size) / Math.SQRT2) return;
    if (span === 1) {
      leaf(i, j);
      return;
    }
    const half = span / 2;
    look(i, j, half);
    look(i + half, j, half);
    look(i, j + half, half);
    look(i + half, j + half, half);
  };
  for (let i = 0; i < coarse; i++) for (let j = 0; j < coarse; j++) look(i * 2 ** depth, j * 2 ** depth, 2 ** depth);
  return chained(next, places);
}

function chained(next: Map<number, number>, places: ReadonlyMap<number, readonly [number, number]>): Polygon[] {
  const loops: Polygon[] = [];
  for (const start of [...next.keys()]) {
    if (!next.has(start)) continue;
    const x: number[] = [];
    const y: number[] = [];
    let at: number | undefined = start;
    while (at !== undefined && next.has(at)) {
      const [px, py] = places.get(at)!;
      x.push(px);
      y.push(py);
      const follows: number = next.get(at)!;
      next.delete(at);
      at = follows;
    }
    if (x.length > 2) loops.push({ x, y });
  }
  return loops;
}
