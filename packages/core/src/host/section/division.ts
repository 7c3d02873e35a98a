import { sideKey } from '../../mesh/quad/index.js';
import type { MeshFile } from './mesh-file.js';
import { surfaceOf } from './topology.js';

/** mm */
export type Place = readonly [x: number, y: number];

/** An element or a part of one: its corners, counter-clockwise, and where they lie in the file's element that it is part of. */
export interface Face {
  /** Quadrilaterals are numbered first. */
  readonly element: number;
  readonly corners: readonly number[];
  /** Two coordinates a corner: (-1..1)^2 of a quadrilateral, `L2, L3` of a triangle. */
  readonly at: readonly number[];
}

/** A mesh with its elements divided where something wanted smaller ones. Shapes stay as the file has them. */
export interface Division {
  readonly x: readonly number[];
  readonly y: readonly number[];
  faces(): Face[];
  surfaceOf(face: Face): number;
  /** The place of coordinates of a face's element. */
  place(element: number, a: number, b: number): Place;
  /** What is on both sides of a side: one face or two. */
  beside(a: number, b: number): readonly Face[];
  /** Sides of a named curve, `(end, end)` each. */
  curve(name: string): readonly (readonly [number, number])[];
  /** A point of the side from `a` to `b`, at a fraction of the way. */
  along(a: number, b: number, fraction: number): Place;
  /** Divides until no side is longer than `wanted` at its middle; faces that `wanted` has nothing to say of (Infinity) stay as they are. */
  refine(wanted: (x: number, y: number) => number): void;
  /** Halves one side and what it takes besides. */
  halve(a: number, b: number): void;
  /** Makes triangles of all quadrilaterals. */
  triangulate(): void;
}

/**
 * Bisection by longest sides (Rivara, Int. J. Numer. Meth. Eng. 20 (1984) 745-756): conforming, and no angle falls below half of the least one
 * that was there. A quadrilateral stays one until it must be divided.
 */
export function divide(file: MeshFile): Division {
  return new Bisection(file);
}

type Side = readonly [a: number, b: number];

const sidesOf = ({ corners }: Face): Side[] => corners.map((a, i) => [a, corners[(i + 1) % corners.length]!]);

/** Where a corner lies in the element of its face. */
function coordinates({ corners, at }: Face, corner: number): readonly [number, number] {
  const i = corners.indexOf(corner);
  return [at[2 * i]!, at[2 * i + 1]!];
}

class Bisection implements Division {
  readonly x: number[] = [];
  readonly y: number[] = [];
  readonly #file: MeshFile;
  readonly #quadCount: number;
  readonly #faces = new Set<Face>();
  readonly #owners = new Map<number, Face[]>();
  /** Curves that a side belongs to. */
  readonly #curves = new Map<number, string[]>();
  /** Faces that the last halving has made. */
  #made: Face[] = [];

  constructor(file: MeshFile) {
    this.#file = file;
    this.#quadCount = file.quadSurface.length;
    const cornerOf = new Map<number, number>();
    const corner = (node: number) => {
      let at = cornerOf.get(node);
      if (at === undefined) {
        at = this.#corner(file.x[node]!, file.y[node]!);
        cornerOf.set(node, at);
      }
      return at;
    };
    for (let e = 0; e < this.#quadCount; e++) {
      const corners = [0, 2, 8, 6].map((i) => corner(file.quads[9 * e + i]!));
      this.#add({ element: e, corners, at: [-1, -1, 1, -1, 1, 1, -1, 1] });
    }
    for (let e = 0; e < file.triangleSurface.length; e++) {
      const corners = [0, 1, 2].map((i) => corner(file.triangles[6 * e + i]!));
      this.#add({ element: this.#quadCount + e, corners, at: [0, 0, 1, 0, 0, 1] });
    }
    for (const [name, nodes] of file.curves)
      for (let i = 0; i < nodes.length; i += 3) {
        const key = sideKey(cornerOf.get(nodes[i]!)!, cornerOf.get(nodes[i + 1]!)!);
        this.#curves.set(key, [...(this.#curves.get(key) ?? []), name]);
      }
  }

