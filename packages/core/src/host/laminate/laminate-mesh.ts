import { layupThickness, sectionStiffness } from '../../material/index.js';
import {
  type Block,
  graded,
  growing,
  joinParts,
  type PlacedBlock,
  type SectionBody,
  withMiddles,
} from '../../mesh/quad/index.js';
import { anew, type Choose, shared } from '../choices.js';
import type { ControlContour } from './contour.js';
import { type LaminateJoint, plyBorders } from './laminate.js';
import { pocketForm } from './pocket.js';

export type LaminatePart =
  | 'ring-below'
  | 'ring-end'
  | 'ring-above'
  | 'pocket-end'
  | 'cut-plies'
  | `${'below' | 'above'}-${'channel' | 'pocket' | 'far'}`;

/** The meshed right half of a laminate outside its contour. */
export interface LaminateMesh {
  readonly body: SectionBody;
  readonly parts: Readonly<Partial<Record<LaminatePart, PlacedBlock>>>;
  /** Ply of each row below and above the pocket and of the cut plies, bottom up. */
  readonly plies: {
    readonly below: readonly number[];
    readonly above: readonly number[];
    readonly cut: readonly number[];
  };
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
type Point = readonly [number, number];

/** Index of the resin among the body's materials; plies follow, from the bottom up. */
const resin = 0;

const ringRows = 2;

/** The blocks of a laminate's mesh, before they are joined: what they come to is known at no cost. */
interface LaminateBlocks {
  readonly blocks: readonly [LaminatePart, Block][];
  readonly plies: LaminateMesh['plies'];
}

/** Elements that `meshLaminate` makes. */
export const laminateElements = (joint: LaminateJoint, contour: ControlContour): number =>
  blocksOf(joint, contour, 1, anew).blocks.reduce((sum, [, { columns, rows }]) => sum + columns * rows, 0);

/**
 * Everything outside the contour as curved rectangles: a ring of resin, what of the pocket lies beyond it (the last elements of a
 * lens collapse in its tip), and plies in rows that follow the pocket. Elements are as fine as the contour's edges near
 * it and grow away. `refinement` divides every size but the contour's edges. `choose` decides how many there are, and their shares.
 */
function blocksOf(joint: LaminateJoint, contour: ControlContour, refinement: number, choose: Choose): LaminateBlocks {
  const form = pocketForm(joint);
  const { layup, pocket } = joint;
  const borders = plyBorders(layup);
  const thickness = borders.at(-1)!;
  const half = joint.width / 2;
  const last = contour.x.length - 1;
  const { lowerEnd, upperStart, step, inset } = contour;
  const isSlot = pocket.made === 'cut';
  // The ring reaches the side of a slot, unless the room is cut down.
  const reachesSide = isSlot && form.halfWidth - contour.end < 2.5 * inset;
  const ringEnd = reachesSide ? form.halfWidth : contour.end + inset;

  const belowCount = isSlot ? pocket.first : pocket.below;
  const aboveFirst = isSlot ? pocket.first + pocket.count : pocket.below;
  const fine = inset / refinement;
  const belowRows = rowsAway(borders.slice(0, belowCount + 1).reverse(), fine, refinement, choose);
  const aboveRows = rowsAway(borders.slice(aboveFirst), fine, refinement, choose);
  const below = {
    levels: belowRows.levels.toReversed(),
    plies: belowRows.plies.map((k) => belowCount - 1 - k).reverse(),
  };
  const above = { levels: aboveRows.levels, plies: aboveRows.plies.map((k) => aboveFirst + k) };

  // The end of the ring: its rows go on beyond it, those of a slot ply by ply.
  const tipEdges = upperStart - lowerEnd;
  const cut = isSlot
    ? cutRows(borders.slice(pocket.first, aboveFirst + 1), tipEdges)
    : { shares: Array.from({ length: 2 * tipEdges + 1 }, (_, i) => i / (2 * tipEdges)), plies: [] };
  const cutPlies = cut.plies.map((k) => (isSlot ? pocket.first + k : k));
  const rowCount = (cut.shares.length - 1) / 2;
  if (rowCount !== tipEdges) throw new Error('the end of the contour has other edges than its rows');

  const spread = (from: number, to: number) => {
    // Contour nodes from the axis to the end's corner move outwards to the end of the ring, those near the axis hardly.
    const nose = contour.x[to]!;
    return (node: number) => {
      const x = contour.x[from + node]!;
      return x + (ringEnd - nose) * ((x / nose) ** 2) ** 2;
    };
  };
  const lowerX = spread(0, 2 * lowerEnd);
  const upperNodes = last - 2 * upperStart;
  const upperX = (node: number) => spread(2 * upperStart, 2 * upperStart)(node);
  const between = (a: Point, b: Point, f: number): Point => [a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1])];
  const onContour = (node: number): Point => [contour.x[node]!, contour.y[node]!];
  const resinBlock = (columns: number, rows: number, at: Block['at']): Block => ({
    columns,
    rows,
    at,
    material: () => resin,
    axes: { kind: 'straight', angle: 0 },
  });
  const ring = (from: number, to: number, outer: (node: number) => Point) =>
    resinBlock(to - from, ringRows, (column, row) =>
      between(outer(column), onContour(2 * from + column), row / (2 * ringRows)),
    );
  const pocketHeight = (x: number, share: number) => {
    const bottom = form.lower.at(x);
    return bottom + share * (form.upper.at(x) - bottom);
  };
  const atEnd = (row: number): Point => [ringEnd, pocketHeight(ringEnd, cut.shares[row]!)];

  const edge = Math.max(ringEnd - lowerX(2 * lowerEnd - 2), step) / refinement;
  const coarsest = thickness / 4 / refinement;
  const growth = 0.3 / refinement;
  const steps = (from: number, to: number, first: number, end: number) =>
    withMiddles(
      shared(choose, to - from, (length) => graded(length, growing(length, first, end, growth, coarsest), 3)),
    ).map((s) => from + s);
  const endStep = isSlot ? edge : Math.min(0.08 * form.halfWidth, 4 * edge);
  const pocketX = reachesSide ? [] : steps(ringEnd, form.halfWidth, edge, endStep);
  const farX = steps(form.halfWidth, half, reachesSide ? edge : endStep, coarsest);

  /** The last slice of a lens is straight: its cubic tip turns a quadratic element inside out. */
  const straightTip = (at: Block['at']): Block['at'] => {
    const tip = pocketX.length - 1;
    return (column, row) =>
      !isSlot && column === tip - 1 ? between(at(tip - 2, row), at(tip, row), 1 / 2) : at(column, row);
  };
  const draped: Block['axes'] = { kind: 'draped', angle: form.angle };
  const strip = (
    count: number,
    xAt: (column: number) => number,
    { levels, plies }: { readonly levels: readonly number[]; readonly plies: readonly number[] },
    isAbove: boolean,
  ): Block => ({
    columns: count,
    rows: plies.length,
    at: (column, row) => [xAt(column), form.place(xAt(column), levels[row]!, isAbove)],
    material: (row) => resin + 1 + plies[row]!,
    axes: draped,
  });
  const columnsOf = (xs: readonly number[]) => (xs.length - 1) / 2;
  const listed = (xs: readonly number[]) => (column: number) => xs[column]!;
  const blocks: [LaminatePart, Block][] = [
    ['ring-below', ring(0, lowerEnd, (node) => [lowerX(node), form.lower.at(lowerX(node))])],
    ['ring-end', ring(lowerEnd, upperStart, atEnd)],
    ['ring-above', ring(upperStart, last / 2, (node) => [upperX(node), form.upper.at(upperX(node))])],
    ['below-channel', strip(lowerEnd, lowerX, below, false)],
    ['below-far', strip(columnsOf(farX), listed(farX), below, false)],
    ['above-channel', strip(upperNodes / 2, (column) => upperX(upperNodes - column), above, true)],
    ['above-far', strip(columnsOf(farX), listed(farX), above, true)],
  ];
  if (!reachesSide)
    blocks.push(
      ...(['below', 'above'] as const).map((side): [LaminatePart, Block] => {
        const block = strip(columnsOf(pocketX), listed(pocketX), side === 'below' ? below : above, side === 'above');
        return [`${side}-pocket`, { ...block, at: straightTip(block.at) }];
      }),
      [
        'pocket-end',
        resinBlock(
          columnsOf(pocketX),
          rowCount,
          straightTip((column, row) => [pocketX[column]!, pocketHeight(pocketX[column]!, cut.shares[row]!)]),
        ),
      ],
    );
  if (isSlot)
    blocks.push([
      'cut-plies',
      {
        columns: columnsOf(farX),
        rows: rowCount,
        at: (column, row) => [farX[column]!, pocketHeight(0, cut.shares[row]!)],
        material: (row) => resin + 1 + cutPlies[row]!,
        axes: draped,
      },
    ]);
  return { blocks, plies: { below: below.plies, above: above.plies, cut: cutPlies } };
}

