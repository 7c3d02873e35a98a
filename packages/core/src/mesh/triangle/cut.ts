import type { CubicMesh } from './cubic-mesh.js';

/** A mesh that comes apart along some of its sides. */
export interface CutMesh {
  readonly mesh: CubicMesh;
  /** Of each node that was doubled, the node on the left of the chain; its own number stays on the right. */
  readonly twins: ReadonlyMap<number, number>;
}

/**
 * Doubles the nodes of a chain of sides inside a mesh, so that what lies on its left comes apart from what lies on its right. Its ends stay
 * together; where the chain begins on the border of the mesh, the crack is open there. `chain`: four node numbers per side, one side after the other, as `CubicMesh.sides` has them.
 */
export function cutAlong(mesh: CubicMesh, chain: Int32Array): CutMesh {
  const nodes = [...chain].filter((_, at) => at === 0 || at % 4 !== 0);
  const left = leftOf(mesh, chain);
  const doubled = nodes.slice(left.fromBorder ? 0 : 1, -1);
  const twins = new Map(doubled.map((node, k) => [node, mesh.x.length + k]));
  const triangles = mesh.triangles.slice();
  for (const triangle of left.triangles)
    for (let i = 10 * triangle; i < 10 * triangle + 10; i++) triangles[i] = twins.get(triangles[i]!) ?? triangles[i]!;
  const more = (values: Float64Array) => Float64Array.from([...values, ...doubled.map((node) => values[node]!)]);
  return { mesh: { ...mesh, x: more(mesh.x), y: more(mesh.y), triangles }, twins };
}

/** What lies on the left of a chain. */
interface LeftSide {
  /** Those that touch a node of it other than an end inside the mesh. */
  readonly triangles: ReadonlySet<number>;
  readonly fromBorder: boolean;
}

export function leftOf({ triangles, zoneOf }: CubicMesh, chain: Int32Array): LeftSide {
  const corners = [chain[0]!];
  for (let at = 3; at < chain.length; at += 4) corners.push(chain[at]!);
  /** Of a corner of the chain, by the corner that follows it in a triangle, counter-clockwise: that triangle lies on the left of the way between them. */
  const leftOfWay = new Map(corners.map((corner) => [corner, new Map<number, number>()]));
  for (let triangle = 0; triangle < zoneOf.length; triangle++)
    for (let i = 0; i < 3; i++)
      leftOfWay.get(triangles[10 * triangle + i]!)?.set(triangles[10 * triangle + ((i + 1) % 3)]!, triangle);
  /** Triangles around a corner from one way on until another, or to the border. */
  const around = (corner: number, from: number, to: number) => {
    const found: number[] = [];
    let way = from;
    do {
      const triangle = leftOfWay.get(corner)!.get(way);
      if (triangle === undefined) return { found, atBorder: true };
      found.push(triangle);
      const at = [0, 1, 2].find((i) => triangles[10 * triangle + i] === corner)!;
      way = triangles[10 * triangle + ((at + 2) % 3)]!;
    } while (way !== to);
    return { found, atBorder: false };
  };
  const found = new Set<number>();
  const first = around(corners[0]!, corners[1]!, corners[1]!);
  // Inside, only the first of them has a side of the chain.
  for (const triangle of first.atBorder ? first.found : first.found.slice(0, 1)) found.add(triangle);
  for (let k = 1; k + 1 < corners.length; k++) {
    const own = around(corners[k]!, corners[k + 1]!, corners[k - 1]!);
    if (own.atBorder) throw new Error('a cut must not run along the border of its mesh');
    for (const triangle of own.found) found.add(triangle);
  }
  return { triangles: found, fromBorder: first.atBorder };
}
