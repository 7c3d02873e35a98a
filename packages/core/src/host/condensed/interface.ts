import {
  elementDofs,
  type SectionBody,
  sideKey,
  stressRows,
  tangentAngle,
  triangleStress,
} from '../../mesh/quad/index.js';
import type { PointShare } from './body.js';
import { other, own, turnedRows } from './recovery.js';

/** A meshed body, and the surface that each of its elements belongs to, by number. */
export interface SurfacedBody {
  readonly body: SectionBody;
  readonly quadSurface: Int32Array;
  readonly triangleSurface: Int32Array;
}

/** The middle of a side that the filler shares with another surface; stress there in axes whose normal points out of the filler. */
export interface InterfacePoint {
  readonly x: number;
  readonly y: number;
  readonly normalAngle: number;
  /** Beside the filler. */
  readonly surface: number;
  /** Normal and shear stress are the mean of both sides, the tangential one is the filler's. */
  readonly shares: readonly PointShare[];
}

/** A side of an element, counter-clockwise: its ends and its middle among the element's nodes, and the middle in the element's own coordinates. */
type Side = readonly [from: number, middle: number, to: number, at: readonly [number, number]];

const quadSides: readonly Side[] = [
  [0, 1, 2, [0, -1]],
  [2, 5, 8, [1, 0]],
  [8, 7, 6, [0, 1]],
  [6, 3, 0, [-1, 0]],
];
const triangleSides: readonly Side[] = [
  [0, 3, 1, [0.5, 0]],
  [1, 4, 2, [0.5, 0.5]],
  [2, 5, 0, [0, 0.5]],
];

/** One element beside a side. */
interface Beside {
  readonly surface: number;
  readonly nodes: Int32Array;
  readonly side: Side;
  /** Stress in the middle of the side, `(t, n, tn)` of the element's axes, and how far from x its t axis leans. */
  stress(): { readonly rows: Float64Array; readonly tangent: number };
}

/** Where the filler meets other surfaces. */
export function interfacePoints(
  { body, quadSurface, triangleSurface }: SurfacedBody,
  filler: number,
): InterfacePoint[] {
  const { mesh } = body;
  const { x, y } = mesh;
  const beside = new Map<number, Beside[]>();
  const meet = (one: Beside) => {
    const [from, , to] = one.side;
    const key = sideKey(one.nodes[from]!, one.nodes[to]!);
    beside.set(key, [...(beside.get(key) ?? []), one]);
  };
  quadSurface.forEach((surface, e) => {
    const nodes = mesh.elements.subarray(9 * e, 9 * e + 9);
    for (const side of quadSides) {
      const middle = nodes[side[1]]!;
      const tangent = () => tangentAngle(mesh.axes[e]!, x[middle]!, y[middle]!);
      meet({ surface, nodes, side, stress: () => ({ rows: stressRows(body, e, ...side[3]), tangent: tangent() }) });
    }
  });
  const { elements, axes } = mesh.triangles!;
  triangleSurface.forEach((surface, e) => {
    const nodes = elements.subarray(6 * e, 6 * e + 6);
    for (const side of triangleSides) {
      const middle = nodes[side[1]]!;
      const tangent = () => tangentAngle(axes[e]!, x[middle]!, y[middle]!);
      meet({
        surface,
        nodes,
        side,
        stress: () => ({ rows: triangleStress(body, e, side[3]).rows, tangent: tangent() }),
      });
    }
  });
  return [...beside.values()].flatMap((pair) => {
    const inner = pair.find(({ surface }) => surface === filler);
    const outer = pair.find(({ surface }) => surface !== filler);
    if (inner === undefined || outer === undefined) return [];
    const [from, middle, to] = inner.side.slice(0, 3).map((i) => inner.nodes[i as number]!) as [number, number, number];
    // A parabola's tangent in its middle runs as its chord.
    const normalAngle = Math.atan2(y[to]! - y[from]!, x[to]! - x[from]!) - Math.PI / 2;
    const shareOf = ({ nodes, stress }: Beside, weights: typeof own | typeof other): PointShare => {
      const { rows, tangent } = stress();
      return {
        dofs: elementDofs(nodes, x.length),
        rows: turnedRows(rows, normalAngle - Math.PI / 2 - tangent, weights),
      };
    };
    return [
      {
        x: x[middle]!,
        y: y[middle]!,
        normalAngle,
        surface: outer.surface,
        shares: [shareOf(inner, own), shareOf(outer, other)],
      },
    ];
  });
}
