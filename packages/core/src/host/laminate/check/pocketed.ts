import { InputError } from '../../../errors.js';
import {
  addBlock,
  addRings,
  between,
  type ChannelSizes,
  type CubicMeshBuilder,
  channelSizes,
  divide,
  type EdgeCurve,
  encroachedSegments,
  type Loop,
  type Place,
  type PlaceOf,
  ringLoops,
  triangulate,
} from '../../../mesh/triangle/index.js';
import type { Border } from '../../../outline/index.js';
import { power } from '../../../power.js';
import { type LaminateJoint, plyBorders } from '../laminate.js';
import type { PocketForm } from '../pocket.js';

/** Where channels end along the flat laminate, and their least wall; mm. */
export interface Extent {
  readonly left: number;
  readonly right: number;
  readonly wall: number;
}

/** A laminate with a pocket that is to be meshed, flat or folded into a larger section. */
export interface Pocketed {
  readonly laminate: Pick<LaminateJoint, 'layup' | 'pocket'>;
  readonly form: PocketForm;
  /** From the flat laminate (along from the pocket's middle, up from the bottom face) to the mesh. */
  place(s: number, y: number): Place;
  /** To where the laminate goes on to both sides of the pocket's middle. */
  readonly from: number;
  readonly to: number;
  readonly channels: ChannelSizes;
  /** Side of the triangles wanted at a place of the mesh. */
  sizeAt(x: number, y: number): number;
  readonly extent: Extent;
  readonly coarseness: number;
}

/**
 * Where channels lie in the flat laminate. `border` of the pocket and `flat` (from the mesh to the flat laminate) tell. Throws `InputError` where the
 * channel does not lie in the pocket.
 */
export function extentOf(
  form: PocketForm,
  border: Border,
  flat: (x: number, y: number) => Place,
  curves: readonly EdgeCurve[],
): Extent {
  let [left, right, wall] = [0, 0, (form.upper.at(0) - form.lower.at(0)) / 4];
  if (curves.length === 0) return { left, right, wall };
  [left, right] = [Infinity, -Infinity];
  const point = new Float64Array(5);
  for (const curve of curves)
    for (let k = 0; k < 512; k++) {
      curve.at((curve.length * k) / 512, point);
      const [s] = flat(point[0]!, point[1]!);
      left = Math.min(left, s);
      right = Math.max(right, s);
      wall = Math.min(wall, border.distance(point[0]!, point[1]!));
    }
  if (!(wall > 0))
    throw new InputError({
      path: 'channel',
      expected: 'an outline inside the pocket',
      received: 'one that touches or crosses its border',
      remedy: 'move the channel or make it smaller',
    });
  return { left, right, wall };
}

/** Largest side in a pocket by its height there, mm. */
export function largestInPocket(form: PocketForm): (s: number) => number {
  const height = form.upper.at(0) - form.lower.at(0);
  return (s) => Math.min(0.2 * height, 0.6 * Math.max(form.upper.at(s) - form.lower.at(s), 0.02 * height));
}

export function sizedChannels(
  curves: readonly EdgeCurve[],
  form: PocketForm,
  border: Border,
  coarseness: number,
  largest: (x: number, y: number) => number,
): ChannelSizes {
  const least = 1e-3 * (form.upper.at(0) - form.lower.at(0));
  return channelSizes(curves, { coarseness, gap: (x, y) => Math.max(border.distance(x, y), least), largest });
}

/** Columns along a pocket and beyond it. */
export interface PocketedColumns {
  /** Along the plies below and above, all of them. */
  readonly below: readonly number[];
  readonly above: readonly number[];
  /** Distances from the tips of a lens to where the triangles begin; [0]: a slot. */
  readonly leftTip: readonly number[];
  readonly rightTip: readonly number[];
  /** Beyond the pocket, from its sides outwards. */
  readonly leftFar: readonly number[];
  readonly rightFar: readonly number[];
}

