import {
  addBlock,
  addRings,
  between,
  type CubicMeshBuilder,
  divide,
  encroachedSegments,
  type Loop,
  type PlaceOf,
  ringLoops,
  triangulate,
} from '../../../mesh/triangle/index.js';
import { plyBorders } from '../laminate.js';
import { divided, growingSteps, type MeshedCrack, type Pocketed, type PocketedColumns } from './pocketed.js';

/** Corners of a meshed laminate with a pocket. */
export interface PocketedCorners {
  /** Of its faces, from left to right. */
  readonly bottom: readonly number[];
  readonly top: readonly number[];
  readonly left: PocketedEnd;
  readonly right: PocketedEnd;
}

/** Bottom up: corners of an end and their heights, and the ply of each row between them. */
export interface PocketedEnd {
  readonly corners: readonly number[];
  readonly levels: readonly number[];
  readonly plies: readonly number[];
}

export interface PocketedZones {
  readonly resin: number;
  /** Of a ply from one column to the next, which is told by its middle. */
  ply(ply: number, s: number): number;
  /** Where these change, among the columns. */
  readonly breaks: readonly number[];
}

/** What is meshed, and into what. */
interface Making {
  readonly builder: CubicMeshBuilder;
  readonly spec: Pocketed;
  readonly columns: PocketedColumns;
  readonly zones: PocketedZones;
}

/** Columns of corners, each from the pocket's side away. */
type Grid = readonly (readonly number[])[];

/**
 * Plies and the tips of a lens in structured blocks that follow the pocket, the rest of the pocket graded from the channel's edge. The last
 * slice of a lens is straight. Boundary part 'crack': sides inside, from the pocket to where a crack ends after it has grown. `known`: corners of the bottom face that exist already. `undefined` where sides come too close to each other.
 */
export function addPocketed(
  builder: CubicMeshBuilder,
  spec: Pocketed,
  columns: PocketedColumns,
  zones: PocketedZones,
  known: (column: number) => number | undefined = () => undefined,
): PocketedCorners | undefined {
  const making: Making = { builder, spec, columns, zones };
  const isSlot = spec.laminate.pocket.made === 'cut';
  const [lowerRows, upperRows] = rowsBeside(spec);
  const lower = addStack(making, lowerRows, false, (i, row) =>
    row === lowerRows.levels.length - 1 ? known(i) : undefined,
  );
  const first = columns.leftFar.length - 1;
  const last = columns.above.length - columns.rightFar.length;
  const upper = addStack(making, upperRows, true, (i, row) => {
    if (isSlot || row !== 0 || (i > first && i < last)) return undefined;
    return lower.at(i <= first ? i : i - columns.above.length)![0];
  });
  const [under, over] = [lower, upper].map((grid) =>
    grid.slice(first, grid.length - columns.rightFar.length + 1).map((column) => column[0]!),
  ) as [number[], number[]];
  const sides = isSlot ? addCutPlies(making, lower, upper) : { left: noEnd, right: noEnd };
  const rim = isSlot
    ? [...under, ...sides.right.near, ...over.toReversed(), ...sides.left.near.toReversed()]
    : addTips(making, under, over);
  if (!addResin(making, rim)) return undefined;
  if (spec.crack !== undefined) nameCrack(making, spec.crack, spec.crack.side === 'lower' ? lower : upper);

  const skipped = isSlot ? 0 : 1;
  const endOf = (column: number, cut: PocketedEnd): PocketedEnd => ({
    corners: [...lower.at(column)!.toReversed(), ...cut.corners, ...upper.at(column)!.slice(skipped)],
    levels: [...lowerRows.levels.toReversed(), ...cut.levels, ...upperRows.levels.slice(skipped)],
    plies: [...lowerRows.plies.toReversed(), ...cut.plies, ...upperRows.plies],
  });
  return {
    bottom: lower.map((column) => column.at(-1)!),
    top: upper.map((column) => column.at(-1)!),
    left: endOf(0, sides.left),
    right: endOf(-1, sides.right),
  };
}

/** `beside`: the plies on that side of it. */
function nameCrack({ builder, spec: { form }, columns }: Making, crack: MeshedCrack, beside: Grid): void {
  const isLeft = crack.end === 'left';
  const far = isLeft ? columns.leftFar : columns.rightFar;
  const outwards = isLeft ? beside.slice(0, far.length).reverse() : beside.slice(-far.length);
  const end = form.halfWidth + crack.length + (crack.sides + 0.5) * crack.step;
  const line = outwards.filter((_, i) => Math.abs(far[i]!) < end).map((column) => column[0]!);
  for (let i = 0; i + 1 < line.length; i++) builder.side('crack', line[i]!, line[i + 1]!);
}

/** Rows of plies that lead away from the pocket: their levels, and the ply of each row. */
type PlyRows = Pick<PocketedEnd, 'levels' | 'plies'>;

