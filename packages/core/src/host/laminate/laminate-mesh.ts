import { layupThickness, sectionStiffness } from '../../material/index.js';
import { joinParts, type PlacedBlock, type SectionBody } from '../../mesh/quad/index.js';
import { anew, type Choose } from '../choices.js';
import type { ControlContour } from './contour.js';
import type { LaminateJoint } from './laminate.js';
import {
  blocksOf,
  type LaminateBlocks,
  type LaminateFineness,
  type LaminatePart,
  ringRows,
} from './laminate-blocks.js';

export { type LaminateFineness, type LaminatePart, laminateElements } from './laminate-blocks.js';

/** The meshed right half of a laminate outside its contour. */
export interface LaminateMesh {
  readonly body: SectionBody;
  readonly parts: Readonly<Partial<Record<LaminatePart, PlacedBlock>>>;
  readonly plies: LaminateBlocks['plies'];
  /** Nodes of the contour, in its order. */
  readonly contourNodes: Int32Array;
  /** Nodes on x = 0 but for the contour's two. */
  readonly axisNodes: readonly number[];
  /** Of the end face, from the bottom up. */
  readonly endNodes: readonly number[];
  /** Quadratic edges (end, middle, end) of the faces and of the end. */
  readonly bottomFace: readonly Edge[];
  readonly topFace: readonly Edge[];
  readonly endFace: readonly Edge[];
}

type Edge = readonly [number, number, number];
/** Meshes the right half of a laminate outside its contour. */
export function meshLaminate(
  joint: LaminateJoint,
  contour: ControlContour,
  fineness: LaminateFineness = {},
  choose: Choose = anew,
): LaminateMesh {
  const { layup } = joint;
  const thickness = layupThickness(layup);
  const half = joint.width / 2;
  const last = contour.x.length - 1;
  const { blocks, plies } = blocksOf(joint, contour, fineness, choose);
  const { mesh, parts, nodeOf } = joinParts(blocks, 1e-10 * thickness);
  const contourNodes = new Int32Array(last + 1);
  let at = 0;
  for (const part of ['ring-below', 'ring-end', 'ring-above'] as const)
    for (let column = 0; column < parts[part]!.columns; column++, at += 2)
      for (let a = 0; a < 3; a++) contourNodes[at + a] = nodeOf(part, column, ringRows - 1, a, 2);
  const ends = new Set([contourNodes[0]!, contourNodes[last]!]);
  const axisNodes: number[] = [];
  const endNodes: number[] = [];
  for (let node = 0; node < mesh.x.length; node++) {
    if (Math.abs(mesh.x[node]!) < 1e-9 * thickness && !ends.has(node)) axisNodes.push(node);
    if (Math.abs(mesh.x[node]! - half) < 1e-9 * half) endNodes.push(node);
  }
  endNodes.sort((a, b) => mesh.y[a]! - mesh.y[b]!);
  const along = (name: 'below' | 'above'): Edge[] =>
    (['channel', 'pocket', 'far'] as const).flatMap((where) => {
      const block = parts[`${name}-${where}`];
      const [row, b] = name === 'below' ? [0, 0] : [(block?.rows ?? 1) - 1, 2];
      return Array.from({ length: block?.columns ?? 0 }, (_, column): Edge => {
        const node = (a: number) => nodeOf(`${name}-${where}`, column, row, a, b);
        return [node(0), node(1), node(2)];
      });
    });
  return {
    body: {
      mesh,
      materials: [sectionStiffness({ angle: 90, ply: joint.resin }), ...layup.map(sectionStiffness)],
    },
    parts,
    plies,
    contourNodes,
    axisNodes,
    endNodes,
    bottomFace: along('below'),
    topFace: along('above'),
    endFace: Array.from({ length: (endNodes.length - 1) / 2 }, (_, i) => [
      endNodes[2 * i]!,
      endNodes[2 * i + 1]!,
      endNodes[2 * i + 2]!,
    ]),
  };
}