  faces(): Face[] {
    return [...this.#faces];
  }

  surfaceOf({ element }: Face): number {
    return surfaceOf(this.#file, element);
  }

  place(element: number, a: number, b: number): Place {
    const { x, y, quads, triangles } = this.#file;
    const isQuad = element < this.#quadCount;
    const nodes = isQuad ? quads : triangles;
    const first = isQuad ? 9 * element : 6 * (element - this.#quadCount);
    const N = isQuad ? quadShape(a, b) : triangleShape(a, b);
    let [px, py] = [0, 0];
    for (let i = 0; i < N.length; i++) {
      const node = nodes[first + i]!;
      px += N[i]! * x[node]!;
      py += N[i]! * y[node]!;
    }
    return [px, py];
  }

  beside(a: number, b: number): readonly Face[] {
    return this.#owners.get(sideKey(a, b)) ?? [];
  }

  curve(name: string): Side[] {
    return [...this.#curves].flatMap(([key, list]) =>
      list.includes(name) ? [[Math.floor(key / 2 ** 26), key % 2 ** 26] as const] : [],
    );
  }

  along(a: number, b: number, fraction: number): Place {
    const [face] = this.#owners.get(sideKey(a, b))!;
    const [from, to] = [coordinates(face!, a), coordinates(face!, b)];
    const between = (i: 0 | 1) => from[i] + fraction * (to[i] - from[i]);
    return this.place(face!.element, between(0), between(1));
  }

  refine(wanted: (x: number, y: number) => number): void {
    const { x, y } = this;
    const isLong = ([a, b]: Side) => this.#length(a, b) > wanted((x[a]! + x[b]!) / 2, (y[a]! + y[b]!) / 2);
    const stack = this.faces().reverse();
    while (stack.length > 0) {
      const face = stack.pop()!;
      if (!this.#faces.has(face)) continue;
      const long = sidesOf(face).find(isLong);
      if (long === undefined) continue;
      this.#made = [];
      this.halve(...(face.corners.length > 3 ? long : this.#longest(face)));
      stack.push(...this.#made.filter((one) => this.#faces.has(one)), face);
    }
  }

  /** Divides from one triangle to the next with a longer side, until side `(a, b)` is halved. */
  halve(a: number, b: number): void {
    const key = sideKey(a, b);
    for (let [face] = this.beside(a, b); face !== undefined; [face] = this.beside(a, b))
      for (;;) {
        if (face.corners.length > 3) {
          this.#cutQuad(face);
          break;
        }
        const side = this.#longest(face);
        const other = this.beside(...side).find((one) => one !== face);
        const isLongestOfBoth =
          other === undefined || (other.corners.length === 3 && sideKey(...this.#longest(other)) === sideKey(...side));
        if (isLongestOfBoth) {
          this.#halveSide(...side);
          if (sideKey(...side) === key) return;
          break;
        }
        face = other;
      }
  }

  triangulate(): void {
    for (const face of this.faces()) if (face.corners.length > 3) this.#cutQuad(face);
  }

  #corner(px: number, py: number): number {
    this.y.push(py);
    return this.x.push(px) - 1;
  }

  #length(a: number, b: number): number {
    return Math.hypot(this.x[a]! - this.x[b]!, this.y[a]! - this.y[b]!);
  }

  #add(face: Face): void {
    this.#faces.add(face);
    for (const side of sidesOf(face)) {
      const list = this.#owners.get(sideKey(...side));
      if (list === undefined) this.#owners.set(sideKey(...side), [face]);
      else list.push(face);
    }
  }

  /** Puts parts in the place of a face; `whole` knows the coordinates of all their corners. */
  #cut(face: Face, whole: Face, ...parts: readonly (readonly number[])[]): void {
    this.#faces.delete(face);
    for (const side of sidesOf(face)) {
      const list = this.#owners.get(sideKey(...side))!;
      list.splice(list.indexOf(face), 1);
    }
    for (const corners of parts) {
      const at = corners.flatMap((corner) => [...coordinates(whole, corner)]);
      const part = { element: face.element, corners, at };
      this.#add(part);
      this.#made.push(part);
    }
  }

  #cutQuad(face: Face): void {
    const [a, b, c, d] = face.corners as [number, number, number, number];
    if (this.#length(a, c) <= this.#length(b, d) * (1 + 1e-9)) this.#cut(face, face, [a, b, c], [a, c, d]);
    else this.#cut(face, face, [a, b, d], [b, c, d]);
  }

  #longest(face: Face): Side {
    let best = sidesOf(face)[0]!;
    for (const side of sidesOf(face).slice(1)) {
      const [here, there] = [this.#length(...side), this.#length(...best)];
      // Sides of equal length by their numbers, so that both neighbours choose alike.
      const equal = Math.abs(here - there) <= 1e-9 * there;
      if (equal ? sideKey(...side) < sideKey(...best) : here > there) best = side;
    }
    return best;
  }

  /** Halves a side that is the longest of the triangles beside it. */
  #halveSide(a: number, b: number): void {
    const middle = this.#corner(...this.along(a, b, 0.5));
    for (const face of [...this.beside(a, b)]) {
      const i = sidesOf(face).findIndex((side) => sideKey(...side) === sideKey(a, b));
      const [from, to, tip] = [0, 1, 2].map((k) => face.corners[(i + k) % 3]!) as [number, number, number];
      const [f, t] = [coordinates(face, from), coordinates(face, to)];
      const corners = [...face.corners, middle];
      const whole = { ...face, corners, at: [...face.at, (f[0] + t[0]) / 2, (f[1] + t[1]) / 2] };
      this.#cut(face, whole, [from, middle, tip], [middle, to, tip]);
    }
    const curves = this.#curves.get(sideKey(a, b));
    if (curves === undefined) return;
    this.#curves.delete(sideKey(a, b));
    this.#curves.set(sideKey(a, middle), curves);
    this.#curves.set(sideKey(middle, b), curves);
  }
}

const line = (s: number) => [(s * (s - 1)) / 2, 1 - s * s, (s * (s + 1)) / 2] as const;

function quadShape(a: number, b: number): readonly number[] {
  const [along, across] = [line(a), line(b)];
  return across.flatMap((row) => along.map((column) => row * column));
}

function triangleShape(L2: number, L3: number): readonly number[] {
  const L1 = 1 - L2 - L3;
  return [L1 * (2 * L1 - 1), L2 * (2 * L2 - 1), L3 * (2 * L3 - 1), 4 * L1 * L2, 4 * L2 * L3, 4 * L3 * L1];
}