/** Rows below and above a pocket. */
function rowsBeside({ laminate, form, extent, coarseness, crack }: Pocketed): [below: PlyRows, above: PlyRows] {
  const { pocket, layup } = laminate;
  const borders = plyBorders(layup);
  const height = form.upper.at(0) - form.lower.at(0);
  const usual = coarseness * Math.max(0.5 * extent.wall, 0.02 * height);
  const crackOn = (side: 'lower' | 'upper') =>
    crack !== undefined && (pocket.made === 'drape' || crack.side === side) ? crack.mouth : undefined;
  const below = pocket.made === 'cut' ? pocket.first : pocket.below;
  const above = pocket.made === 'cut' ? pocket.first + pocket.count : pocket.below;
  const lower = rowsAway(borders.slice(0, below + 1).reverse(), { finest: usual, coarseness, first: crackOn('lower') });
  const upper = rowsAway(borders.slice(above), { finest: usual, coarseness, first: crackOn('upper') });
  return [
    { levels: lower.levels, plies: lower.plies.map((k) => below - 1 - k) },
    { levels: upper.levels, plies: upper.plies.map((k) => above + k) },
  ];
}

/** Plies on one side of the pocket. `given`: corners that exist already, by column and row. */
function addStack(
  making: Making,
  { levels, plies }: PlyRows,
  isAbove: boolean,
  given: (column: number, row: number) => number | undefined,
): Grid {
  const { builder, spec, columns } = making;
  const { form, place } = spec;
  const xs = isAbove ? columns.above : columns.below;
  const tips = [columns.leftFar.length - 1, xs.length - columns.rightFar.length - 1];
  const isSlot = spec.laminate.pocket.made === 'cut';
  const at: PlaceOf = (u, v) => {
    const x = between(xs, u);
    const level = between(levels, v);
    const cell = Math.min(Math.floor(u), xs.length - 2);
    if (isSlot || !tips.includes(cell)) return place(x, form.place(x, level, isAbove));
    const [y, Y] = [form.place(xs[cell]!, level, isAbove), form.place(xs[cell + 1]!, level, isAbove)];
    return place(x, y + (u - cell) * (Y - y));
  };
  const grid = xs.map((_, i) => levels.map((_, j) => given(i, j) ?? builder.corner(...at(i, j))));
  addPlies(making, grid, xs, at, plies);
  return grid;
}

/** A grid of plies, zone by zone. */
function addPlies(
  { builder, zones }: Making,
  grid: Grid,
  xs: readonly number[],
  at: PlaceOf,
  plies: readonly number[],
): void {
  const ends = [
    0,
    ...zones.breaks.map((s) => nearestIndex(xs, s)).filter((i) => i > 0 && i < xs.length - 1),
    xs.length - 1,
  ];
  for (let k = 0; k + 1 < ends.length; k++) {
    const [first, last] = [ends[k]!, ends[k + 1]!];
    const middle = (xs[first]! + xs[last]!) / 2;
    addBlock(
      builder,
      grid.slice(first, last + 1),
      (u, v) => at(first + u, v),
      (row) => zones.ply(plies[row]!, middle),
    );
  }
}

/** The end of cut plies, and their corners on the side of the slot, bottom up; neither has those of the plies below and above. */
interface CutEnd extends PocketedEnd {
  readonly near: readonly number[];
}

const noEnd: CutEnd = { near: [], corners: [], levels: [], plies: [] };

/** The plies that a slot cuts, to both sides of it. */
function addCutPlies(making: Making, lower: Grid, upper: Grid): { readonly left: CutEnd; readonly right: CutEnd } {
  const { builder, spec, columns } = making;
  const { laminate, form, place, sizeAt, crack } = spec;
  const { pocket, layup } = laminate;
  if (pocket.made !== 'cut') throw new Error('only a slot cuts plies');
  const cut = plyBorders(layup).slice(pocket.first, pocket.first + pocket.count + 1);
  const cracked = crack && (crack.side === 'lower' ? cut[0]! : cut.at(-1)!);
  const rowsOfCutPly = (from: number, to: number, size: (y: number) => number) => {
    if (from === cracked) return growingSteps(from, to, crack!.mouth, size);
    return to === cracked ? growingSteps(to, from, crack!.mouth, size).reverse() : divided(from, to, size);
  };
  const side = (far: readonly number[], sign: 1 | -1): CutEnd => {
    const levels = [cut[0]!];
    const plies: number[] = [];
    const sizeBeside = (y: number) => sizeAt(...place(sign * form.halfWidth, y));
    for (let k = 0; k < pocket.count; k++) {
      const rows = rowsOfCutPly(cut[k]!, cut[k + 1]!, sizeBeside).slice(1);
      levels.push(...rows);
      for (const _ of rows) plies.push(pocket.first + k);
    }
    const at: PlaceOf = (u, v) => place(between(far, u), between(levels, v));
    const cornerOf = (grid: Grid, i: number) =>
      sign === 1 ? grid[grid.length - far.length + i]![0]! : grid[far.length - 1 - i]![0]!;
    const grid = far.map((_, i) =>
      levels.map((_, j) => {
        if (j === 0) return cornerOf(lower, i);
        return j === levels.length - 1 ? cornerOf(upper, i) : builder.corner(...at(i, j));
      }),
    );
    addPlies(making, grid, far, at, plies);
    const inner = (list: readonly number[]) => list.slice(1, -1);
    return { near: inner(grid[0]!), corners: inner(grid.at(-1)!), levels: inner(levels), plies };
  };
  return { left: side(columns.leftFar, -1), right: side(columns.rightFar, 1) };
}

