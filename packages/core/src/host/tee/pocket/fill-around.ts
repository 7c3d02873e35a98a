import { type SectionMesh, sideKey } from '../../../mesh/quad/index.js';
import { encroachedSegments, type Loop, sizeBeside, triangulate } from '../../../mesh/triangle/index.js';

/** A closed loop of quadratic sides by their nodes: end, middle, end, … the region that it goes round on its left. */
type SideLoop = readonly number[];

/** Sides of a quadrilateral, counter-clockwise: end, middle, end. */
const quadSides = [
  [0, 1, 2],
  [2, 5, 8],
  [8, 7, 6],
  [6, 3, 0],
] as const;

/** Loops of sides that border on no other element, each with what is open on its left. */
function openLoops({ elements, material }: SectionMesh): SideLoop[] {
  const once = new Map<number, readonly [from: number, middle: number, to: number]>();
  for (let e = 0; e < material.length; e++)
    for (const side of quadSides) {
      const [from, middle, to] = side.map((i) => elements[9 * e + i]!) as [number, number, number];
      if (from === to) continue;
      const key = sideKey(from, to);
      if (!once.delete(key)) once.set(key, [to, middle, from]);
    }
  const next = new Map([...once.values()].map((side) => [side[0], side]));
  const loops: number[][] = [];
  for (const start of next.keys()) {
    const loop: number[] = [];
    for (let side = next.get(start); side !== undefined; side = next.get(side[2])) {
      next.delete(side[0]);
      loop.push(side[0], side[1]);
    }
    if (loop.length > 0) loops.push(loop);
  }
  return loops;
}

/** The loop that goes round a place, if one does. */
function loopAround(mesh: SectionMesh, x: number, y: number): SideLoop | undefined {
  // That round the whole body has the place on its other side.
  return openLoops(mesh).find((loop) => turnsAround(mesh, loop, x, y) > Math.PI);
}

function turnsAround({ x, y }: SectionMesh, loop: SideLoop, px: number, py: number): number {
  let sum = 0;
  for (let i = 0; i < loop.length; i++) {
    const [a, b] = [loop[i]!, loop[(i + 1) % loop.length]!];
    const turn = Math.atan2(y[b]! - py, x[b]! - px) - Math.atan2(y[a]! - py, x[a]! - px);
    sum += turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI));
  }
  return sum;
}

/** What an opening in a mesh is filled with, around what stays open in it. */
export interface Filling {
  /** Quadratic sides of what stays open, counter-clockwise: end, middle, end, … mm. */
  readonly inner: { readonly x: ArrayLike<number>; readonly y: ArrayLike<number> };
  readonly material: number;
}

/** A mesh whose opening is filled, and the nodes of what stays open in it. */
export interface FilledMesh {
  readonly mesh: SectionMesh;
  readonly inner: Int32Array;
}

/** Fills the opening around the inner loop with six-node triangles; undefined where none goes round it, or where sides of both loops come too close to each other. */
export function fillAround(mesh: SectionMesh, { inner, material }: Filling): FilledMesh | undefined {
  const outer = loopAround(mesh, inner.x[0]!, inner.y[0]!);
  if (outer === undefined) return undefined;
  const x = Array.from(mesh.x);
  const y = Array.from(mesh.y);
  const add = (px: number, py: number) => {
    y.push(py);
    return x.push(px) - 1;
  };
  const own = Int32Array.from({ length: inner.x.length }, (_, i) => add(inner.x[i]!, inner.y[i]!));
  const middles = new Map<number, number>();
  const endsOf = (loop: ArrayLike<number>) =>
    Array.from({ length: loop.length / 2 }, (_, i) => {
      middles.set(sideKey(loop[2 * i]!, loop[(2 * i + 2) % loop.length]!), loop[2 * i + 1]!);
      return loop[2 * i]!;
    });
  const ends = [endsOf(outer), endsOf(own)];
  const loops = ends.map((list): Loop => ({ x: list.map((n) => x[n]!), y: list.map((n) => y[n]!) }));
  if (encroachedSegments(loops).length > 0) return undefined;
  const filled = triangulate(loops, sizeBeside(loops));
  const nodes = ends.flat();
  for (let i = nodes.length; i < filled.x.length; i++) nodes.push(add(filled.x[i]!, filled.y[i]!));
  const between = (a: number, b: number) => {
    const key = sideKey(a, b);
    const known = middles.get(key);
    if (known !== undefined) return known;
    const middle = add((x[a]! + x[b]!) / 2, (y[a]! + y[b]!) / 2);
    middles.set(key, middle);
    return middle;
  };
  const elements: number[] = [];
  for (let t = 0; t < filled.triangles.length; t += 3) {
    const corners = [0, 1, 2].map((k) => nodes[filled.triangles[t + k]!]!);
    elements.push(...corners, ...corners.map((a, k) => between(a, corners[(k + 1) % 3]!)));
  }
  const count = elements.length / 6;
  const before = mesh.triangles ?? { elements: new Int32Array(0), material: new Int32Array(0), axes: [] };
  return {
    mesh: {
      ...mesh,
      x: Float64Array.from(x),
      y: Float64Array.from(y),
      triangles: {
        elements: Int32Array.from([...before.elements, ...elements]),
        material: Int32Array.from([...before.material, ...new Array<number>(count).fill(material)]),
        axes: [...before.axes, ...Array.from({ length: count }, () => ({ kind: 'straight', angle: 0 }) as const)],
      },
    },
    inner: own,
  };
}
