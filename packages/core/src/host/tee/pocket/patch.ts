import type { Block } from '../../../mesh/quad/index.js';
import {
  type ControlContour,
  type LaminateFineness,
  type LaminateJoint,
  type LaminateMesh,
  type LaminatePart,
  meshLaminate,
} from '../../laminate/index.js';
import type { PocketSite, Point } from './site.js';

export type Half = 'left' | 'right';
export type PatchPart = `${Half} ${LaminatePart}`;

/** What holds the pocket: the mesh of a flat laminate up to the site's reach, both halves of it. */
export interface Patch {
  readonly mesh: LaminateMesh;
  /** Places of columns on the laminate's faces, with middles, from one end to the other. */
  readonly bottomFace: readonly number[];
  readonly topFace: readonly number[];
  /** Heights of rows at the ends, with middles, and the ply of each row; bottom up. */
  readonly levels: readonly number[];
  readonly plies: readonly number[];
  /** Of the joint's coordinates. `materialOf`: from those of the laminate's mesh. */
  blocks(materialOf: (material: number) => number): [PatchPart, Block][];
}

export function meshPatch(
  { laminate, reach, fold, unfold, toJoint, toFrame, turn, lean }: PocketSite,
  resin: LaminateJoint['resin'],
  contour: ControlContour,
  fineness: LaminateFineness,
): Patch {
  const mesh = meshLaminate(
    { kind: 'laminate', ...laminate, width: 2 * reach, ends: 'free', resin },
    contour,
    fineness,
  );
  const { x, y, elements, material } = mesh.body.mesh;
  const face = (edges: LaminateMesh['topFace']) => {
    const right = edges.flatMap((edge, i) => (i === 0 ? edge : edge.slice(1))).map((node) => x[node]!);
    return [
      ...right
        .slice(1)
        .toReversed()
        .map((s) => -s),
      ...right,
    ];
  };
  const angle = (atX: number, atY: number) => {
    const [s, level] = unfold(...toFrame(atX, atY));
    return lean(s, level) + turn;
  };
  return {
    mesh,
    bottomFace: face(mesh.bottomFace),
    topFace: face(mesh.topFace),
    levels: mesh.endNodes.map((node) => y[node]!),
    plies: [...mesh.plies.below, ...mesh.plies.cut, ...mesh.plies.above],
    blocks: (materialOf) =>
      Object.entries(mesh.parts).flatMap(([name, { first, columns, rows }]) =>
        (['left', 'right'] as const).map((half): [PatchPart, Block] => {
          const at = (column: number, row: number): Point => {
            const along = half === 'right' ? column : 2 * columns - column;
            const [c, r] = [Math.min(along >> 1, columns - 1), Math.min(row >> 1, rows - 1)];
            const node = elements[9 * (first + r * columns + c) + 3 * (row - 2 * r) + along - 2 * c]!;
            return toJoint(...fold(half === 'right' ? x[node]! : -x[node]!, y[node]!));
          };
          return [
            `${half} ${name as LaminatePart}`,
            {
              columns,
              rows,
              at,
              material: (row) => materialOf(material[first + row * columns]!),
              axes: { kind: 'draped', angle },
            },
          ];
        }),
      ),
  };
}