/** Both tips of a lens; returns the rim of what is left of the pocket, counter-clockwise. `under`, `over`: corners along its sides. */
function addTips(making: Making, under: readonly number[], over: readonly number[]): number[] {
  const { leftTip, rightTip } = making.columns;
  const [left, right] = [leftTip.length - 1, rightTip.length - 1];
  addTip(making, under.slice(0, left + 1), over.slice(0, left + 1), -1);
  addTip(making, under.slice(-right - 1).reverse(), over.slice(-right - 1).reverse(), 1);
  return [...under.slice(left, under.length - right), ...over.slice(left, over.length - right).reverse()];
}

/** One tip of a lens: two rows of corners that meet in their first one. */
function addTip(
  { builder, spec: { form, place }, columns, zones }: Making,
  lower: readonly number[],
  upper: readonly number[],
  side: 1 | -1,
): void {
  const distances = side === 1 ? columns.rightTip : columns.leftTip;
  const xAt = (u: number) => side * (form.halfWidth - between(distances, u));
  const at: PlaceOf = (u, v) => {
    const x = xAt(u + 1);
    const y = form.lower.at(x);
    return place(x, y + v * (form.upper.at(x) - y));
  };
  addBlock(
    builder,
    lower.slice(1).map((corner, k) => [corner, upper[k + 1]!]),
    at,
    () => zones.resin,
  );
  const tip = [lower[0]!, lower[1]!, upper[1]!] as const;
  if (side === -1) builder.triangle(tip[0], tip[1], tip[2], zones.resin);
  else builder.triangle(tip[0], tip[2], tip[1], zones.resin);
}

/** Resin between the channels and the rim; `false` where sides come too close to each other. */
function addResin({ builder, spec, zones }: Making, rim: readonly number[]): boolean {
  const { channels, sizeAt } = spec;
  const places = rim.map((corner) => builder.place(corner));
  const loops: Loop[] = [{ x: places.map(([x]) => x), y: places.map(([, y]) => y) }, ...ringLoops(channels)];
  if (encroachedSegments(loops).length > 0) return false;
  const { x, y, triangles } = triangulate(loops, sizeAt);
  const corners = [...rim];
  for (let i = rim.length; i < x.length; i++) corners.push(builder.corner(x[i]!, y[i]!));
  if (channels.edges.length > 0) addRings(builder, channels, corners[rim.length]!, zones.resin);
  for (let t = 0; t < triangles.length; t += 3)
    builder.triangle(corners[triangles[t]!]!, corners[triangles[t + 1]!]!, corners[triangles[t + 2]!]!, zones.resin);
  return true;
}

/** Place of the number nearest to a value, of two as near the first. */
export function nearestIndex(list: readonly number[], value: number): number {
  let best = 0;
  for (let i = 1; i < list.length; i++) if (Math.abs(list[i]! - value) < Math.abs(list[best]! - value)) best = i;
  return best;
}

interface RowSizes {
  readonly finest: number;
  readonly coarseness: number;
  /** Of the row beside a crack. */
  readonly first: number | undefined;
}

/** Rows of plies, `borders` of which lead away from the pocket: levels, and how many plies away each row is. */
function rowsAway(borders: readonly number[], { finest, coarseness, first }: RowSizes) {
  const levels = [borders[0]!];
  const plies: number[] = [];
  const sign = Math.sign(borders.at(-1)! - borders[0]!);
  for (let ply = 0; ply + 1 < borders.length; ply++) {
    const thickness = Math.abs(borders[ply + 1]! - borders[ply]!);
    const depth = Math.abs(borders[ply]! - borders[0]!);
    const usual = (s: number) => finest + coarseness * 0.325 * (depth + s);
    const parts =
      ply === 0 && first !== undefined
        ? growingSteps(0, thickness, first, usual)
        : Array.from(divide(thickness, 50, (k) => usual(((k + 0.5) * thickness) / 50)));
    // At least two rows next to the resin: one element through that ply biases the stress near it.
    const rows = ply === 0 && parts.length < 3 ? [0, thickness / 2, thickness] : parts;
    for (const s of rows.slice(1)) {
      levels.push(borders[ply]! + sign * s);
      plies.push(ply);
    }
  }
  return { levels, plies };
}
