import { type Layup, layupThickness, sectionStiffness } from '../../material/index.js';
import {
  type Block,
  graded,
  growing,
  joinParts,
  type PlacedBlock,
  type SectionBody,
  withMiddles,
} from '../../mesh/quad/index.js';
import { cube } from '../../power.js';
import { type ContourPath, fillerBorder } from './filler-border.js';
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
 * Rows are no thicker than this share of their laminate (a shear that bends over its depth needs as many), nor of the radius that they bend with (where
 * it is tight, radial stress falls as fast as it does).
 */
const rowPerLaminate = 0.12;
const rowPerRadius = 0.25;

/** Index of the filler among the body's materials; overlaminate layers follow, then skin layers. */
const filler = 0;

type Point = readonly [number, number];

/**
 * Meshes everything outside the contour with curved rectangles: a ring of filler, its two cusps meshed to the tip (the last
 * elements collapse there), web leg, bend and foot layer by layer, and the skin. Elements are as fine as the contour's
 * edges near the filler and grow away from it. `refinement` divides every size but the contour's edges.
 */
export function meshTee(joint: TeeJoint, contour: ContourPath, refinement = 1): TeeMesh {
  const R = joint.bendRadius;
  const t = layupThickness(joint.overlaminate);
  const inset = contour.y[0]!;
  const fine = Math.min(inset, t / 8) / refinement;
  const ringRows = Math.max(2, Math.round(2 * refinement));
  const border = fillerBorder(R, contour, refinement);
  const { base, arc } = border;
  const last = contour.x.length - 1;

  const overlaminate = layerRows(
    joint.overlaminate,
    fine,
    0.35 / refinement,
    (depth) => Math.min(rowPerLaminate * t, rowPerRadius * (R - depth)) / refinement,
  );
  const skin = layerRows(
    joint.skin,
    fine,
    0.4 / refinement,
    () => (rowPerLaminate * layupThickness(joint.skin)) / refinement,
  );
  const skinUp = skin.positions.map((depth) => -depth).reverse();
  const skinLayers = [...skin.layers].reverse();
  const footStep = base[base.length - 1]! - base[base.length - 3]!;
  const webStep = R * (arc[arc.length - 3]! - arc[arc.length - 1]!);
  const coarsest = (0.75 * t) / refinement;
  const columnsAlong = (length: number, first: number, end: number) =>
    withMiddles(graded(length, growing(length, first, end, 0.3 / refinement, coarsest)));
  const runOut = Math.min(t, layupThickness(joint.skin)) / 8 / refinement;
  const web = columnsAlong(joint.webHeight, webStep, coarsest)
    .map((s) => R + s)
    .reverse();
  const foot = columnsAlong(joint.footLength, footStep, runOut).map((s) => R + s);
  const free = joint.skinHalfSpan - R - joint.footLength;

  const onArc = (angle: number, radius = R): Point => [R + radius * Math.cos(angle), R + radius * Math.sin(angle)];
  const between = (a: Point, b: Point, f: number): Point => [a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1])];
  const fillerBlock = (columns: number, rows: number, at: Block['at']): Block => ({
    columns,
    rows,
    at,
    material: () => filler,
    axes: { kind: 'straight', angle: 0 },
  });
  /** A ring block along contour edges `from` to `to`; `borderPoint` gives the border's point of a contour node. */
  const ring = (from: number, to: number, borderPoint: (node: number) => Point) =>
    fillerBlock(to - from, ringRows, (column, row) => {
      const node = 2 * from + column;
      return between(borderPoint(node), [contour.x[node]!, contour.y[node]!], row / (2 * ringRows));
    });
  const basePoint = (node: number): Point => [base[node]!, 0];
  // Arc nodes count from the bottom cusp: the first belong to the cusp's own columns.
  const arcPoint = (node: number): Point => onArc(arc[2 * border.bottomColumns + node - 2 * contour.nose]!);
  const nose: Point = [contour.x[2 * contour.nose]!, contour.y[2 * contour.nose]!];
  const bottomCusp = (column: number, row: number): Point => {
    const below: Point = [base[2 * contour.nose + column]!, 0];
    const above = onArc(arc[2 * border.bottomColumns - column]!);
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
    return between(onArc(arc[arc.length - 1 - 2 * border.topColumns + column]!), axis, row / (2 * ringRows));
  };
  const strip = (
    xs: readonly number[],
    ys: readonly number[],
    layers: readonly number[],
    firstMaterial: number,
  ): Block => ({
    columns: (xs.length - 1) / 2,
    rows: layers.length,
    at: (column, row) => [xs[column]!, ys[row]!],
    material: (row) => firstMaterial + layers[row]!,
    axes: { kind: 'straight', angle: 0 },
  });
  const overlaminateMaterial = filler + 1;
  const skinMaterial = overlaminateMaterial + joint.overlaminate.length;
  const blocks: [TeePart, Block][] = [
    ['ring-base', ring(0, contour.baseEnd, basePoint)],
    ['ring-tip-below', ring(contour.baseEnd, contour.nose, basePoint)],
    ['ring-tip-above', ring(contour.nose, contour.sideStart, arcPoint)],
    ['ring-side', ring(contour.sideStart, contour.sideEnd, arcPoint)],
    ['ring-top', ring(contour.sideEnd, last / 2, arcPoint)],
    ['cusp-bottom', fillerBlock(border.bottomColumns, 2 * ringRows, bottomCusp)],
    ['cusp-top', fillerBlock(border.topColumns, ringRows, topCusp)],
    [
      'web',
      {
        columns: (web.length - 1) / 2,
        rows: overlaminate.layers.length,
        at: (column, row) => [overlaminate.positions[row]!, web[column]!],
        material: (row) => overlaminateMaterial + overlaminate.layers[row]!,
        axes: { kind: 'straight', angle: -Math.PI / 2 },
      },
    ],
    [
      'bend',
      {
        columns: (arc.length - 1) / 2,
        rows: overlaminate.layers.length,
        at: (column, row) => onArc(arc[arc.length - 1 - column]!, R - overlaminate.positions[row]!),
        material: (row) => overlaminateMaterial + overlaminate.layers[row]!,
        axes: { kind: 'arc', x: R, y: R },
      },
    ],
    ['foot', strip(foot, overlaminate.positions, overlaminate.layers, overlaminateMaterial)],
    ['skin-filler', strip(base, skinUp, skinLayers, skinMaterial)],
    ['skin-foot', strip(foot, skinUp, skinLayers, skinMaterial)],
  ];
  if (free > 1e-9 * R) {
    const beyond = columnsAlong(free, runOut, coarsest).map((s) => R + joint.footLength + s);
    blocks.push(['skin-free', strip(beyond, skinUp, skinLayers, skinMaterial)]);
  }
  const { mesh, parts, nodeOf } = joinParts(blocks, 1e-9 * R);
  const contourNodes = new Int32Array(last + 1);
  let at = 0;
  for (const part of ['ring-base', 'ring-tip-below', 'ring-tip-above', 'ring-side', 'ring-top'] as const)
    for (let column = 0; column < parts[part]!.columns; column++, at += 2)
      for (let a = 0; a < 3; a++) contourNodes[at + a] = nodeOf(part, column, ringRows - 1, a, 2);
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
    overlaminateLayers: overlaminate.layers,
    skinLayers,
    contourNodes,
    axisNodes,
    webTop: side('web', 0, 0),
    skinEnd: side(endPart, parts[endPart]!.columns - 1, 2),
  };
}

/**
 * Rows of elements through a layup: positions from the filler outward (with middles), and the layer of each row. They grow with the depth, up to
 * `coarsest` there.
 */
export function layerRows(
  layup: Layup,
  finest: number,
  growth: number,
  coarsest: (depth: number) => number = () => Number.POSITIVE_INFINITY,
) {
  const positions = [0];
  const layers: number[] = [];
  let depth = 0;
  layup.forEach((layer, index) => {
    // Two elements through the layer next to the filler: one biases the stress of channels close to it by 0.3 %.
    const ends = graded(
      layer.thickness,
      (s) => Math.min(finest + growth * (depth + s), coarsest(depth + s)),
      index === 0 ? 2 : 1,
    );
    positions.push(
      ...withMiddles(ends)
        .slice(1)
        .map((s) => depth + s),
    );
    for (let row = 1; row < ends.length; row++) layers.push(index);
    depth += layer.thickness;
  });
  return { positions, layers };
}
