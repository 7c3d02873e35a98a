import { layupThickness } from '../../material/index.js';
import { type Block, graded, growing, withMiddles } from '../../mesh/quad/index.js';
import { cube } from '../../power.js';
import { thicknessOfRows } from './extent.js';
import { type ContourPath, fillerBorder } from './filler-border.js';
import { layerRows } from './layer-rows.js';
import type { TeeJoint } from './tee.js';

export type TeePart =
  | 'ring-base'
  | 'ring-tip-below'
  | 'ring-tip-above'
  | 'ring-side'
  | 'ring-top'
  | 'cusp-bottom'
  | 'cusp-top'
  | 'web'
  | 'bend'
  | 'foot'
  | 'skin-filler'
  | 'skin-foot'
  | 'skin-free';

/**
 * Rows are no thicker than this share of their laminate (a shear that bends over its depth needs as many), nor of the radius that they bend with (where
 * it is tight, radial stress falls as fast as it does).
 */
const rowPerLaminate = 0.12;
const rowPerRadius = 0.25;

/** Index of the filler among the body's materials; overlaminate layers follow, then skin layers. */
const filler = 0;

type Point = readonly [number, number];
type TeeBlock = [TeePart, Block];

/** Rows of a laminate from the filler outward, with middles, and the layer of each. */
interface LaminateRows {
  readonly positions: readonly number[];
  readonly layers: readonly number[];
}

/** Where the columns and rows of a tee's elements stand, middles included. */
export interface TeeDivision {
  readonly border: ReturnType<typeof fillerBorder>;
  /** Rows of elements between contour and border. */
  readonly ringRows: number;
  readonly overlaminate: LaminateRows;
  /** Bottom up. */
  readonly skin: LaminateRows;
  /** Heights, from the top down. */
  readonly web: readonly number[];
  /** Distances from the middle of the joint, of the foot and of the skin beyond it (`undefined`: the foot reaches its end). */
  readonly foot: readonly number[];
  readonly free: readonly number[] | undefined;
}

/** Divides a tee into elements: as fine as the contour's edges near the filler, growing away from it. */
export function divideTee(joint: TeeJoint, contour: ContourPath, refinement: number): TeeDivision {
  const R = joint.bendRadius;
  const t = layupThickness(joint.overlaminate);
  const skinThickness = layupThickness(joint.skin);
  const fine = Math.min(contour.y[0]!, t / 8) / refinement;
  const border = fillerBorder(R, contour, refinement);
  const { base, arc } = border;
  const overlaminate = layerRows(
    joint.overlaminate,
    fine,
    0.35 / refinement,
    (depth) => Math.min(rowPerLaminate * thicknessOfRows(joint), rowPerRadius * (R - depth)) / refinement,
  );
  const skin = layerRows(joint.skin, fine, 0.4 / refinement, () => (rowPerLaminate * skinThickness) / refinement);
  const footStep = base[base.length - 1]! - base[base.length - 3]!;
  const webStep = R * (arc[arc.length - 3]! - arc[arc.length - 1]!);
  const coarsest = (0.75 * t) / refinement;
  const columnsAlong = (length: number, first: number, end: number) =>
    withMiddles(graded(length, growing(length, first, end, 0.3 / refinement, coarsest)));
  const runOut = Math.min(t, skinThickness) / 8 / refinement;
  const free = joint.skinHalfSpan - R - joint.footLength;
  return {
    border,
    ringRows: Math.max(2, Math.round(2 * refinement)),
    overlaminate,
    skin: { positions: skin.positions.map((depth) => -depth).reverse(), layers: [...skin.layers].reverse() },
    web: columnsAlong(joint.webHeight, webStep, coarsest)
      .map((s) => R + s)
      .reverse(),
    foot: columnsAlong(joint.footLength, footStep, runOut).map((s) => R + s),
    free: free > 1e-9 * R ? columnsAlong(free, runOut, coarsest).map((s) => R + joint.footLength + s) : undefined,
  };
}

const between = (a: Point, b: Point, f: number): Point => [a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1])];

const onArc = (R: number, angle: number, radius = R): Point => [
  R + radius * Math.cos(angle),
  R + radius * Math.sin(angle),
];

const fillerBlock = (columns: number, rows: number, at: Block['at']): Block => ({
  columns,
  rows,
  at,
  material: () => filler,
  axes: { kind: 'straight', angle: 0 },
});

