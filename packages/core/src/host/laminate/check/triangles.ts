import { InputError } from '../../../errors.js';
import { sectionStiffness } from '../../../material/index.js';
import {
  addBlock,
  addRing,
  between,
  type CubicMesh,
  type CubicMeshBuilder,
  channelSize,
  createCubicMeshBuilder,
  divide,
  type EdgeCurve,
  encroachedSegments,
  type PlaceOf,
  ringLoop,
  triangulate,
  type Zone,
} from '../../../mesh/triangle/index.js';
import { power } from '../../../power.js';
import { type LaminateJoint, plyBorders } from '../laminate.js';
import { type PocketForm, pocketForm } from '../pocket.js';

/**
 * The whole section of a laminate in cubic triangles, with a channel or without: plies and the tips of a lens in structured blocks that
 * follow the pocket, the rest of the pocket graded from the channel's edge. The last slice of a lens is straight. Boundary
 * parts: 'channel', 'bottom', 'top', 'left-end', 'right-end'.
 *
 * Throws `InputError` where the channel does not lie in the pocket.
 */
export function laminateTriangles(joint: LaminateJoint, curve: EdgeCurve | undefined, coarseness: number): CubicMesh {
  const form = pocketForm(joint);
  const extent = extentOf(form, curve);
  // Where sides come too close to each other, everything is made finer until they don't.
  for (let finer = coarseness; finer > coarseness / 8; finer *= 0.75) {
    const mesh = attempt(joint, form, curve, extent, finer);
    if (mesh !== undefined) return mesh;
  }
  throw new Error('the pocket cannot be meshed: sides stay too close to each other');
}

/** Where a channel ends, and its least wall; mm. */
interface Extent {
  readonly left: number;
  readonly right: number;
  readonly wall: number;
}

