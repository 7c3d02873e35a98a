import { plateTriangles, solvePlate } from '../../packages/core/src/host/index.js';
import { sectionStiffness } from '../../packages/core/src/material/index.js';
import { type EdgeHoop, edgeCurve, edgeHoops, edgePeak } from '../../packages/core/src/mesh/triangle/index.js';
import { ellipseNodes, referencePly } from '../fixtures/tee-reference.js';
import type { Publication } from './check.js';

/** Peak under tension 1 along a strip of width 2 and length 10 with a hole of diameter `2 * ratio`. */
function peakOf(ratio: number): number {
  const material = sectionStiffness({ angle: 90, ply: referencePly });
  const strip = { xMin: -5, xMax: 5, yMin: -1, yMax: 1, material };
  const mesh = plateTriangles(strip, [edgeCurve(ellipseNodes(ratio, ratio, [0, 0]))], 1);
  const [edge] = edgeHoops(mesh, material, solvePlate(mesh, { sx: 1, sy: 0, txy: 0 }, 0)) as [EdgeHoop];
  return edgePeak(edge, edge.hoop).peak;
}

export const howland: Publication = {
  title: 'Strip with a central hole under tension',
  // Converged meshes and a boundary collocation of complex potentials both give 3.0361, 3.1526, 3.3744, 3.7472, 4.3476: the
  // table, worked by hand, is low in its last digits.
  source:
    'Howland, Phil. Trans. R. Soc. A 229 (1930) 49-86: peak over the stress far away, three digits, values from memory; ' +
    "they agree with the polynomial in Roark's tables",
  checks: (
    [
      [0.1, 3.03],
      [0.2, 3.14],
      [0.3, 3.36],
      [0.4, 3.74],
      [0.5, 4.32],
    ] as const
  ).map(([ratio, published]) => ({
    quantity: `mesh: peak, hole ${ratio} of the width`,
    published,
    compute: () => peakOf(ratio),
    tolerance: 0.008,
  })),
};
