import type { MeshFile } from './mesh-file.js';
import { sideKey } from './topology.js';

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
  const x: number[] = [];
  const y: number[] = [];
  const faces = new Set<Face>();
  const owners = new Map<number, Face[]>();
  const names = new Map<number, string[]>();
  const quadCount = file.quadSurface.length;

  const sidesOf = ({ corners }: Face) => corners.map((a, i) => [a, corners[(i + 1) % corners.length]!] as const);
  const add = (face: Face) => {
    faces.add(face);
    for (const [a, b] of sidesOf(face)) {
      const list = owners.get(sideKey(a, b));
      if (list === undefined) owners.set(sideKey(a, b), [face]);
      else list.push(face);
    }
  };
  const remove = (face: Face) => {
    faces.delete(face);
    for (const [a, b] of sidesOf(face)) {
      const list = owners.get(sideKey(a, b))!;
      list.splice(list.indexOf(face), 1);
    }
  };
  const length = (a: number, b: number) => Math.hypot(x[a]! - x[b]!, y[a]! - y[b]!);
  const place = (element: number, a: number, b: number): Place => {
    const isQuad = element < quadCount;
    const nodes = isQuad ? file.quads : file.triangles;
    const first = isQuad ? 9 * element : 6 * (element - quadCount);
    const N = isQuad ? quadShape(a, b) : triangleShape(a, b);
    let [px, py] = [0, 0];
    for (let i = 0; i < N.length; i++) {
      const node = nodes[first + i]!;
      px += N[i]! * file.x[node]!;
      py += N[i]! * file.y[node]!;
    }
    return [px, py];
  };
  const coordinates = ({ corners, at }: Face, corner: number) => {
    const i = corners.indexOf(corner);
    return [at[2 * i]!, at[2 * i + 1]!] as const;
  };
  const along = (a: number, b: number, fraction: number): Place => {
    const [face] = owners.get(sideKey(a, b))!;
    const [from, to] = [coordinates(face!, a), coordinates(face!, b)];
    const between = (i: 0 | 1) => from[i] + fraction * (to[i] - from[i]);
    return place(face!.element, between(0), between(1));
  };

  const cut = (face: Face, ...parts: readonly (readonly number[])[]) => {
    remove(face);
    return parts.map((corners) => {
      const part = { element: face.element, corners, at: corners.flatMap((corner) => [...coordinates(face, corner)]) };
      add(part);
      return part;
    });
  };
  const cutQuad = (face: Face) => {
    const [a, b, c, d] = face.corners as [number, number, number, number];
    return length(a, c) <= length(b, d) * (1 + 1e-9)
      ? cut(face, [a, b, c], [a, c, d])
      : cut(face, [a, b, d], [b, c, d]);
  };
  const longest = (face: Face) => {
    let best = sidesOf(face)[0]!;
    for (const side of sidesOf(face).slice(1)) {
      const [here, there] = [length(...side), length(...best)];
      // Sides of equal length by their numbers, so that both neighbours choose alike.
      const equal = Math.abs(here - there) <= 1e-9 * there;
      if (equal ? sideKey(...side) < sideKey(...best) : here > there) best = side;
    }
    return best;
  };
  const made: Face[] = [];
  /** Halves a side that is the longest of the triangles beside it. */
  const halveSide = (a: number, b: number) => {
    const [px, py] = along(a, b, 0.5);
    const middle = x.push(px) - 1;
    y.push(py);
    const both = [...owners.get(sideKey(a, b))!];
    for (const face of both) {
      const i = face.corners.findIndex((corner, k) => sideKey(corner, face.corners[(k + 1) % 3]!) === sideKey(a, b));
      const [from, to, tip] = [0, 1, 2].map((k) => face.corners[(i + k) % 3]!) as [number, number, number];
      const [f, t] = [coordinates(face, from), coordinates(face, to)];
      const whole: Face = {
        ...face,
        corners: [...face.corners, middle],
        at: [...face.at, (f[0] + t[0]) / 2, (f[1] + t[1]) / 2],
      };
      remove(face);
      for (const corners of [
        [from, middle, tip],
        [middle, to, tip],
      ]) {
        const part = {
          element: face.element,
          corners,
          at: corners.flatMap((corner) => [...coordinates(whole, corner)]),
        };
        add(part);
        made.push(part);
      }
    }
    const curves = names.get(sideKey(a, b));
    if (curves !== undefined) {
      names.delete(sideKey(a, b));
      names.set(sideKey(a, middle), curves);
      names.set(sideKey(middle, b), curves);
    }
  };
  /** Divides from one triangle to the next with a longer side, until side `(a, b)` is halved. */
  const halve = (a: number, b: number) => {
    const key = sideKey(a, b);
    while ((owners.get(key)?.length ?? 0) > 0) {
      let [face] = owners.get(key) as [Face];
      for (;;) {
        if (face.corners.length > 3) {
          made.push(...cutQuad(face));
          break;
        }
        const side = longest(face);
        const other = owners.get(sideKey(...side))!.find((one) => one !== face);
        if (other === undefined || (other.corners.length === 3 && sideKey(...longest(other)) === sideKey(...side))) {
          halveSide(...side);
          break;
        }
        face = other;
      }
    }
  };
  const isLong = (a: number, b: number, wanted: (x: number, y: number) => number) =>
    length(a, b) > wanted((x[a]! + x[b]!) / 2, (y[a]! + y[b]!) / 2);

  const cornerOf = new Map<number, number>();
  const corner = (node: number) => {
    let at = cornerOf.get(node);
    if (at === undefined) {
      at = x.push(file.x[node]!) - 1;
      y.push(file.y[node]!);
      cornerOf.set(node, at);
    }
    return at;
  };
  for (let e = 0; e < quadCount; e++)
    add({
      element: e,
      corners: [0, 2, 8, 6].map((i) => corner(file.quads[9 * e + i]!)),
      at: [-1, -1, 1, -1, 1, 1, -1, 1],
    });
  for (let e = 0; e < file.triangleSurface.length; e++)
    add({
      element: quadCount + e,
      corners: [0, 1, 2].map((i) => corner(file.triangles[6 * e + i]!)),
      at: [0, 0, 1, 0, 0, 1],
    });
  for (const [name, nodes] of file.curves)
    for (let i = 0; i < nodes.length; i += 3) {
      const key = sideKey(cornerOf.get(nodes[i]!)!, cornerOf.get(nodes[i + 1]!)!);
      names.set(key, [...(names.get(key) ?? []), name]);
    }

  return {
    x,
    y,
    faces: () => [...faces],
    surfaceOf: ({ element }) =>
      element < quadCount ? file.quadSurface[element]! : file.triangleSurface[element - quadCount]!,
    place,
    beside: (a, b) => owners.get(sideKey(a, b)) ?? [],
    curve: (name) =>
      [...names].flatMap(([key, list]) =>
        list.includes(name) ? [[Math.floor(key / 2 ** 26), key % 2 ** 26] as const] : [],
      ),
    along,
    halve,
    refine(wanted) {
      const stack = [...faces].reverse();
      while (stack.length > 0) {
        const face = stack.pop()!;
        if (!faces.has(face)) continue;
        const long = sidesOf(face).find((side) => isLong(...side, wanted));
        if (long === undefined) continue;
        made.length = 0;
        halve(...(face.corners.length > 3 ? long : longest(face)));
        stack.push(...made.filter((one) => faces.has(one)), face);
      }
    },
    triangulate() {
      for (const face of [...faces]) if (face.corners.length > 3) cutQuad(face);
    },
  };
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
