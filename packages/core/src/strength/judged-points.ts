import { hostKind, type ReducedModel, type SectionPoint } from '../host/index.js';

/** A point that is judged: one of the model's places, or a point between two of a row. */
export interface JudgedPoint {
  readonly at: SectionPoint;
  /** Numbers of the model's points whose stresses are its own, `share` of the second and the rest of the first. */
  readonly of: readonly [first: number, second: number];
  readonly share: number;
}

/**
 * Rows of judged points; where points in the middle of a row are left out, it goes on beyond the gap. Stress rises towards what is left out:
 * where a row goes in and comes out, and through the thickness from what is left out, the very limit is judged as well, wherever the mesh happens to
 * have its points.
 */
export function judgedRows(
  { kind, places: { points, rows } }: Pick<ReducedModel, 'kind' | 'places'>,
  keep: (x: number, y: number) => boolean,
): JudgedPoint[][] {
  const kept = points.map(({ x, y }) => keep(x, y));
  const { places } = hostKind(kind);
  const isScattered = ({ place }: SectionPoint) => places[place]?.scattered === true;
  let next = 0;
  const along = rows.map((length) => {
    const row: JudgedPoint[] = [];
    for (let k = 0; k < length; k++, next++) {
      const at = points[next]!;
      const before = k > 0 ? next - 1 : next;
      if (kept[before] !== kept[next] && !isScattered(at)) row.push(limitBetween(points, before, next, keep));
      if (kept[next]) row.push({ at, of: [next, next], share: 0 });
    }
    return row;
  });
  const across = points.flatMap((_, left) =>
    kept[left] || isScattered(points[left]!)
      ? []
      : nextThrough(points, left)
          .filter((neighbour) => kept[neighbour])
          .map((neighbour) => [limitBetween(points, left, neighbour, keep)]),
  );
  return [...along, ...across].filter((row) => row.length > 0);
}

/** Directions are equal up to this, radians. */
const parallel = 1e-6;

/** The nearest points of the same place through the thickness from a point, on either side of it: in its own ply or the next, since stress does not go on through a ply between. */
function nextThrough(points: readonly SectionPoint[], from: number): number[] {
  const { place, layer, x, y, normalAngle } = points[from]!;
  const [c, s] = [Math.cos(normalAngle), Math.sin(normalAngle)];
  const nearest = [-1, -1];
  const least = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  points.forEach((other, p) => {
    if (other.place !== place || Math.abs(other.layer - layer) > 1 || p === from) return;
    const [dx, dy] = [other.x - x, other.y - y];
    const through = dx * c + dy * s;
    const side = through > 0 ? 1 : 0;
    const distance = Math.abs(through);
    if (!(distance < least[side]!) || Math.abs(dy * c - dx * s) > parallel * distance) return;
    least[side] = distance;
    nearest[side] = p;
  });
  return nearest.filter((p) => p >= 0);
}

/** The last point that is kept on the way between two points of a row, of which one is. */
function limitBetween(
  points: readonly SectionPoint[],
  first: number,
  second: number,
  keep: (x: number, y: number) => boolean,
): JudgedPoint {
  const [from, to] = [points[first]!, points[second]!];
  const [x, y, turn] = [to.x - from.x, to.y - from.y, to.normalAngle - from.normalAngle];
  const between = (share: number): SectionPoint => {
    // Off the chord by what an arc between the two normals is: a mesh must find the point on its interface.
    const off = (share * (1 - share) * turn) / 2;
    return {
      ...to,
      x: from.x + share * x + off * y,
      y: from.y + share * y - off * x,
      normalAngle: from.normalAngle + share * turn,
    };
  };
  const isKept = (share: number) => keep(between(share).x, between(share).y);
  let [inside, outside] = isKept(1) ? [0, 1] : [1, 0];
  for (let step = 0; step < 40; step++) {
    const middle = (inside + outside) / 2;
    if (isKept(middle)) outside = middle;
    else inside = middle;
  }
  return { at: between(outside), of: [first, second], share: outside };
}