/** `coarsest`: a column, by where it is; `given`: columns that must be there. */
export function pocketedColumns(
  { laminate, form, place, from, to, sizeAt, extent, coarseness }: Pocketed,
  coarsest: (s: number) => number,
  given: { readonly left: readonly number[]; readonly right: readonly number[] } = { left: [], right: [] },
): PocketedColumns {
  const isSlot = laminate.pocket.made === 'cut';
  const a = form.halfWidth;
  const sizeOn = (s: number, side: PocketForm['lower']) => Math.min(sizeAt(...place(s, side.at(s))), coarsest(s));
  // Tips of a lens: distances from the tip, from 0 to where the triangles begin.
  const sliver = (room: number, tip: number) => {
    const first = Math.min(0.1 * a, room / 2, coarsest(tip));
    const slices = Math.max(1, Math.ceil(Math.log(room / first) / Math.log(1 + 0.2 * coarseness)));
    return Array.from({ length: slices + 2 }, (_, k) => (k === 0 ? 0 : first * power(room / first, (k - 1) / slices)));
  };
  const roomAt = (end: number) => Math.min(0.45 * a, 0.6 * (a - end));
  const leftTip = isSlot ? [0] : sliver(roomAt(-extent.left), -a);
  const rightTip = isSlot ? [0] : sliver(roomAt(extent.right), a);
  const [start, end] = [leftTip.at(-1)! - a, a - rightTip.at(-1)!];
  const alongSide = (side: PocketForm['lower']) => [
    ...leftTip.slice(0, -1).map((s) => s - a),
    ...divided(start, end, (s) => sizeOn(s, side)),
    ...rightTip
      .slice(0, -1)
      .reverse()
      .map((s) => a - s),
  ];
  const outwards = (first: number, length: number, sign: 1 | -1) =>
    Array.from(
      divide(length, 800, (k) => {
        const distance = ((k + 0.5) * length) / 800;
        return Math.min(first + 0.26 * coarseness * distance, coarsest(sign * (a + distance)));
      }),
    );
  const sideSize = (s: number) => Math.min(sizeOn(s, form.lower), sizeOn(s, form.upper));
  const far = (first: number, all: number, beyond: readonly number[], sign: 1 | -1) => [
    ...outwards(first, (beyond[0] ?? all) - a, sign).map((s) => a + s),
    ...beyond.slice(1),
  ];
  const leftFar = far(
    isSlot ? sideSize(-a) : leftTip[1]!,
    -from,
    given.left.map((s) => -s),
    -1,
  ).map((s) => -s);
  const rightFar = far(isSlot ? sideSize(a) : rightTip[1]!, to, given.right, 1);
  const whole = (side: PocketForm['lower']) => [...leftFar.toReversed(), ...alongSide(side).slice(1, -1), ...rightFar];
  return { below: whole(form.lower), above: whole(form.upper), leftTip, rightTip, leftFar, rightFar };
}

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

/**
 * Plies and the tips of a lens in structured blocks that follow the pocket, the rest of the pocket graded from the channel's edge. The last
 * slice of a lens is straight. `known`: corners of the bottom face that exist already. `undefined` where sides come too close to each other.
 */
