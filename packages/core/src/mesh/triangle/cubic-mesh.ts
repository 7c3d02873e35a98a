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

/** A class: methods of an object made anew for each mesh would be compiled for each mesh. */
class Builder implements CubicMeshBuilder {
  readonly #x: number[] = [];
  readonly #y: number[] = [];
  readonly #triangles: number[] = [];
  readonly #zoneOf: number[] = [];
  readonly #sides = new Map<string, number[]>();
  /** First of the two nodes of a side, in the direction from its lower to its higher corner number. */
  readonly #sideNodes = new Map<number, number>();
  readonly #straightSides = new Set<number>();

  corner(px: number, py: number): number {
    this.#y.push(py);
    return this.#x.push(px) - 1;
  }

  place(corner: number): Place {
    return [this.#x[corner]!, this.#y[corner]!];
  }

  curve(a: number, b: number, shape: (fraction: number) => Place): void {
    const side = sideKey(a, b);
    if (this.#straightSides.has(side)) throw new Error(`the side from corner ${a} to ${b} is straight already`);
    if (this.#sideNodes.has(side)) return;
    const [first, second] = a < b ? [shape(1 / 3), shape(2 / 3)] : [shape(2 / 3), shape(1 / 3)];
    this.#sideNodes.set(side, this.corner(...first));
    this.corner(...second);
  }

  triangle(a: number, b: number, c: number, zone: number, middle?: Place): void {
    const [ab, ba] = this.#between(a, b);
    const [bc, cb] = this.#between(b, c);
    const [ca, ac] = this.#between(c, a);
    // The middle node that keeps every quadratic map quadratic: -1/6 of the corners plus 1/4 of the side nodes.
    const balance = (v: readonly number[]) =>
      (v[ab]! + v[ba]! + v[bc]! + v[cb]! + v[ca]! + v[ac]!) / 4 - (v[a]! + v[b]! + v[c]!) / 6;
    const [x, y] = middle ?? [balance(this.#x), balance(this.#y)];
    this.#triangles.push(a, b, c, ab, ba, bc, cb, ca, ac, this.corner(x, y));
    this.#zoneOf.push(zone);
  }

  side(name: string, a: number, b: number): void {
    const list = this.#sides.get(name) ?? [];
    list.push(a, ...this.#between(a, b), b);
    this.#sides.set(name, list);
  }

  finish(zones: readonly Zone[]): CubicMesh {
    return {
      x: Float64Array.from(this.#x),
      y: Float64Array.from(this.#y),
      triangles: Int32Array.from(this.#triangles),
      zoneOf: Int32Array.from(this.#zoneOf),
      zones,
      sides: new Map([...this.#sides].map(([name, list]) => [name, Int32Array.from(list)])),
    };
  }

  /** The two nodes on the way from `a` to `b`. */
  #between(a: number, b: number): [number, number] {
    const side = sideKey(a, b);
    let first = this.#sideNodes.get(side);
    if (first === undefined) {
      const [near, far] = a < b ? [1 / 3, 2 / 3] : [2 / 3, 1 / 3];
      first = this.#onWay(a, b, near);
      this.#onWay(a, b, far);
      this.#sideNodes.set(side, first);
      this.#straightSides.add(side);
    }
    return a < b ? [first, first + 1] : [first + 1, first];
  }

  /** A node on the straight line between two corners. */
  #onWay(a: number, b: number, share: number): number {
    const [x, y] = [this.#x, this.#y];
    return this.corner(x[a]! + share * (x[b]! - x[a]!), y[a]! + share * (y[b]! - y[a]!));
  }
}

const sideKey = (a: number, b: number): number => Math.min(a, b) * 2 ** 26 + Math.max(a, b);

export function createCubicMeshBuilder(): CubicMeshBuilder {
  return new Builder();
}
