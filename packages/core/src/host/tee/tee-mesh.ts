import { sectionStiffness } from '../../material/index.js';
import { joinParts, type PlacedBlock, type SectionBody } from '../../mesh/quad/index.js';
import type { ContourPath } from './filler-border.js';
import type { TeeJoint } from './tee.js';
import { divideTee, fillerBlocks, laminateBlocks, type TeePart } from './tee-blocks.js';

export type { TeePart } from './tee-blocks.js';

/** The meshed right half of a tee outside its contour. */
export interface TeeMesh {
  readonly body: SectionBody;
  readonly parts: Readonly<Partial<Record<TeePart, PlacedBlock>>>;
  /** Layer of each row of the overlaminate's parts, filler outward, and of the skin's, bottom up. */
  readonly overlaminateLayers: readonly number[];
  readonly skinLayers: readonly number[];
  /** Nodes of the contour, in its order. */
  readonly contourNodes: Int32Array;
  /** Nodes on x = 0 but for the contour's two. */
  readonly axisNodes: readonly number[];
  /** Quadratic edges (end, middle, end) of the web's top and of the skin's end. */
  readonly webTop: readonly (readonly [number, number, number])[];
  readonly skinEnd: readonly (readonly [number, number, number])[];
}

/**
 * Meshes everything outside the contour with curved rectangles: a ring of filler, its two cusps meshed to the tip (the last
 * elements collapse there), web leg, bend and foot layer by layer, and the skin. Elements are as fine as the contour's
 * edges near the filler and grow away from it. `refinement` divides every size but the contour's edges.
 */
export function meshTee(joint: TeeJoint, contour: ContourPath, refinement = 1): TeeMesh {
  const R = joint.bendRadius;
  const division = divideTee(joint, contour, refinement);
  const { mesh, parts, nodeOf } = joinParts(
    [...fillerBlocks(R, contour, division), ...laminateBlocks(joint, division)],
    1e-9 * R,
  );
  const last = contour.x.length - 1;
  const contourNodes = new Int32Array(last + 1);
  let at = 0;
  for (const part of ['ring-base', 'ring-tip-below', 'ring-tip-above', 'ring-side', 'ring-top'] as const)
    for (let column = 0; column < parts[part]!.columns; column++, at += 2)
      for (let a = 0; a < 3; a++) contourNodes[at + a] = nodeOf(part, column, division.ringRows - 1, a, 2);
  const ends = new Set([contourNodes[0]!, contourNodes[last]!]);
  const axisNodes: number[] = [];
  for (let node = 0; node < mesh.x.length; node++)
    if (Math.abs(mesh.x[node]!) < 1e-9 * R && !ends.has(node)) axisNodes.push(node);
  const endPart: TeePart = parts['skin-free'] === undefined ? 'skin-foot' : 'skin-free';
  const side = (part: TeePart, column: number, a: number) =>
    Array.from({ length: parts[part]!.rows }, (_, row) => {
      const node = (b: number) => nodeOf(part, column, row, a, b);
      return [node(0), node(1), node(2)] as const;
    });
  return {
    body: {
      mesh,
      materials: [
        sectionStiffness({ angle: 90, ply: joint.filler }),
        ...joint.overlaminate.map(sectionStiffness),
        ...joint.skin.map(sectionStiffness),
      ],
    },
    parts,
    overlaminateLayers: division.overlaminate.layers,
    skinLayers: division.skin.layers,
    contourNodes,
    axisNodes,
    webTop: side('web', 0, 0),
    skinEnd: side(endPart, parts[endPart]!.columns - 1, 2),
  };
}