export function addPocketed(
  builder: CubicMeshBuilder,
  spec: Pocketed,
  columns: PocketedColumns,
  zones: PocketedZones,
  known: (column: number) => number | undefined = () => undefined,
): PocketedCorners | undefined {
  const { laminate, form, place, channels, sizeAt, extent, coarseness } = spec;
  const { pocket, layup } = laminate;
  const { leftTip, rightTip, leftFar, rightFar } = columns;
  const isSlot = pocket.made === 'cut';
  const a = form.halfWidth;
  const height = form.upper.at(0) - form.lower.at(0);
  const borders = plyBorders(layup);
  const depth = coarseness * Math.max(0.5 * extent.wall, 0.02 * height);
  const below = isSlot ? pocket.first : pocket.below;
  const above = isSlot ? pocket.first + pocket.count : pocket.below;
  const lowerRows = rowsAway(borders.slice(0, below + 1).reverse(), depth, coarseness);
  const upperRows = rowsAway(borders.slice(above), depth, coarseness);

  /** A grid of plies, zone by zone. */
  const addPlies = (
    grid: readonly (readonly number[])[],
    xs: readonly number[],
    at: PlaceOf,
    plyOf: (row: number) => number,
  ) => {
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
        (row) => zones.ply(plyOf(row), middle),
      );
    }
  };

  /** Plies on one side of the pocket; corners on it are shared with `facing` beyond the tips of a lens. */
  const stack = (
    xs: readonly number[],
    { levels, plies }: ReturnType<typeof rowsAway>,
    isAbove: boolean,
    facing: ((i: number) => number | undefined) | undefined,
  ) => {
    const first = leftFar.length - 1;
    const last = xs.length - rightFar.length;
    const at: PlaceOf = (u, v) => {
      const x = between(xs, u);
      const level = between(levels, v);
      const cell = Math.min(Math.floor(u), xs.length - 2);
      if (isSlot || (cell !== first && cell !== last - 1)) return place(x, form.place(x, level, isAbove));
      const [y, Y] = [form.place(xs[cell]!, level, isAbove), form.place(xs[cell + 1]!, level, isAbove)];
      return place(x, y + (u - cell) * (Y - y));
    };
    const grid = xs.map((_, i) =>
      levels.map((_, j) => {
        const shared = j === 0 && (i <= first || i >= last) ? facing?.(i <= first ? i : i - xs.length) : undefined;
        const given = !isAbove && j === levels.length - 1 ? known(i) : undefined;
        return shared ?? given ?? builder.corner(...at(i, j));
      }),
    );
    addPlies(grid, xs, at, (row) => (isAbove ? above + plies[row]! : below - 1 - plies[row]!));
    return { grid, pocket: grid.slice(first, last + 1).map((column) => column[0]!) };
  };
  const lower = stack(columns.below, lowerRows, false, undefined);
  const upper = stack(columns.above, upperRows, true, isSlot ? undefined : (i) => lower.grid.at(i)![0]);

  let rim: number[];
  const none = { corners: [] as number[], levels: [] as number[], plies: [] as number[] };
  let cutEnds = { left: none, right: none };
  if (isSlot) {
    const cut = borders.slice(pocket.first, above + 1);
    const side = (far: readonly number[], sign: 1 | -1) => {
      const levels = [cut[0]!];
      const plies: number[] = [];
      for (let k = 0; k < pocket.count; k++) {
        const rows = divided(cut[k]!, cut[k + 1]!, (y) => sizeAt(...place(sign * a, y))).slice(1);
        levels.push(...rows);
        for (const _ of rows) plies.push(pocket.first + k);
      }
      const at: PlaceOf = (u, v) => place(between(far, u), between(levels, v));
      const cornerOf = (grid: typeof lower.grid, i: number) =>
        sign === 1 ? grid[grid.length - far.length + i]![0]! : grid[far.length - 1 - i]![0]!;
      const grid = far.map((_, i) =>
        levels.map((_, j) => {
          if (j === 0) return cornerOf(lower.grid, i);
          return j === levels.length - 1 ? cornerOf(upper.grid, i) : builder.corner(...at(i, j));
        }),
      );
      addPlies(grid, far, at, (row) => plies[row]!);
      return {
        near: grid[0]!,
        end: { corners: grid.at(-1)!.slice(1, -1), levels: levels.slice(1, -1), plies },
      };
    };
    const left = side(leftFar, -1);
    const right = side(rightFar, 1);
    rim = [
      ...lower.pocket,
      ...right.near.slice(1, -1),
      ...upper.pocket.toReversed(),
      ...left.near.slice(1, -1).reverse(),
    ];
    cutEnds = { left: left.end, right: right.end };
  } else {
    const [nearLeft, nearRight] = [leftTip.length - 1, rightTip.length - 1];
    addTip(
      builder,
      lower.pocket.slice(0, nearLeft + 1),
      upper.pocket.slice(0, nearLeft + 1),
      spec,
      leftTip,
      -1,
      zones.resin,
    );
    addTip(
      builder,
      lower.pocket.slice(-nearRight - 1).reverse(),
      upper.pocket.slice(-nearRight - 1).reverse(),
      spec,
      rightTip,
      1,
      zones.resin,
    );
    rim = [
      ...lower.pocket.slice(nearLeft, lower.pocket.length - nearRight),
      ...upper.pocket.slice(nearLeft, upper.pocket.length - nearRight).reverse(),
    ];
  }

  const places = rim.map(builder.place);
  const loops: Loop[] = [{ x: places.map(([x]) => x), y: places.map(([, y]) => y) }, ...ringLoops(channels)];
  if (encroachedSegments(loops).length > 0) return undefined;
  const { x, y, triangles } = triangulate(loops, sizeAt);
  const corners = [...rim];
  for (let i = rim.length; i < x.length; i++) corners.push(builder.corner(x[i]!, y[i]!));
  if (channels.edges.length > 0) addRings(builder, channels, corners[rim.length]!, zones.resin);
  for (let t = 0; t < triangles.length; t += 3)
    builder.triangle(corners[triangles[t]!]!, corners[triangles[t + 1]!]!, corners[triangles[t + 2]!]!, zones.resin);

  const skipped = isSlot ? 0 : 1;
  const endOf = (column: number, cut: PocketedEnd): PocketedEnd => ({
    corners: [...lower.grid.at(column)!.toReversed(), ...cut.corners, ...upper.grid.at(column)!.slice(skipped)],
    levels: [...lowerRows.levels.toReversed(), ...cut.levels, ...upperRows.levels.slice(skipped)],
    plies: [
      ...lowerRows.plies.map((k) => below - 1 - k).reverse(),
      ...cut.plies,
      ...upperRows.plies.map((k) => above + k),
    ],
  });
  return {
    bottom: lower.grid.map((column) => column.at(-1)!),
    top: upper.grid.map((column) => column.at(-1)!),
    left: endOf(0, cutEnds.left),
    right: endOf(-1, cutEnds.right),
  };
}

