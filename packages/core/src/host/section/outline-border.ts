import type { Border } from '../../outline/index.js';

/** A closed polygon, counter-clockwise, mm. */
export interface Polygon {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
}

/** Cells of the search grid along the longer side of the polygon's box. */
const cellsAlong = 48;

/**
 * Signed distance to a polygon, positive inside. A grid over its box keeps for each cell the sides that can be nearest to a point of it,
 * worked out when a point first falls there; outside the box all sides are looked at.
 */
export function polygonBorder({ x, y }: Polygon): Border {
  const count = x.length;
  const box = boxOf({ x, y });
  const size = Math.max(box.xMax - box.xMin, box.yMax - box.yMin) / cellsAlong;
  const columns = Math.max(1, Math.ceil((box.xMax - box.xMin) / size));
  const rows = Math.max(1, Math.ceil((box.yMax - box.yMin) / size));
  const cells: (Int32Array | undefined)[] = new Array(columns * rows);
  const all = Int32Array.from({ length: count }, (_, i) => i);
  /** Of the point looked at last: the square of its distance, its side, and whether the foot is one of the side's ends (-1, 1). */
  let least = 0;
  let nearest = 0;
  let end = 0;

  const look = (px: number, py: number, sides: Int32Array): void => {
    least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < sides.length; k++) {
      const i = sides[k]!;
      const j = i + 1 === count ? 0 : i + 1;
      const ex = x[j]! - x[i]!;
      const ey = y[j]! - y[i]!;
      let dx = px - x[i]!;
      let dy = py - y[i]!;
      const share = (dx * ex + dy * ey) / (ex * ex + ey * ey);
      const foot = Math.min(1, Math.max(0, share));
      dx -= foot * ex;
      dy -= foot * ey;
      const square = dx * dx + dy * dy;
      if (square < least) {
        least = square;
        nearest = i;
        end = share >= 1 ? 1 : share > 0 ? 0 : -1;
      }
    }
  };
  const candidates = (cell: number): Int32Array => {
    const middleX = box.xMin + ((cell % columns) + 0.5) * size;
    const middleY = box.yMin + (Math.floor(cell / columns) + 0.5) * size;
    look(middleX, middleY, all);
    const reach = Math.sqrt(least) + Math.SQRT2 * size;
    const one = new Int32Array(1);
    const near = all.filter((i) => {
      one[0] = i;
      look(middleX, middleY, one);
      return least <= reach * reach;
    });
    cells[cell] = near;
    return near;
  };
  /** Twice the area to the left of the way along side `i` to a point, over the side's length. */
  const leftOf = (i: number, px: number, py: number): number => {
    const j = i + 1 === count ? 0 : i + 1;
    const [ex, ey] = [x[j]! - x[i]!, y[j]! - y[i]!];
    return (ex * (py - y[i]!) - ey * (px - x[i]!)) / Math.sqrt(ex * ex + ey * ey);
  };
  return {
    distance(px, py) {
      const column = Math.floor((px - box.xMin) / size);
      const row = Math.floor((py - box.yMin) / size);
      const outside = !(column >= 0 && row >= 0 && column < columns && row < rows);
      const cell = row * columns + column;
      look(px, py, outside ? all : (cells[cell] ?? candidates(cell)));
      if (outside) return -Math.sqrt(least);
      const distance = Math.sqrt(least);
      const i = nearest;
      // At a corner both sides tell: the sum of their unit normals points inwards.
      const other = end === 0 ? i : end > 0 ? (i + 1) % count : (i + count - 1) % count;
      return leftOf(i, px, py) + leftOf(other, px, py) < 0 ? -distance : distance;
    },
  };
}

export interface Box {
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
}

export function boxOf({ x, y }: Polygon): Box {
  let [xMin, xMax, yMin, yMax] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < x.length; i++) {
    xMin = Math.min(xMin, x[i]!);
    xMax = Math.max(xMax, x[i]!);
    yMin = Math.min(yMin, y[i]!);
    yMax = Math.max(yMax, y[i]!);
  }
  return { xMin, xMax, yMin, yMax };
}

export function areaOf({ x, y }: Polygon): number {
  let twice = 0;
  for (let i = 0; i < x.length; i++) {
    const j = (i + 1) % x.length;
    twice += x[i]! * y[j]! - x[j]! * y[i]!;
  }
  return twice / 2;
}

/** Where the distance to a border is largest, and how large it is there. */
export function largestCircleIn(
  border: Border,
  box: Box,
): { readonly at: readonly [number, number]; readonly radius: number } {
  const whole = Math.max(box.xMax - box.xMin, box.yMax - box.yMin);
  let best = { x: 0, y: 0, radius: Number.NEGATIVE_INFINITY };
  const tell = (x: number, y: number) => {
    const radius = border.distance(x, y);
    if (radius > best.radius) best = { x, y, radius };
    return radius;
  };
  // Distances grow at most as fast as the way: a square that cannot hold a better point is let go.
  let squares: { x: number; y: number; half: number }[] = [];
  const parts = 12;
  for (let i = 0; i < parts; i++)
    for (let j = 0; j < parts; j++)
      squares.push({
        x: box.xMin + ((i + 0.5) * whole) / parts,
        y: box.yMin + ((j + 0.5) * whole) / parts,
        half: whole / parts / 2,
      });
  for (let pass = 0; pass < 40 && squares.length > 0; pass++) {
    const told = squares.map((square) => ({ ...square, most: tell(square.x, square.y) + Math.SQRT2 * square.half }));
    squares = told
      .filter(({ most }) => most > best.radius * (1 + 1e-4))
      .sort((a, b) => b.most - a.most || a.x - b.x || a.y - b.y)
      .slice(0, 2000)
      .flatMap(({ x, y, half }) =>
        [-0.5, 0.5].flatMap((u) => [-0.5, 0.5].map((v) => ({ x: x + u * half, y: y + v * half, half: half / 2 }))),
      );
  }
  for (let step = 0.02 * best.radius; step > 1e-15 * whole; step /= 2)
    for (let moved = true; moved; ) {
      const { x, y, radius } = best;
      for (let k = 0; k < 16; k++) {
        const angle = (2 * Math.PI * k) / 16;
        tell(x + step * Math.cos(angle), y + step * Math.sin(angle));
      }
      moved = best.radius > radius * (1 + 1e-15);
    }
  return { at: [best.x, best.y], radius: best.radius };
}
