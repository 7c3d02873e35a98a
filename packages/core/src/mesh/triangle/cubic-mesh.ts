import type { SectionStiffness } from '../../material/index.js';

/** Where a triangle lies and what it is made of. */
export interface Zone {
  /** One of its host's places. */
  readonly place: string;
  /** Index of the layer counted from the filler; -1 in the filler. */
  readonly layer: number;
  readonly material: SectionStiffness;
  /**
   * The normal axis n of the material (through the thickness): at a fixed angle from x in radians, towards a centre
   * (`n` points to the centre), or at another angle everywhere. The tangent t is n turned by -90 degrees.
   */
  readonly normal:
    | { readonly angle: number }
    | { readonly centre: readonly [number, number] }
    | { angleAt(x: number, y: number): number };
}

/** A plane mesh of ten-node triangles. Lengths in mm. */
export interface CubicMesh {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Ten node numbers per triangle, in the order of `cubic-triangle.ts`. */
  readonly triangles: Int32Array;
  /** Index into `zones` per triangle. */
  readonly zoneOf: Int32Array;
  readonly zones: readonly Zone[];
  /** Named parts of the boundary: four node numbers per side, along the boundary with the body on the left. */
  readonly sides: ReadonlyMap<string, Int32Array>;
}

/** Angle of the material's normal axis at a point, radians. */
export function normalAngle({ normal }: Zone, x: number, y: number): number {
  if ('angle' in normal) return normal.angle;
  return 'centre' in normal ? Math.atan2(normal.centre[1] - y, normal.centre[0] - x) : normal.angleAt(x, y);
}

/** mm */
export type Place = readonly [x: number, y: number];

/** Collects corners, curved sides and triangles; sides are shared by whoever names the same two corners. */
export interface CubicMeshBuilder {
  corner(x: number, y: number): number;
  place(corner: number): Place;
  /**
   * Gives the side from `a` to `b` its own shape, `shape(1/3)` and `shape(2/3)`; the first to name a side shapes it. Throws where a
   * triangle has taken the side as straight already.
   */
  curve(a: number, b: number, shape: (fraction: number) => Place): void;
  /** A counter-clockwise triangle; sides without a shape are straight. `middle`: place of the tenth node. */
  triangle(a: number, b: number, c: number, zone: number, middle?: Place): void;
  /** Adds a side to a named part of the boundary, with the body on its left. */
  side(name: string, a: number, b: number): void;
  finish(zones: readonly Zone[]): CubicMesh;
}

export function createCubicMeshBuilder(): CubicMeshBuilder {
  const x: number[] = [];
  const y: number[] = [];
  const triangles: number[] = [];
  const zoneOf: number[] = [];
  const sides = new Map<string, number[]>();
  /** First of the two nodes of a side, in the direction from its lower to its higher corner number. */
  const sideNodes = new Map<number, number>();
  const straightSides = new Set<number>();
  const node = (px: number, py: number) => {
    y.push(py);
    return x.push(px) - 1;
  };
  const key = (a: number, b: number) => Math.min(a, b) * 2 ** 26 + Math.max(a, b);
  const define = (a: number, b: number, shape: (fraction: number) => Place) => {
    const first = a < b ? shape(1 / 3) : shape(2 / 3);
    const second = a < b ? shape(2 / 3) : shape(1 / 3);
    const at = node(...first);
    node(...second);
    sideNodes.set(key(a, b), at);
    return at;
  };
  /** The two nodes on the way from `a` to `b`. */
  const between = (a: number, b: number): [number, number] => {
    const straight = (f: number): Place => [x[a]! + f * (x[b]! - x[a]!), y[a]! + f * (y[b]! - y[a]!)];
    let first = sideNodes.get(key(a, b));
    if (first === undefined) {
      first = define(a, b, straight);
      straightSides.add(key(a, b));
    }
    return a < b ? [first, first + 1] : [first + 1, first];
  };

  return {
    corner: node,
    place: (corner) => [x[corner]!, y[corner]!],
    curve(a, b, shape) {
      if (straightSides.has(key(a, b))) throw new Error(`the side from corner ${a} to ${b} is straight already`);
      if (!sideNodes.has(key(a, b))) define(a, b, shape);
    },
    triangle(a, b, c, zone, middle) {
      const rim = [...between(a, b), ...between(b, c), ...between(c, a)];
      // The middle node that keeps every quadratic map quadratic: -1/6 of the corners plus 1/4 of the side nodes.
      const balance = (v: number[]) => rim.reduce((sum, i) => sum + v[i]!, 0) / 4 - (v[a]! + v[b]! + v[c]!) / 6;
      const centre = middle === undefined ? node(balance(x), balance(y)) : node(...middle);
      triangles.push(a, b, c, ...rim, centre);
      zoneOf.push(zone);
    },
    side(name, a, b) {
      const list = sides.get(name) ?? [];
      list.push(a, ...between(a, b), b);
      sides.set(name, list);
    },
    finish: (zones) => ({
      x: Float64Array.from(x),
      y: Float64Array.from(y),
      triangles: Int32Array.from(triangles),
      zoneOf: Int32Array.from(zoneOf),
      zones,
      sides: new Map([...sides].map(([name, list]) => [name, Int32Array.from(list)])),
    }),
  };
}