const divided = (from: number, to: number, size: (s: number) => number): number[] =>
  Array.from(
    divide(to - from, 800, (k) => size(from + ((k + 0.5) * (to - from)) / 800)),
    (s) => from + s,
  );

function nearestIndex(list: readonly number[], value: number): number {
  let best = 0;
  for (let i = 1; i < list.length; i++) if (Math.abs(list[i]! - value) < Math.abs(list[best]! - value)) best = i;
  return best;
}

/** One tip of a lens: two rows of corners that meet in their first one. */
function addTip(
  builder: CubicMeshBuilder,
  lower: readonly number[],
  upper: readonly number[],
  { form, place }: Pick<Pocketed, 'form' | 'place'>,
  distances: readonly number[],
  side: 1 | -1,
  zone: number,
): void {
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
    () => zone,
  );
  const tip = [lower[0]!, lower[1]!, upper[1]!] as const;
  if (side === -1) builder.triangle(tip[0], tip[1], tip[2], zone);
  else builder.triangle(tip[0], tip[2], tip[1], zone);
}

/** Rows of plies, `borders` of which lead away from the pocket: levels, and how many plies away each row is. */
function rowsAway(borders: readonly number[], finest: number, coarseness: number) {
  const levels = [borders[0]!];
  const plies: number[] = [];
  const sign = Math.sign(borders.at(-1)! - borders[0]!);
  for (let ply = 0; ply + 1 < borders.length; ply++) {
    const thickness = Math.abs(borders[ply + 1]! - borders[ply]!);
    const depth = Math.abs(borders[ply]! - borders[0]!);
    const parts = Array.from(
      divide(thickness, 50, (k) => finest + coarseness * 0.325 * (depth + ((k + 0.5) * thickness) / 50)),
    );
    // At least two rows next to the resin: one element through that ply biases the stress near it.
    const rows = ply === 0 && parts.length < 3 ? [0, thickness / 2, thickness] : parts;
    for (const s of rows.slice(1)) {
      levels.push(borders[ply]! + sign * s);
      plies.push(ply);
    }
  }
  return { levels, plies };
}
