import {
  elementDofs,
  placeIn,
  type SectionBody,
  type SectionMesh,
  stressRows,
  tangentAngle,
} from '../../mesh/quad/index.js';
import type { SectionPoint } from '../place.js';
import type { PointShare } from './body.js';

/** Section points, and what tells the stress at each. */
export interface Recovery {
  readonly points: readonly SectionPoint[];
  readonly shares: readonly (readonly PointShare[])[];
}

/** An element that tells of a point: where in it the point lies, and the weights of (s_n, s_t, s_nt) that it contributes. */
export type Teller = readonly [element: number, a: number, b: number, weights: readonly [number, number, number]];

/** Weights of a point inside a layer; of one on a face, where normal and shear stress are the mean of both sides. */
export const whole = [1, 1, 1] as const;
export const own = [0.5, 1, 0.5] as const;
export const other = [0.5, 0, 0.5] as const;

/** Place along and through an element, from its middle, at which its stresses are best: the Gauss points of its reduced rule (Barlow, Int. J. Numer. Meth. Eng. 10 (1976) 243-251). */
export const best = 1 / Math.sqrt(3);

/** One of the places along or through two elements by which the stress elsewhere in the first is told. */
export interface BestPlace {
  readonly ofNext: boolean;
  readonly at: number;
  readonly share: number;
}

/** The element on one side of another, and how long or high it is. */
export interface NextElement {
  readonly side: -1 | 1;
  readonly size: number;
}

/**
 * What tells the stress at `at` along (or through) an element of a size: the parabola through three places where stresses are best, two of its own and the
 * nearest of the element beside it. Its own two alone miss a tenth of a shear that bends.
 */
export function byBestPlaces(at: number, size: number, next: NextElement | undefined): readonly BestPlace[] {
  if (next === undefined || Math.abs(Math.abs(at) - best) < 1e-9) return [{ ofNext: false, at, share: 1 }];
  const { side } = next;
  const near = (1 - best) / 2;
  // From the face on the other side.
  const here = ((1 + side * at) / 2) * size;
  const places = [near * size, (1 - near) * size, size + near * next.size] as const;
  const share = (i: 0 | 1 | 2) => {
    const [j, k] = [(i + 1) % 3, (i + 2) % 3] as [0 | 1 | 2, 0 | 1 | 2];
    return ((places[j] - here) * (places[k] - here)) / ((places[i] - places[j]) * (places[i] - places[k]));
  };
  return [
    { ofNext: false, at: -side * best, share: share(0) },
    { ofNext: false, at: side * best, share: share(1) },
    { ofNext: true, at: -side * best, share: share(2) },
  ];
}

/** How long an element is at `b` through it, and how high at `a` along it. */
export function lengthOf(mesh: SectionMesh, e: number, b: number): number {
  const [[x0, y0], [x1, y1]] = [placeIn(mesh, e, -1, b), placeIn(mesh, e, 1, b)];
  return Math.hypot(x1 - x0, y1 - y0);
}

export function heightOf(mesh: SectionMesh, e: number, a: number): number {
  const [[x0, y0], [x1, y1]] = [placeIn(mesh, e, a, -1), placeIn(mesh, e, a, 1)];
  return Math.hypot(x1 - x0, y1 - y0);
}

/** Weights times a share of them. */
export const shareOf = (weights: Teller[3], share: number) =>
  weights.map((weight) => share * weight) as unknown as Teller[3];

/**
 * What tells the stress on a face of element `first`, at `a` along it. `next`: the element behind it in the same material; `face`: the place of the face
 * through both, -1 or 1.
 */
export function faceTellers(
  mesh: SectionMesh,
  [first, next]: readonly [first: number, next: number | undefined],
  a: number,
  face: -1 | 1,
  weights: Teller[3],
): Teller[] {
  const behind =
    next === undefined ? undefined : { side: (face < 0 ? 1 : -1) as -1 | 1, size: heightOf(mesh, next, a) };
  return byBestPlaces(face, heightOf(mesh, first, a), behind).map(
    ({ ofNext, at, share }): Teller => [ofNext ? next! : first, a, at, shareOf(weights, share)],
  );
}

/** Collects section points of a meshed body. */
export interface RecoveryBuilder {
  add(point: SectionPoint, tellers: readonly Teller[]): void;
  /** A point of which other elements than quadrilaterals tell. */
  addTold(point: SectionPoint, shares: readonly PointShare[]): void;
  /** The one of a and -a that lies at (x, y): elements on both sides of an interface may run against each other. */
  nearer(element: number, a: number, b: number, x: number, y: number): number;
  readonly recovery: Recovery;
}

export function createRecovery(body: SectionBody): RecoveryBuilder {
  const { mesh } = body;
  const points: SectionPoint[] = [];
  const shares: PointShare[][] = [];
  return {
    add(point, tellers) {
      const { x, y, normalAngle } = point;
      points.push(point);
      const byElement = new Map<number, Float64Array>();
      for (const [e, a, b, weights] of tellers) {
        const turn = normalAngle - Math.PI / 2 - tangentAngle(mesh.axes[e]!, x, y);
        const rows = turnedRows(stressRows(body, e, a, b), turn, weights);
        const sum = byElement.get(e);
        byElement.set(e, sum === undefined ? rows : sum.map((value, i) => value + rows[i]!));
      }
      shares.push(
        [...byElement].map(([e, rows]) => ({
          dofs: elementDofs(mesh.elements.subarray(9 * e, 9 * e + 9), mesh.x.length),
          rows,
        })),
      );
    },
    addTold(point, told) {
      points.push(point);
      shares.push([...told]);
    },
    nearer(e, a, b, x, y) {
      const [ahead, behind] = [a, -a].map((at) => {
        const [px, py] = placeIn(mesh, e, at, b);
        return Math.hypot(px - x, py - y);
      }) as [number, number];
      return ahead <= behind ? a : -a;
    },
    recovery: { points, shares },
  };
}

/** Rows `(s_t, s_n, s_tn)` of material axes as `(s_n, s_t, s_nt)` of axes turned by `turn`, each times its weight. */
export function turnedRows(rows: Float64Array, turn: number, weights: readonly [number, number, number]): Float64Array {
  const order = rows.length / 3;
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  const turned = new Float64Array(3 * order);
  for (let i = 0; i < order; i++) {
    const tangential = rows[i]!;
    const normal = rows[order + i]!;
    const shear = rows[2 * order + i]!;
    turned[i] = weights[0] * (normal * c * c + tangential * s * s - 2 * shear * s * c);
    turned[order + i] = weights[1] * (tangential * c * c + normal * s * s + 2 * shear * s * c);
    turned[2 * order + i] = weights[2] * ((normal - tangential) * s * c + shear * (c * c - s * s));
  }
  return turned;
}

/** Columns at least `distance` apart. */
export function spacedColumns(
  count: number,
  place: (column: number) => readonly [number, number],
  distance: number,
): readonly number[] {
  const chosen: number[] = [];
  let last: readonly [number, number] | undefined;
  for (let column = 0; column < count; column++) {
    const at = place(column);
    if (last !== undefined && Math.hypot(at[0] - last[0], at[1] - last[1]) < distance) continue;
    chosen.push(column);
    last = at;
  }
  return chosen;
}
