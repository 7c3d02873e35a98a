import { type Block, graded, growing, withMiddles } from '../../mesh/quad/index.js';
import { anew, type Choose, shared } from '../choices.js';
import type { ControlContour } from './contour.js';
import { type LaminateJoint, plyBorders } from './laminate.js';
import { type PocketForm, pocketForm } from './pocket.js';

export type LaminatePart =
  | 'ring-below'
  | 'ring-end'
  | 'ring-above'
  | 'pocket-end'
  | 'cut-plies'
  | `${'below' | 'above'}-${'channel' | 'pocket' | 'far'}`;

type Point = readonly [number, number];
type LaminateBlock = [LaminatePart, Block];

/** Index of the resin among the body's materials; plies follow, from the bottom up. */
const resin = 0;

/** Rows of resin between the contour and the pocket's border. */
export const ringRows = 2;

/** The blocks of a laminate's mesh, before they are joined: what they come to is known at no cost. */
export interface LaminateBlocks {
  readonly blocks: readonly LaminateBlock[];
  /** Ply of each row below and above the pocket and of the cut plies, bottom up. */
  readonly plies: {
    readonly below: readonly number[];
    readonly above: readonly number[];
    readonly cut: readonly number[];
  };
}

/** How finely a laminate is meshed outside its contour. */
export interface LaminateFineness {
  /** Divides every size but the contour's edges. */
  readonly refinement?: number;
  /** Of columns beyond the ring, mm. */
  readonly longest?: number;
}

/** Elements that `meshLaminate` makes. */
export const laminateElements = (joint: LaminateJoint, contour: ControlContour): number =>
  blocksOf(joint, contour, {}, anew).blocks.reduce((sum, [, { columns, rows }]) => sum + columns * rows, 0);

/**
 * Everything outside the contour as curved rectangles: a ring of resin, what of the pocket lies beyond it (the last elements of a
 * lens collapse in its tip), and plies in rows that follow the pocket. Elements are as fine as the contour's edges near
 * it and grow away. `choose` decides how many there are, and their shares.
 */
export function blocksOf(
  joint: LaminateJoint,
  contour: ControlContour,
  fineness: LaminateFineness,
  choose: Choose,
): LaminateBlocks {
  const division = divideLaminate(joint, contour, fineness, choose);
  const { below, above, cut } = division;
  const isSlot = joint.pocket.made === 'cut';
  return {
    blocks: [
      ...ringBlocks(contour, division),
      ...plyBlocks(contour, division, isSlot),
      ...(division.pocketX.length === 0 ? [] : [pocketBlock(division, isSlot)]),
      ...(isSlot ? [cutBlock(division)] : []),
    ],
    plies: { below: below.plies, above: above.plies, cut: cut.plies },
  };
}

/** Rows on one side of the pocket, bottom up: levels with middles, and the ply of each row. */
interface PlyRows {
  readonly levels: readonly number[];
  readonly plies: readonly number[];
}

/** Where the columns and rows of a laminate's elements stand, middles included. */
interface LaminateDivision {
  readonly form: PocketForm;
  readonly below: PlyRows;
  readonly above: PlyRows;
  /** Of the ring's end and what lies beyond it: shares of the pocket's height, and the plies that a slot cuts. */
  readonly cut: { readonly shares: readonly number[]; readonly plies: readonly number[] };
  readonly ringEnd: number;
  /** Distance from the axis of the ring's outer nodes, counted from the axis below and from the end above. */
  lowerX(node: number): number;
  upperX(node: number): number;
  /** Columns from the ring's end to the pocket's (none where the ring reaches a slot's side), and on to the laminate's. */
  readonly pocketX: readonly number[];
  readonly farX: readonly number[];
}

function divideLaminate(
  joint: LaminateJoint,
  contour: ControlContour,
  { refinement = 1, longest = Number.POSITIVE_INFINITY }: LaminateFineness,
  choose: Choose,
): LaminateDivision {
  const form = pocketForm(joint);
  const { layup, pocket } = joint;
  const borders = plyBorders(layup);
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

  // The end of the ring: its rows go on beyond it, those of a slot ply by ply.
  const tipEdges = upperStart - lowerEnd;
  const cut = isSlot
    ? cutRows(borders.slice(pocket.first, aboveFirst + 1), tipEdges)
    : { shares: Array.from({ length: 2 * tipEdges + 1 }, (_, i) => i / (2 * tipEdges)), plies: [] };
  if (cut.shares.length !== 2 * tipEdges + 1) throw new Error('the end of the contour has other edges than its rows');

  // Contour nodes from the axis to the end's corner move outwards to the end of the ring, those near the axis hardly.
  const spread = (from: number, to: number) => {
    const nose = contour.x[to]!;
    return (node: number) => {
      const x = contour.x[from + node]!;
      return x + (ringEnd - nose) * ((x / nose) ** 2) ** 2;
    };
  };
  const lowerX = spread(0, 2 * lowerEnd);

  const edge = Math.max(ringEnd - lowerX(2 * lowerEnd - 2), step) / refinement;
  const coarsest = Math.min(borders.at(-1)! / 4 / refinement, longest);
  const growth = 0.3 / refinement;
  const steps = (from: number, to: number, first: number, end: number) =>
    withMiddles(
      shared(choose, to - from, (length) => graded(length, growing(length, first, end, growth, coarsest), 3)),
    ).map((s) => from + s);
  const endStep = isSlot ? edge : Math.min(0.08 * form.halfWidth, 4 * edge);
  return {
    form,
    below: {
      levels: belowRows.levels.toReversed(),
      plies: belowRows.plies.map((k) => belowCount - 1 - k).reverse(),
    },
    above: { levels: aboveRows.levels, plies: aboveRows.plies.map((k) => aboveFirst + k) },
    cut: { shares: cut.shares, plies: cut.plies.map((k) => (isSlot ? pocket.first + k : k)) },
    ringEnd,
    lowerX,
    upperX: spread(2 * upperStart, 2 * upperStart),
    pocketX: reachesSide ? [] : steps(ringEnd, form.halfWidth, edge, endStep),
    farX: steps(form.halfWidth, joint.width / 2, reachesSide ? edge : endStep, coarsest),
  };
}

