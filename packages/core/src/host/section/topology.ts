import { sideKey } from '../../mesh/quad/index.js';
import { type MeshFile, MeshFileError } from './mesh-file.js';

/** Sides of an element, counter-clockwise: places of their ends and middles in its list of nodes. */
const quadSides = [
  [0, 2, 1],
  [2, 8, 5],
  [8, 6, 7],
  [6, 0, 3],
] as const;
const triangleSides = [
  [0, 1, 3],
  [1, 2, 4],
  [2, 0, 5],
] as const;

/** One side of elements: its ends, the element to the left of the way from `a` to `b`, and the one to the right, -1: none. */
export interface MeshSide {
  readonly a: number;
  readonly b: number;
  readonly middle: number;
  readonly left: number;
  right: number;
}

/** Elements are numbered quadrilaterals first. */
export interface Topology {
  readonly sides: ReadonlyMap<number, MeshSide>;
  surfaceOf(element: number): number;
}

export const elementCount = ({ quadSurface, triangleSurface }: MeshFile): number =>
  quadSurface.length + triangleSurface.length;

export function surfaceOf({ quadSurface, triangleSurface }: MeshFile, element: number): number {
  return element < quadSurface.length ? quadSurface[element]! : triangleSurface[element - quadSurface.length]!;
}

/** Nodes of an element's sides: `(end, end, middle)` each, counter-clockwise. */
export function sidesOf(
  { quads, quadSurface, triangles }: MeshFile,
  element: number,
): (readonly [number, number, number])[] {
  const isQuad = element < quadSurface.length;
  const nodes = isQuad ? quads : triangles;
  const first = isQuad ? 9 * element : 6 * (element - quadSurface.length);
  return (isQuad ? quadSides : triangleSides).map(([a, b, m]) => [
    nodes[first + a]!,
    nodes[first + b]!,
    nodes[first + m]!,
  ]);
}

/**
 * Which elements share which sides. Throws MeshFileError for a mesh that does not hang together: elements that overlap, nodes that hang on another
 * element's side, parts that do not touch.
 */
export function topologyOf(file: MeshFile): Topology {
  const sides = new Map<number, MeshSide>();
  const at = (node: number) => `(${shown(file.x[node]!)}, ${shown(file.y[node]!)})`;
  const refuse = (expected: string, received: string) =>
    new MeshFileError({
      expected,
      received,
      remedy: 'join the bodies where they touch, so that they share the nodes of their common sides, and mesh anew',
    });
  for (let element = 0; element < elementCount(file); element++)
    for (const [a, b, middle] of sidesOf(file, element)) {
      const key = sideKey(a, b);
      const known = sides.get(key);
      if (known === undefined) {
        sides.set(key, { a, b, middle, left: element, right: -1 });
        continue;
      }
      if (known.middle !== middle)
        throw refuse('one node in the middle of a shared side', `two between ${at(a)} and ${at(b)}`);
      if (known.right !== -1 || known.a === a)
        throw refuse(
          'elements that do not overlap',
          `more than one on the same side of the way from ${at(a)} to ${at(b)}`,
        );
      known.right = element;
    }
  for (const [name, nodes] of file.curves)
    for (let i = 0; i < nodes.length; i += 3)
      if (sides.get(sideKey(nodes[i]!, nodes[i + 1]!))?.middle !== nodes[i + 2])
        throw refuse(
          `curve ${name} along sides of elements`,
          `a part from ${at(nodes[i]!)} to ${at(nodes[i + 1]!)} that is none`,
        );
  refuseHanging(file, sides, refuse);
  refuseApart(file, sides, refuse);
  return { sides, surfaceOf: (element) => surfaceOf(file, element) };
}

const shown = (value: number) => Number(value.toPrecision(5));

type Refusal = (expected: string, received: string) => MeshFileError;

/** Nodes of the outer sides that lie on another outer side, or where another node lies. */
function refuseHanging({ x, y }: MeshFile, sides: ReadonlyMap<number, MeshSide>, refuse: Refusal): void {
  const outer = [...sides.values()].filter(({ right }) => right === -1);
  const longest = outer.reduce((most, { a, b }) => Math.max(most, Math.hypot(x[a]! - x[b]!, y[a]! - y[b]!)), 0);
  const cell = (value: number) => Math.floor(value / longest);
  const cells = new Map<string, MeshSide[]>();
  for (const side of outer)
    for (let i = cell(Math.min(x[side.a]!, x[side.b]!)) - 1; i <= cell(Math.max(x[side.a]!, x[side.b]!)) + 1; i++)
      for (let j = cell(Math.min(y[side.a]!, y[side.b]!)) - 1; j <= cell(Math.max(y[side.a]!, y[side.b]!)) + 1; j++) {
        const key = `${i},${j}`;
        const list = cells.get(key) ?? [];
        list.push(side);
        cells.set(key, list);
      }
  for (const node of new Set(outer.flatMap(({ a, b, middle }) => [a, b, middle])))
    for (const { a, b, middle } of cells.get(`${cell(x[node]!)},${cell(y[node]!)}`) ?? []) {
      if (node === a || node === b || node === middle) continue;
      const [ex, ey] = [x[b]! - x[a]!, y[b]! - y[a]!];
      const square = ex * ex + ey * ey;
      const share = ((x[node]! - x[a]!) * ex + (y[node]! - y[a]!) * ey) / square;
      if (share < -1e-6 || share > 1 + 1e-6) continue;
      // The quadratic side at this share of its chord.
      const bulge = (of: Float64Array) => 4 * share * (1 - share) * (of[middle]! - (of[a]! + of[b]!) / 2);
      const gap = Math.hypot(x[a]! + share * ex + bulge(x) - x[node]!, y[a]! + share * ey + bulge(y) - y[node]!);
      if (gap < 1e-4 * Math.sqrt(square))
        throw refuse(
          'elements that share the nodes of their common sides',
          `a node at (${shown(x[node]!)}, ${shown(y[node]!)}) that hangs on another element's side`,
        );
    }
}

function refuseApart(file: MeshFile, sides: ReadonlyMap<number, MeshSide>, refuse: Refusal): void {
  const count = elementCount(file);
  const beside: number[][] = Array.from({ length: count }, () => []);
  for (const { left, right } of sides.values())
    if (right !== -1) {
      beside[left]!.push(right);
      beside[right]!.push(left);
    }
  const seen = new Uint8Array(count);
  const stack = [0];
  seen[0] = 1;
  let reached = 0;
  while (stack.length > 0) {
    reached++;
    for (const next of beside[stack.pop()!]!)
      if (seen[next] === 0) {
        seen[next] = 1;
        stack.push(next);
      }
  }
  if (reached === count) return;
  const apart = seen.indexOf(0);
  throw refuse(
    'one body',
    `surface ${file.surfaces[surfaceOf(file, apart)]} that shares no side with ${file.surfaces[surfaceOf(file, 0)]}`,
  );
}