/** The ring of filler around the contour, and the two cusps. */
export function fillerBlocks(R: number, contour: ContourPath, { border, ringRows }: TeeDivision): TeeBlock[] {
  const { base, arc } = border;
  const last = contour.x.length - 1;
  /** A ring block along contour edges `from` to `to`; `borderPoint` gives the border's point of a contour node. */
  const ring = (from: number, to: number, borderPoint: (node: number) => Point) =>
    fillerBlock(to - from, ringRows, (column, row) => {
      const node = 2 * from + column;
      return between(borderPoint(node), [contour.x[node]!, contour.y[node]!], row / (2 * ringRows));
    });
  const basePoint = (node: number): Point => [base[node]!, 0];
  // Arc nodes count from the bottom cusp: the first belong to the cusp's own columns.
  const arcPoint = (node: number): Point => onArc(R, arc[2 * border.bottomColumns + node - 2 * contour.nose]!);
  const nose: Point = [contour.x[2 * contour.nose]!, contour.y[2 * contour.nose]!];
  const bottomCusp = (column: number, row: number): Point => {
    const below: Point = [base[2 * contour.nose + column]!, 0];
    const above = onArc(R, arc[2 * border.bottomColumns - column]!);
    const f = border.bottomFractions[column]!;
    const x = nose[0] + f * (R - nose[0]);
    const middleOf = (at: number) => (R - Math.sqrt(R * R - (R - at) ** 2)) / 2;
    const centre: Point = [x, middleOf(x) + cube(1 - f) * (nose[1] - middleOf(nose[0]))];
    return row <= 2 * ringRows
      ? between(below, centre, row / (2 * ringRows))
      : between(centre, above, row / (2 * ringRows) - 1);
  };
  const topCusp = (column: number, row: number): Point => {
    const f = border.topFractions[column]!;
    const axis: Point = [0, contour.y[last]! + f * (R - contour.y[last]!)];
    return between(onArc(R, arc[arc.length - 1 - 2 * border.topColumns + column]!), axis, row / (2 * ringRows));
  };
  return [
    ['ring-base', ring(0, contour.baseEnd, basePoint)],
    ['ring-tip-below', ring(contour.baseEnd, contour.nose, basePoint)],
    ['ring-tip-above', ring(contour.nose, contour.sideStart, arcPoint)],
    ['ring-side', ring(contour.sideStart, contour.sideEnd, arcPoint)],
    ['ring-top', ring(contour.sideEnd, last / 2, arcPoint)],
    ['cusp-bottom', fillerBlock(border.bottomColumns, 2 * ringRows, bottomCusp)],
    ['cusp-top', fillerBlock(border.topColumns, ringRows, topCusp)],
  ];
}

/** Web leg, bend, foot and skin, a row of elements after the other. */
export function laminateBlocks(joint: TeeJoint, division: TeeDivision): TeeBlock[] {
  const R = joint.bendRadius;
  const { overlaminate, skin, web, foot, free } = division;
  const { base, arc } = division.border;
  const block = (columns: number, of: LaminateRows, first: number, at: Block['at'], axes: Block['axes']): Block => ({
    columns,
    rows: of.layers.length,
    at,
    material: (row) => first + of.layers[row]!,
    axes,
  });
  const strip = (xs: readonly number[], of: LaminateRows, first: number) =>
    block((xs.length - 1) / 2, of, first, (column, row) => [xs[column]!, of.positions[row]!], {
      kind: 'straight',
      angle: 0,
    });
  const overlaminateMaterial = filler + 1;
  const skinMaterial = overlaminateMaterial + joint.overlaminate.length;
  const upright: Block['at'] = (column, row) => [overlaminate.positions[row]!, web[column]!];
  const bent: Block['at'] = (column, row) => onArc(R, arc[arc.length - 1 - column]!, R - overlaminate.positions[row]!);
  const skins: TeeBlock[] = [
    ['skin-filler', strip(base, skin, skinMaterial)],
    ['skin-foot', strip(foot, skin, skinMaterial)],
  ];
  if (free !== undefined) skins.push(['skin-free', strip(free, skin, skinMaterial)]);
  return [
    [
      'web',
      block((web.length - 1) / 2, overlaminate, overlaminateMaterial, upright, {
        kind: 'straight',
        angle: -Math.PI / 2,
      }),
    ],
    ['bend', block((arc.length - 1) / 2, overlaminate, overlaminateMaterial, bent, { kind: 'arc', x: R, y: R })],
    ['foot', strip(foot, overlaminate, overlaminateMaterial)],
    ...skins,
  ];
}
