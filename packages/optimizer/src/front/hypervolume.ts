import { covers } from './dominance.js';

/** The objectives of one solution. */
export type Point = ArrayLike<number>;

/**
 * Volume of objective space that the points dominate, up to `reference`; every objective is to be made small. Points may
 * be dominated or equal; what lies beyond the reference in any objective adds nothing.
 *
 * Two objectives: one sweep. Others: While, Bradstreet & Barone, IEEE Trans. Evol. Comput. 16 (2012)
 * 86-95 ('WFG'), whose time grows exponentially with the number of objectives.
 */
export function hypervolume(points: readonly Point[], reference: Point): number {
  const inside = points.filter((point) => isInside(point, reference));
  return reference.length === 2 ? area(inside, reference) : manyObjectives(inside, reference);
}

/** Volume that `point` dominates and none of `others` does. */
export function exclusiveVolume(point: Point, others: readonly Point[], reference: Point): number {
  if (!isInside(point, reference)) return 0;
  // What the others take away lies in the box between the point and the reference: push them into it.
  const limited: Float64Array[] = [];
  for (const other of others) {
    const joined = worseOfBoth(point, other);
    if (!isInside(joined, reference)) continue;
    if (covers(joined, point)) return 0;
    keepNonDominated(limited, joined);
  }
  return box(point, reference) - hypervolume(limited, reference);
}

/** Componentwise the larger of both: the best point that both dominate. */
export function worseOfBoth(a: Point, b: Point): Float64Array {
  const joined = new Float64Array(a.length);
  for (let i = 0; i < joined.length; i++) joined[i] = Math.max(a[i]!, b[i]!);
  return joined;
}

function isInside(point: Point, reference: Point): boolean {
  for (let i = 0; i < reference.length; i++) if (!(point[i]! < reference[i]!)) return false;
  return true;
}

function box(point: Point, reference: Point): number {
  let product = 1;
  for (let i = 0; i < reference.length; i++) product *= reference[i]! - point[i]!;
  return product;
}

function keepNonDominated(front: Float64Array[], point: Float64Array): void {
  let kept = 0;
  for (const member of front) {
    if (covers(member, point)) return;
    if (!covers(point, member)) front[kept++] = member;
  }
  front.length = kept;
  front.push(point);
}

function area(points: Point[], reference: Point): number {
  points.sort((a, b) => a[0]! - b[0]!);
  let sum = 0;
  let height = reference[1]!;
  for (const point of points) {
    if (point[1]! >= height) continue;
    sum += (reference[0]! - point[0]!) * (height - point[1]!);
    height = point[1]!;
  }
  return sum;
}

function manyObjectives(points: Point[], reference: Point): number {
  const last = reference.length - 1;
  // Worst in the last objective first: the limited sets then stay small.
  points.sort((a, b) => b[last]! - a[last]!);
  let sum = 0;
  points.forEach((point, index) => {
    sum += exclusiveVolume(point, points.slice(index + 1), reference);
  });
  return sum;
}
