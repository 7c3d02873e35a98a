import { plateTriangles, solvePlate } from '../../packages/core/src/host/index.js';
import { sectionStiffness } from '../../packages/core/src/material/index.js';
import { type EdgeHoop, edgeCurve, edgeHoops, edgePeak } from '../../packages/core/src/mesh/triangle/index.js';
import { ellipseNodes } from '../fixtures/tee-reference.js';
import { type Check, once, type Publication } from './check.js';

/** A ply whose fibres lie along x, in plane strain. */
const ply = {
  ...{ E1: 126000, E2: 11000, nu12: 0.28, nu23: 0.4, G12: 6600, alpha1: -1e-6, alpha2: 26e-6 },
  ...{ transverseTension: 50, interlaminarShear: 80 },
};
const material = sectionStiffness({ angle: 0, ply });
/** Half the plate; what its rim changes falls with the square of the ratio. */
const half = 75;

const holes = {
  circle: ellipseNodes(0.5, 0.5, [0, 0]),
  // Twice as long along the fibres as across.
  ellipse: ellipseNodes(1, 0.5, [0, 0]),
};

/** Largest hoop stress under a tension of 1 along or across the fibres. */
const peak = (hole: keyof typeof holes, along: boolean, coarseness = 1) =>
  once(() => {
    const plate = { xMin: -half, xMax: half, yMin: -half, yMax: half, material };
    const mesh = plateTriangles(plate, [edgeCurve(holes[hole])], coarseness);
    const solution = solvePlate(mesh, { sx: along ? 1 : 0, sy: along ? 0 : 1, txy: 0 }, 0);
    const [edge] = edgeHoops(mesh, material, solution) as [EdgeHoop];
    return edgePeak(edge, edge.hoop).peak;
  });

const check = (quantity: string, published: number, compute: () => number): Check => ({
  quantity: `mesh: ${quantity}`,
  published,
  compute,
  tolerance: 2e-3,
});

export const lekhnitskii: Publication = {
  title: 'Hole in a ply whose fibres lie in the section',
  source:
    'Lekhnitskii, Anisotropic Plates (Gordon & Breach 1968): 1 + n b/a at the crown under tension along the fibres, 1 + (n/k) a/b at the side across them, ' +
    'a the half axis along the fibres; k = (b11/b22)^(-1/2) = 3.1126 and n = (2 k + (2 b12 + b66) / b11)^(1/2) = 4.9657 of the reduced compliances; formula from memory',
  checks: [
    // The narrowest peak: 0.4 % are lost with coarseness 1.
    check('crown of a circle, tension along the fibres', 5.9657, peak('circle', true, 0.6)),
    check('side of a circle, tension across them', 2.5954, peak('circle', false)),
    check('crown of an ellipse 2 : 1, tension along the fibres', 3.4829, peak('ellipse', true)),
    check('side of an ellipse 2 : 1, tension across them', 4.1907, peak('ellipse', false)),
  ],
};