/** Meshes the right half of a laminate outside its contour; `refinement` divides every size but the contour's edges. */
export function meshLaminate(
  joint: LaminateJoint,
  contour: ControlContour,
  refinement = 1,
  choose: Choose = anew,
): LaminateMesh {
  const { layup } = joint;
  const thickness = layupThickness(layup);
  const half = joint.width / 2;
  const last = contour.x.length - 1;
  const { blocks, plies } = blocksOf(joint, contour, refinement, choose);
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

/** Rows of elements through plies, `borders` of which lead away from the pocket: levels with middles, and the ply of each row. */
function rowsAway(borders: readonly number[], finest: number, refinement: number, choose: Choose) {
  const levels = [borders[0]!];
  const plies: number[] = [];
  const sign = Math.sign(borders.at(-1)! - borders[0]!);
  for (let ply = 0; ply + 1 < borders.length; ply++) {
    const [from, thickness] = [borders[ply]!, Math.abs(borders[ply + 1]! - borders[ply]!)];
    const depth = Math.abs(from - borders[0]!);
    // Two elements at least through the ply next to the resin: one biases the stress of channels close to it.
    const ends = shared(choose, thickness, (length) =>
      graded(length, (s) => finest + (0.35 / refinement) * (depth + s), ply === 0 ? 2 : 1),
    );
    levels.push(
      ...withMiddles(ends)
        .slice(1)
        .map((s) => from + sign * s),
    );
    for (let row = 1; row < ends.length; row++) plies.push(ply);
  }
  return { levels, plies };
}

/** `count` rows of elements over the cut plies, in proportion: shares of their height with middles, and the ply of each row. */
function cutRows(borders: readonly number[], count: number) {
  const [bottom, top] = [borders[0]!, borders.at(-1)!];
  const shares = [0];
  const plies: number[] = [];
  let done = 0;
  for (let ply = 0; ply + 1 < borders.length; ply++) {
    const share = (borders[ply + 1]! - bottom) / (top - bottom);
    const rows = Math.max(1, Math.round(count * share) - done);
    const from = shares.at(-1)!;
    for (let row = 1; row <= 2 * rows; row++) shares.push(from + ((share - from) * row) / (2 * rows));
    for (let row = 0; row < rows; row++) plies.push(ply);
    done += rows;
  }
  return { shares, plies };
}