function extentOf(form: PocketForm, curve: EdgeCurve | undefined): Extent {
  let [left, right, wall] = [0, 0, (form.upper.at(0) - form.lower.at(0)) / 4];
  if (curve === undefined) return { left, right, wall };
  [left, right] = [Infinity, -Infinity];
  const point = new Float64Array(5);
  for (let k = 0; k < 512; k++) {
    curve.at((curve.length * k) / 512, point);
    left = Math.min(left, point[0]!);
    right = Math.max(right, point[0]!);
    wall = Math.min(wall, form.distance(point[0]!, point[1]!));
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

function attempt(
  joint: LaminateJoint,
  form: PocketForm,
  curve: EdgeCurve | undefined,
  extent: Extent,
  coarseness: number,
): CubicMesh | undefined {
  const { pocket, layup } = joint;
  const isSlot = pocket.made === 'cut';
  const a = form.halfWidth;
  const half = joint.width / 2;
  const borders = plyBorders(layup);
  const thickness = borders.at(-1)!;
  const height = form.upper.at(0) - form.lower.at(0);
  const local = (x: number) => form.upper.at(x) - form.lower.at(x);
  const largest = (x: number) => Math.min(0.2 * height, 0.6 * Math.max(local(x), 0.02 * height));
  const channel = curve && {
    curve,
    size: channelSize(curve, {
      coarseness,
      gap: (x, y) => Math.max(form.distance(x, y), 1e-3 * height),
      largest,
    }),
  };
  const sizeAt = channel?.size.at ?? ((x: number) => coarseness * largest(x));

  const divided = (from: number, to: number, size: (s: number) => number) =>
    Array.from(
      divide(to - from, 800, (k) => size(from + ((k + 0.5) * (to - from)) / 800)),
      (s) => from + s,
    );
  // Tips of a lens: distances from the tip, from 0 to where the triangles begin.
  const sliver = (room: number) => {
    const first = Math.min(0.1 * a, room / 2);
    const slices = Math.max(1, Math.ceil(Math.log(room / first) / Math.log(1 + 0.2 * coarseness)));
    return Array.from({ length: slices + 2 }, (_, k) => (k === 0 ? 0 : first * power(room / first, (k - 1) / slices)));
  };
  const roomAt = (end: number) => Math.min(0.45 * a, 0.6 * (a - end));
  const leftTip = isSlot ? [0] : sliver(roomAt(-extent.left));
  const rightTip = isSlot ? [0] : sliver(roomAt(extent.right));
  const [from, to] = [leftTip.at(-1)! - a, a - rightTip.at(-1)!];
  const alongSide = (height: (x: number) => number) => [
    ...leftTip.slice(0, -1).map((s) => s - a),
    ...divided(from, to, (x) => sizeAt(x, height(x))),
    ...rightTip
      .slice(0, -1)
      .reverse()
      .map((s) => a - s),
  ];
  const lowerX = alongSide(form.lower.at);
  const upperX = alongSide(form.upper.at);

  const coarsest = 0.45 * thickness * coarseness;
  const outwards = (first: number) => {
    const length = half - a;
    return Array.from(
      divide(length, 800, (k) => Math.min(first + 0.26 * coarseness * (((k + 0.5) * length) / 800), coarsest)),
    );
  };
  const sideSize = (x: number) => Math.min(sizeAt(x, form.lower.at(x)), sizeAt(x, form.upper.at(x)));
  const leftFar = outwards(isSlot ? sideSize(-a) : leftTip[1]!).map((s) => -a - s);
  const rightFar = outwards(isSlot ? sideSize(a) : rightTip[1]!).map((s) => a + s);

  const builder = createCubicMeshBuilder();
  const zones: Zone[] = [
    {
      place: 'filler',
      layer: -1,
      material: sectionStiffness({ angle: 90, ply: joint.resin }),
      normal: { angle: Math.PI / 2 },
    },
    ...layup.map(
      (layer, k): Zone => ({
        place: 'laminate',
        layer: k,
        material: sectionStiffness(layer),
        normal: { angleAt: (x, y) => form.angle(x, y) + Math.PI / 2 },
      }),
    ),
  ];
  const zoneOf = (ply: number) => 1 + ply;
  const depth = coarseness * Math.max(0.5 * extent.wall, 0.02 * height);
  const below = isSlot ? pocket.first : pocket.below;
  const above = isSlot ? pocket.first + pocket.count : pocket.below;
  const lowerRows = rowsAway(borders.slice(0, below + 1).reverse(), depth, coarseness);
  const upperRows = rowsAway(borders.slice(above), depth, coarseness);

  /** Plies on one side of the pocket; corners on it are shared with `facing` beyond the tips of a lens. */
  const stack = (
    xs: readonly number[],
    { levels, plies }: ReturnType<typeof rowsAway>,
    isAbove: boolean,
    facing: ((i: number, x: number) => number | undefined) | undefined,
  ) => {
    const columns = [...leftFar.toReversed(), ...xs.slice(1, -1), ...rightFar];
    const first = leftFar.length - 1;
    const last = first + xs.length - 1;
    const at: PlaceOf = (u, v) => {
      const x = between(columns, u);
      const level = between(levels, v);
      const cell = Math.min(Math.floor(u), columns.length - 2);
      if (isSlot || (cell !== first && cell !== last - 1)) return [x, form.place(x, level, isAbove)];
      const [y, Y] = [form.place(columns[cell]!, level, isAbove), form.place(columns[cell + 1]!, level, isAbove)];
      return [x, y + (u - cell) * (Y - y)];
    };
    const grid = columns.map((x, i) =>
      levels.map((_, j) => {
        const known =
          j === 0 && (i <= first || i >= last) ? facing?.(i <= first ? i : i - columns.length, x) : undefined;
        return known ?? builder.corner(...at(i, j));
      }),
    );
    addBlock(builder, grid, at, (row) => zoneOf(isAbove ? above + plies[row]! : below - 1 - plies[row]!));
    return { grid, pocket: grid.slice(first, last + 1).map((column) => column[0]!), first, last };
  };
  const lower = stack(lowerX, lowerRows, false, undefined);
  const upper = stack(upperX, upperRows, true, isSlot ? undefined : (i) => lower.grid.at(i)![0]);

  let rim: number[];
  let ends = { left: [] as number[], right: [] as number[] };
  if (isSlot) {
    const cut = borders.slice(pocket.first, above + 1);
    const side = (x: number, far: readonly number[], sign: 1 | -1) => {
      const levels = [cut[0]!];
      const plies: number[] = [];
      for (let k = 0; k < pocket.count; k++) {
        const rows = divided(cut[k]!, cut[k + 1]!, (y) => sizeAt(x, y)).slice(1);
        levels.push(...rows);
        for (const _ of rows) plies.push(pocket.first + k);
      }
      const at: PlaceOf = (u, v) => [between(far, u), between(levels, v)];
      const cornerOf = (grid: typeof lower.grid, i: number) =>
        sign === 1 ? grid[grid.length - far.length + i]![0]! : grid[far.length - 1 - i]![0]!;
      const grid = far.map((_, i) =>
        levels.map((_, j) => {
          if (j === 0) return cornerOf(lower.grid, i);
          return j === levels.length - 1 ? cornerOf(upper.grid, i) : builder.corner(...at(i, j));
        }),
      );
      addBlock(builder, grid, at, (row) => zoneOf(plies[row]!));
      return { near: grid[0]!, end: grid.at(-1)! };
    };
    const left = side(-a, leftFar, -1);
    const right = side(a, rightFar, 1);
    rim = [
      ...lower.pocket,
      ...right.near.slice(1, -1),
      ...upper.pocket.toReversed(),
      ...left.near.slice(1, -1).reverse(),
    ];
    ends = { left: left.end.slice(1, -1), right: right.end.slice(1, -1) };
  } else {
    const [nearLeft, nearRight] = [leftTip.length - 1, rightTip.length - 1];
    addTip(builder, lower.pocket.slice(0, nearLeft + 1), upper.pocket.slice(0, nearLeft + 1), form, leftTip, -1);
    addTip(
      builder,
      lower.pocket.slice(-nearRight - 1).reverse(),
      upper.pocket.slice(-nearRight - 1).reverse(),
      form,
      rightTip,
      1,
    );
    rim = [
      ...lower.pocket.slice(nearLeft, lower.pocket.length - nearRight),
      ...upper.pocket.slice(nearLeft, upper.pocket.length - nearRight).reverse(),
    ];
  }

  const places = rim.map(builder.place);
  const loops = [{ x: places.map(([x]) => x), y: places.map(([, y]) => y) }];
  if (channel !== undefined) loops.push(ringLoop(channel.curve, channel.size) as (typeof loops)[0]);
  if (encroachedSegments(loops).length > 0) return undefined;
  const { x, y, triangles } = triangulate(loops, sizeAt);
  const corners = [...rim];
  for (let i = rim.length; i < x.length; i++) corners.push(builder.corner(x[i]!, y[i]!));
  if (channel !== undefined) addRing(builder, channel.curve, channel.size, corners[rim.length]!, 0);
  for (let t = 0; t < triangles.length; t += 3)
    builder.triangle(corners[triangles[t]!]!, corners[triangles[t + 1]!]!, corners[triangles[t + 2]!]!, 0);

  const name = (part: string, list: readonly number[]) => {
    for (let i = 0; i + 1 < list.length; i++) builder.side(part, list[i]!, list[i + 1]!);
  };
  const rightEnd = [...lower.grid.at(-1)!.toReversed(), ...ends.right, ...upper.grid.at(-1)!.slice(isSlot ? 0 : 1)];
  const leftEnd = [...lower.grid[0]!.toReversed(), ...ends.left, ...upper.grid[0]!.slice(isSlot ? 0 : 1)];
  name(
    'bottom',
    lower.grid.map((column) => column.at(-1)!),
  );
  name('right-end', rightEnd);
  name('top', upper.grid.map((column) => column.at(-1)!).reverse());
  name('left-end', leftEnd.reverse());
  return builder.finish(zones);
}

/** One tip of a lens: two rows of corners that meet in their first one. */
function addTip(
  builder: CubicMeshBuilder,
  lower: readonly number[],
  upper: readonly number[],
  form: PocketForm,
  distances: readonly number[],
  side: 1 | -1,
): void {
  const xAt = (u: number) => side * (form.halfWidth - between(distances, u));
  const at: PlaceOf = (u, v) => {
    const x = xAt(u + 1);
    const y = form.lower.at(x);
    return [x, y + v * (form.upper.at(x) - y)];
  };
  addBlock(
    builder,
    lower.slice(1).map((corner, k) => [corner, upper[k + 1]!]),
    at,
    () => 0,
  );
  const tip = [lower[0]!, lower[1]!, upper[1]!] as const;
  if (side === -1) builder.triangle(tip[0], tip[1], tip[2], 0);
  else builder.triangle(tip[0], tip[2], tip[1], 0);
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
