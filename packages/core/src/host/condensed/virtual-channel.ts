import { createBasisTable, fillBasisTable, halfSize, type RegularBasis, writeEdgeFields } from '../../edge/index.js';
import { type DenseMatrix, leftDivide, matrixOf, orthonormalise, times } from '../../linear/index.js';
import type { ContourNodes, FieldClass } from './condensed.js';
import {
  classesIn,
  contourPoint,
  edgeCount,
  type Medium,
  type SourcePoints,
  sourceContourFields,
} from './contour-fields.js';

/** Fields of a channel with one moment 1 and the others 0, on the contour: `moments x 2 nodes`. */
export interface UnitMoments {
  readonly displacement: DenseMatrix;
  readonly force: DenseMatrix;
}

/** Moments at run time are in lengths of the basis and without this factor `(kappa + 1) / 2G`. */
export const momentUnit = ({ basis, shearModulus, kappa }: Medium): number =>
  ((kappa + 1) / (2 * shearModulus)) * basis.length * basis.length;

/** Of one class, by least combinations of sources. Those of the moment `rotation`, which no channel has, are zero; -1: none is left out. */
export function unitMoments(contour: ContourNodes, medium: Medium, of: FieldClass, rotation: number): UnitMoments {
  const sources = virtualChannel(contour, medium.basis);
  const width = 2 * contour.x.length;
  const channel = sourceContourFields(contour, medium, of, sources);
  const unit = unitCombinations(sourceMoments(medium, of, sources), rotation);
  return {
    displacement: times(unit, matrixOf(channel.displacement, width)),
    force: times(unit, matrixOf(channel.force, width)),
  };
}

/** Moments of those sources, of one class: `moments x 2 sources`. */
export const sourcesSeen = (contour: ContourNodes, medium: Medium, of: FieldClass): DenseMatrix =>
  sourceMoments(medium, of, virtualChannel(contour, medium.basis));

/** Sources per edge of the contour. */
const perEdge = [-2 / 3, 0, 2 / 3] as const;

/**
 * A channel inside the contour, whose field stands for that of every channel, in local coordinates. It keeps one edge's length off: the
 * edges carry the field of a source quadratically, which a source nearer than 0.6 of its edge is too uneven for (errors
 * of percents, worst for sharp tips). From 0.6 to 1.6 edges off, the peaks are the same within 0.1 %.
 */
function virtualChannel(contour: ContourNodes, basis: RegularBasis): SourcePoints {
  const points = Array.from({ length: edgeCount(contour) }, (_, edge) =>
    perEdge.map((xi) => {
      const { x, y, dx, dy } = contourPoint(contour, edge, xi);
      // Inwards is to the left of a counter-clockwise curve; an edge runs from -1 to 1.
      return { x: x - 2 * dy, y: y + 2 * dx, dx: (2 / 3) * dx, dy: (2 / 3) * dy };
    }),
  ).flat();
  const { length, centreX, centreY } = basis;
  return {
    x: Float64Array.from(points, (p) => (p.x - centreX) / length),
    y: Float64Array.from(points, (p) => (p.y - centreY) / length),
    dx: Float64Array.from(points, (p) => p.dx / length),
    dy: Float64Array.from(points, (p) => p.dy / length),
  };
}

/** Moments `((kappa + 1)/2G) Re conj(p) (-i dF_l)` of the sources (of a symmetry class with their images), `moments x 2 sources`. */
function sourceMoments(medium: Medium, of: FieldClass, { x, y, dx, dy }: SourcePoints): DenseMatrix {
  const { degree } = medium.basis;
  const points = x.length;
  const mirror = of !== 'whole';
  const count = (mirror ? 2 : 1) * points;
  // Only the first half of a mirrored channel is read; the step takes the place of t' 2 pi / count.
  const scaled = (list: Float64Array) => list.map((value) => value * (count / (2 * Math.PI)));
  const nodes = {
    count,
    x,
    y,
    dx: scaled(dx),
    dy: scaled(dy),
    ddx: new Float64Array(points),
    ddy: new Float64Array(points),
  };
  const classes = classesIn(of, degree);
  const columns = classes.length * halfSize(degree);
  const Q = new Float64Array(columns * 2 * points);
  const H = new Float64Array(columns * 2 * points);
  const middle = { x: 0, y: 0 };
  const table = createBasisTable(medium.basis, points);
  fillBasisTable(nodes, points, middle, table);
  for (const { symmetric, first } of classes)
    writeEdgeFields({ nodes, fold: mirror ? 'half' : 'whole', inner: middle }, { table, symmetric, first }, columns, {
      H,
      Q,
    });
  const unit = momentUnit(medium);
  return matrixOf(
    Q.map((value) => value * unit),
    2 * points,
  );
}

/** Least combinations of sources with one moment 1 and the others 0, `moments x sources`; those for `rotation` are zero. */
function unitCombinations(moments: DenseMatrix, rotation: number): DenseMatrix {
  const { values, rows, columns } = moments;
  const kept = Array.from({ length: rows }, (_, l) => l).filter((l) => l !== rotation);
  const chosen = new Float64Array(kept.length * columns);
  kept.forEach((l, k) => {
    chosen.set(values.subarray(l * columns, (l + 1) * columns), k * columns);
  });
  // moments^T = O^T F, so the pseudo-inverse is O^T F^-T. Condition 1e8 at degree 28: no rank to cut off.
  const { orthonormal, factor } = orthonormalise(matrixOf(chosen, columns));
  const combinations = leftDivide(factor, orthonormal);
  const out = new Float64Array(values.length);
  kept.forEach((l, k) => {
    out.set(combinations.values.subarray(k * columns, (k + 1) * columns), l * columns);
  });
  return matrixOf(out, columns);
}