const between = (a: Point, b: Point, f: number): Point => [a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1])];
const columnsOf = (xs: readonly number[]) => (xs.length - 1) / 2;
const rowsOf = ({ cut }: LaminateDivision) => (cut.shares.length - 1) / 2;

function pocketHeight({ form, cut }: LaminateDivision, x: number, row: number): number {
  const bottom = form.lower.at(x);
  return bottom + cut.shares[row]! * (form.upper.at(x) - bottom);
}

const resinBlock = (columns: number, rows: number, at: Block['at']): Block => ({
  columns,
  rows,
  at,
  material: () => resin,
  axes: { kind: 'straight', angle: 0 },
});

function ringBlocks(contour: ControlContour, division: LaminateDivision): LaminateBlock[] {
  const { form, ringEnd, lowerX, upperX } = division;
  const { lowerEnd, upperStart } = contour;
  const ring = (from: number, to: number, outer: (node: number) => Point) =>
    resinBlock(to - from, ringRows, (column, row) => {
      const node = 2 * from + column;
      return between(outer(column), [contour.x[node]!, contour.y[node]!], row / (2 * ringRows));
    });
  return [
    ['ring-below', ring(0, lowerEnd, (node) => [lowerX(node), form.lower.at(lowerX(node))])],
    ['ring-end', ring(lowerEnd, upperStart, (row) => [ringEnd, pocketHeight(division, ringEnd, row)])],
    ['ring-above', ring(upperStart, (contour.x.length - 1) / 2, (node) => [upperX(node), form.upper.at(upperX(node))])],
  ];
}

/** Plies below and above: along the ring, along what of the pocket lies beyond it, and on to the end. */
function plyBlocks(contour: ControlContour, division: LaminateDivision, isSlot: boolean): LaminateBlock[] {
  const { form, pocketX, farX, lowerX, upperX } = division;
  const upperNodes = contour.x.length - 1 - 2 * contour.upperStart;
  const strip = (side: 'below' | 'above', count: number, xAt: (column: number) => number): Block => {
    const { levels, plies } = division[side];
    return {
      columns: count,
      rows: plies.length,
      at: (column, row) => [xAt(column), form.place(xAt(column), levels[row]!, side === 'above')],
      material: (row) => resin + 1 + plies[row]!,
      axes: { kind: 'draped', angle: form.angle },
    };
  };
  const listed = (side: 'below' | 'above', xs: readonly number[]) =>
    strip(side, columnsOf(xs), (column) => xs[column]!);
  const blocks: LaminateBlock[] = [
    ['below-channel', strip('below', contour.lowerEnd, lowerX)],
    ['below-far', listed('below', farX)],
    ['above-channel', strip('above', upperNodes / 2, (column) => upperX(upperNodes - column))],
    ['above-far', listed('above', farX)],
  ];
  if (pocketX.length === 0) return blocks;
  for (const side of ['below', 'above'] as const) {
    const block = listed(side, pocketX);
    blocks.push([`${side}-pocket`, { ...block, at: straightTip(block.at, division, isSlot) }]);
  }
  return blocks;
}

/** What of the pocket lies beyond the ring. */
function pocketBlock(division: LaminateDivision, isSlot: boolean): LaminateBlock {
  const { pocketX } = division;
  const at: Block['at'] = (column, row) => [pocketX[column]!, pocketHeight(division, pocketX[column]!, row)];
  return ['pocket-end', resinBlock(columnsOf(pocketX), rowsOf(division), straightTip(at, division, isSlot))];
}

/** The plies that a slot cuts, from its side to the end. */
function cutBlock(division: LaminateDivision): LaminateBlock {
  const { form, farX, cut } = division;
  return [
    'cut-plies',
    {
      columns: columnsOf(farX),
      rows: rowsOf(division),
      at: (column, row) => [farX[column]!, pocketHeight(division, 0, row)],
      material: (row) => resin + 1 + cut.plies[row]!,
      axes: { kind: 'draped', angle: form.angle },
    },
  ];
}

/** The last slice of a lens is straight: its cubic tip turns a quadratic element inside out. */
function straightTip(at: Block['at'], { pocketX }: LaminateDivision, isSlot: boolean): Block['at'] {
  const tip = pocketX.length - 1;
  return (column, row) =>
    !isSlot && column === tip - 1 ? between(at(tip - 2, row), at(tip, row), 1 / 2) : at(column, row);
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
