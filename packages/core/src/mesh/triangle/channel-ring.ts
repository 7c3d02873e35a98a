import type { ChannelSize, ChannelSizes } from './channel-size.js';
import type { CubicMeshBuilder } from './cubic-mesh.js';
import type { EdgeCurve } from './edge-curve.js';
import type { Loop } from './triangulate.js';

/**
 * The outer border of the ring of triangles that follows a channel's edge: the edge's corners moved into the body. An
 * even ring makes the error of the edge stress smooth along the edge, where unstructured triangles scatter it.
 */
export function ringLoop(curve: EdgeCurve, { arcs, ring }: ChannelSize): Loop {
  const point = new Float64Array(5);
  const x = new Float64Array(arcs.length);
  const y = new Float64Array(arcs.length);
  arcs.forEach((arc, i) => {
    curve.at(arc, point);
    x[i] = point[0]! + ring[i]! * point[3]!;
    y[i] = point[1]! - ring[i]! * point[2]!;
  });
  return { x, y };
}

/** Those of all edges, one after the other: holes of a body. */
export const ringLoops = ({ edges }: ChannelSizes): Loop[] => edges.map(({ curve, size }) => ringLoop(curve, size));

/** Adds the rings of all edges; their outer corners follow each other from `first` on, in the order of `ringLoops`. */
export function addRings(
  builder: CubicMeshBuilder,
  { edges }: ChannelSizes,
  first: number,
  zone: number,
  name = 'channel',
): void {
  let outer = first;
  for (const { curve, size } of edges) {
    addRing(builder, { curve, size, name }, outer, zone);
    outer += size.arcs.length;
  }
}

/**
 * Adds the ring between the edge and the corners `outer`, `outer + 1`, ... of `ringLoop`, and names the sides on the edge, 'channel'
 * where no `name` is given: listed counter-clockwise round the channel, each with the body on its left, so from its far corner to its near one.
 */
export function addRing(
  builder: CubicMeshBuilder,
  edge: { readonly curve: EdgeCurve; readonly size: ChannelSize; readonly name?: string },
  outer: number,
  zone: number,
): void {
  const {
    curve,
    size: { arcs, ring },
    name = 'channel',
  } = edge;
  const point = new Float64Array(5);
  const inner = Array.from(arcs, (arc) => {
    curve.at(arc, point);
    return builder.corner(point[0]!, point[1]!);
  });
  arcs.forEach((arc, i) => {
    const next = (i + 1) % arcs.length;
    const end = arcs[i + 1] ?? curve.length;
    /** `along` from one corner to the next, `depth` from the edge to the ring's border, both 0 to 1. */
    const at = (along: number, depth: number) => {
      curve.at(arc + along * (end - arc), point);
      const d = depth * (ring[i]! + along * (ring[next]! - ring[i]!));
      return [point[0]! + d * point[3]!, point[1]! - d * point[2]!] as const;
    };
    const [a, b, c, d] = [inner[i]!, inner[next]!, outer + i, outer + next];
    builder.curve(a, b, (f) => at(f, 0));
    builder.curve(c, d, (f) => at(f, 1));
    builder.curve(a, d, (f) => at(f, f));
    builder.triangle(a, d, b, zone, at(2 / 3, 1 / 3));
    builder.triangle(a, c, d, zone, at(1 / 3, 2 / 3));
    builder.side(name, b, a);
  });
}
