import { InputError } from '../errors.js';
import type { TeeJoint } from '../joint/tee.js';
import { type Layup, sectionStiffness } from '../material/index.js';
import { addRing, ringLoop } from './channel-ring.js';
import { channelSize, divide, type SizeOptions } from './channel-size.js';
import { addBlock, between, type PlaceOf, turn } from './cubic-block.js';
import { type CubicMesh, type CubicMeshBuilder, createCubicMeshBuilder, type Place, type Zone } from './cubic-mesh.js';
import type { EdgeCurve } from './edge-curve.js';
import { encroachedSegments, triangulate } from './triangulate.js';

/** Where the laminates' columns stand along the filler's border; the same for both sides of the joint only by chance. */
interface BorderDivision {
  /** Distances from a tip to the columns of the three slivers, from 0 to the end of the sliver; mm. */
  readonly sliver: Float64Array;
  /** Places on the base between the slivers, left to right, the slivers' ends included; mm. */
  readonly base: Float64Array;
  /** Angles on the right and left arc from the foot up, from 0 to pi/2, slivers included. */
  readonly rightArc: Float64Array;
  readonly leftArc: Float64Array;
}

/**
 * The whole section of a tee in cubic triangles, with a channel or without: laminates and the three cusps of the filler in
 * structured blocks, the rest of the filler graded from the channel's edge. Slivers reach the tips; their first slice, 2 %
 * of the bend radius, is straight. Boundary parts: 'channel', 'web-top', 'left-end', 'right-end' (of the skin),
 * 'arc' and 'base' (filler against bend and skin, the filler on the left).
 *
 * Throws `InputError` where the channel does not lie in the filler.
 */
export function teeTriangles(joint: TeeJoint, curve: EdgeCurve | undefined, coarseness: number): CubicMesh {
  if (curve !== undefined) assertInside(joint, curve);
  // Where sides come too close to each other, everything is made finer until they don't.
  for (let finer = coarseness; finer > coarseness / 8; finer *= 0.75) {
    const mesh = attempt(joint, curve, finer);
    if (mesh !== undefined) return mesh;
  }
  throw new Error('the filler cannot be meshed: sides stay too close to each other');
}

/** Distances from a point in the filler to its base, right arc and left arc, mm. */
function distances({ bendRadius: R }: TeeJoint, x: number, y: number): [number, number, number] {
  return [y, Math.hypot(x - R, y - R) - R, Math.hypot(x + R, y - R) - R];
}

function assertInside(joint: TeeJoint, curve: EdgeCurve): void {
  const point = new Float64Array(5);
  let wall = Number.POSITIVE_INFINITY;
  for (let k = 0; k < 512; k++) {
    curve.at((curve.length * k) / 512, point);
    const inside = Math.abs(point[0]!) < joint.bendRadius && point[1]! < joint.bendRadius;
    wall = Math.min(wall, inside ? Math.min(...distances(joint, point[0]!, point[1]!)) : -1);
  }
  if (!(wall > 0))
    throw new InputError({
      path: 'channel',
      expected: 'an outline inside the filler',
      received: 'one that touches or crosses its border',
      remedy: 'move the channel or make it smaller',
    });
}

function attempt(joint: TeeJoint, curve: EdgeCurve | undefined, coarseness: number): CubicMesh | undefined {
  const R = joint.bendRadius;
  const options: SizeOptions = {
    coarseness,
    gap: (x, y) => Math.min(...distances(joint, x, y)),
    largest: (x, y) => {
      const [a, b, c] = distances(joint, x, y);
      // Between two sides of the filler: at most their distance.
      return Math.min(0.05 * R, 0.6 * (Math.max(a, 0) + Math.max(b, 0) + Math.max(c, 0) - Math.max(a, b, c)));
    },
  };
  const channel = curve === undefined ? undefined : { curve, size: channelSize(curve, options) };
  const sizeAt = channel?.size.at ?? ((x: number, y: number) => coarseness * options.largest(x, y));
  const division = divideBorder(joint, curve, coarseness, sizeAt);

  const builder = createCubicMeshBuilder();
  const zones: Zone[] = [];
  const border = addLaminates(builder, zones, joint, division, coarseness);
  const filler = zones.push({
    place: 'filler',
    layer: -1,
    material: sectionStiffness({ angle: 90, ply: joint.filler }),
    normal: { angle: Math.PI / 2 },
  });
  addSlivers(builder, joint, division, border, filler - 1);

  const last = division.sliver.length - 1;
  const rim = [
    ...border.base.slice(last, -last),
    ...border.rightArc.slice(last, -last),
    ...border.leftArc.slice(last, -last).reverse(),
  ];
  const places = rim.map(builder.place);
  const loops = [{ x: places.map(([x]) => x), y: places.map(([, y]) => y) }];
  if (channel !== undefined) loops.push(ringLoop(channel.curve, channel.size) as (typeof loops)[0]);
  if (encroachedSegments(loops).length > 0) return undefined;
  const { x, y, triangles } = triangulate(loops, sizeAt);
  const corners = [...rim];
  for (let i = rim.length; i < x.length; i++) corners.push(builder.corner(x[i]!, y[i]!));
  if (channel !== undefined) addRing(builder, channel.curve, channel.size, corners[rim.length]!, filler - 1);
  for (let t = 0; t < triangles.length; t += 3)
    builder.triangle(corners[triangles[t]!]!, corners[triangles[t + 1]!]!, corners[triangles[t + 2]!]!, filler - 1);

  const name = (part: string, list: readonly number[]) => {
    for (let i = 0; i + 1 < list.length; i++) builder.side(part, list[i]!, list[i + 1]!);
  };
  name('base', border.base);
  name('arc', border.rightArc);
  name('arc', [...border.leftArc].reverse());
  name('web-top', border.webTop);
  name('right-end', [...border.rightEnd].reverse());
  name('left-end', border.leftEnd);
  return builder.finish(zones);
}

function divideBorder(
  { bendRadius: R }: TeeJoint,
  curve: EdgeCurve | undefined,
  coarseness: number,
  sizeAt: (x: number, y: number) => number,
): BorderDivision {
  // The slivers end well before the channel.
  let room = 0.3 * R;
  const point = new Float64Array(5);
  if (curve !== undefined)
    for (let k = 0; k < 256; k++) {
      curve.at((curve.length * k) / 256, point);
      room = Math.min(room, 0.6 * (R - Math.abs(point[0]!)), 0.6 * (R - point[1]!));
    }
  const first = Math.min(0.02 * R, room / 2);
  const ratio = 1 + 0.23 * coarseness;
  const slices = Math.max(1, Math.ceil(Math.log(room / first) / Math.log(ratio)));
  const sliver = Float64Array.from({ length: slices + 2 }, (_, k) =>
    k === 0 ? 0 : first * (room / first) ** ((k - 1) / slices),
  );
  const left = room - R;
  const base = divide(-2 * left, 800, (k) => sizeAt(left * (1 - (k + 0.5) / 400), 0)).map((s) => left + s);
  const angle = (distance: number) => Math.asin(distance / R);
  const arc = (side: 1 | -1) => {
    const from = angle(room);
    const span = Math.PI / 2 - 2 * from;
    const middle = divide(span * R, 800, (k) => {
      const phi = from + (span * (k + 0.5)) / 800;
      return sizeAt(side * R * (1 - Math.sin(phi)), R * (1 - Math.cos(phi)));
    });
    const ends = sliver.subarray(0, -1);
    return Float64Array.of(
      ...ends.map(angle),
      ...middle.map((s) => from + s / R),
      ...ends.toReversed().map((distance) => Math.PI / 2 - angle(distance)),
    );
  };
  return { sliver, base, rightArc: arc(1), leftArc: arc(-1) };
}

/** Corners on the filler's border and on the loaded and supported ends. */
interface BorderCorners {
  /** The base from left tip to right tip. */
  readonly base: readonly number[];
  /** Arcs from foot to web, tips included. */
  readonly rightArc: readonly number[];
  readonly leftArc: readonly number[];
  /** Right to left. */
  readonly webTop: readonly number[];
  /** Skin ends from top to bottom. */
  readonly rightEnd: readonly number[];
  readonly leftEnd: readonly number[];
}

/** Rows of a laminate: depths from the filler, mm, and the layer of each row. */
function laminateRows(layup: Layup, R: number, coarseness: number) {
  const depths = [0];
  const layers: number[] = [];
  layup.forEach(({ thickness }, layer) => {
    const top = depths.at(-1)!;
    const parts = divide(
      thickness,
      50,
      (k) => coarseness * (0.0325 * R + 0.325 * (top + ((k + 0.5) * thickness) / 50)),
    );
    // At least two rows next to the filler: one element through that layer biases the stress near it.
    const rows = layer === 0 && parts.length < 3 ? Float64Array.of(0, thickness / 2, thickness) : parts;
    for (const depth of rows.subarray(1)) {
      depths.push(top + depth);
      layers.push(layer);
    }
  });
  return { depths, layers };
}

/** Columns of a straight run of laminate: distances whose steps grow from `first` and `last` at its two ends, mm. */
function straightColumns(length: number, first: number, last: number, coarseness: number): Float64Array {
  const samples = 800;
  return divide(length, samples, (k) => {
    const distance = ((k + 0.5) * length) / samples;
    return coarseness * Math.min(first + 0.26 * distance, last + 0.26 * (length - distance), length / 9);
  });
}

/** Skin, bends, feet and web legs. */
function addLaminates(
  builder: CubicMeshBuilder,
  zones: Zone[],
  joint: TeeJoint,
  division: BorderDivision,
  coarseness: number,
): BorderCorners {
  const R = joint.bendRadius;
  const { depths, layers } = laminateRows(joint.overlaminate, R, coarseness);
  const first = 0.013 * R;
  // Foot ends and held skin ends are singular corners: coarse columns there cost 0.05 % of every pull peak.
  const end = 0.03 * R;
  const foot = straightColumns(joint.footLength, first, end, coarseness);
  const web = straightColumns(joint.webHeight, first, joint.webHeight / 9, coarseness);
  const overhang = joint.skinHalfSpan - R - joint.footLength;
  const skirt = overhang > 1e-9 * R ? straightColumns(overhang, end, end, coarseness) : Float64Array.of(0);

  const addZones = (layup: Layup, place: Zone['place'], normal: Zone['normal']) => {
    const start = zones.length;
    layup.forEach((layer, k) => {
      zones.push({ place, layer: k, material: sectionStiffness(layer), normal });
    });
    return start;
  };
  /** A grid of corners: `columns` x `rows`, of which those that `given` names exist already. */
  const grid = (columns: number, rows: number, at: PlaceOf, given: (i: number, j: number) => number | undefined) =>
    Array.from({ length: columns }, (_, i) =>
      Array.from({ length: rows }, (_, j) => given(i, j) ?? builder.corner(...at(i, j))),
    );

  // Skin, left to right.
  const right = [...division.sliver.subarray(0, -1)].map((s) => R - s).reverse();
  const skinX = [
    ...skirt
      .slice(1)
      .toReversed()
      .map((s) => -R - joint.footLength - s),
    ...foot.toReversed().map((s) => -R - s),
    ...right
      .toReversed()
      .slice(1)
      .map((x) => -x),
    ...division.base,
    ...right,
    ...foot.subarray(1).map((s) => R + s),
    ...skirt.subarray(1).map((s) => R + joint.footLength + s),
  ];
  const skinRows = laminateRows(joint.skin, R, coarseness);
  const skinAt: PlaceOf = (u, v) => [between(skinX, u), -between(skinRows.depths, v)];
  const skin = grid(skinX.length, skinRows.depths.length, skinAt, () => undefined);
  const skinZone = addZones(joint.skin, 'skin', { angle: Math.PI / 2 });
  addBlock(builder, skin, skinAt, (row) => skinZone + skinRows.layers[row]!);
  const top = skin.map((column) => column[0]!);
  const leftTip = skirt.length - 1 + foot.length - 1;
  const rightTip = top.length - 1 - leftTip;

  const tip = builder.corner(0, R);
  const webAxis = [tip, ...Array.from(web.subarray(1), (s) => builder.corner(0, R + s))];
  const half = (side: 1 | -1) => {
    const angles = side === 1 ? division.rightArc : division.leftArc;
    const mirror = (x: number, y: number): Place => [side * x, y];
    const rows = depths.length;

    const bendAt: PlaceOf = (u, v) => {
      const phi = between(angles, u);
      const r = R - between(depths, v);
      const x = R - r * Math.sin(phi);
      const y = R - r * Math.cos(phi);
      // The first slice at either tip is straight towards the filler.
      const cell = Math.min(Math.floor(u), angles.length - 2);
      if (v >= 1 || (cell !== 0 && cell !== angles.length - 2)) return mirror(x, y);
      const [p, q] = [angles[cell]!, angles[cell + 1]!];
      const chord = (f: (angle: number) => number) => f(p) + (u - cell) * (f(q) - f(p)) - f(phi);
      return mirror(x - (1 - v) * R * chord(Math.sin), y - (1 - v) * R * chord(Math.cos));
    };
    const footTip = side === 1 ? rightTip : leftTip;
    const last = angles.length - 1;
    const bend = grid(angles.length, rows, bendAt, (i, j) => {
      if (j !== 0) return undefined;
      return i === 0 ? top[footTip] : i === last ? tip : undefined;
    });
    const bendZone = addZones(joint.overlaminate, 'bend', { centre: mirror(R, R) });
    addBlock(builder, bend, bendAt, (row) => bendZone + layers[row]!);

    const footAt: PlaceOf = (u, v) => mirror(R + between(foot, u), between(depths, v));
    const footGrid = grid(foot.length, rows, footAt, (i, j) =>
      i === 0 ? bend[0]![j] : j === 0 ? top[footTip + side * i] : undefined,
    );
    const footZone = addZones(joint.overlaminate, 'foot', { angle: Math.PI / 2 });
    addBlock(builder, footGrid, footAt, (row) => footZone + layers[row]!);

    const webAt: PlaceOf = (u, v) => mirror(between(depths, v), R + between(web, u));
    const webGrid = grid(web.length, rows, webAt, (i, j) =>
      i === 0 ? bend[last]![j] : j === 0 ? webAxis[i] : undefined,
    );
    const webZone = addZones(joint.overlaminate, 'web', { angle: side === 1 ? 0 : Math.PI });
    addBlock(builder, webGrid, webAt, (row) => webZone + layers[row]!);
    return { arc: bend.map((column) => column[0]!), top: webGrid.at(-1)! };
  };
  const rightHalf = half(1);
  const leftHalf = half(-1);
  return {
    base: top.slice(leftTip, rightTip + 1),
    rightArc: rightHalf.arc,
    leftArc: leftHalf.arc,
    webTop: [...rightHalf.top.toReversed(), ...leftHalf.top.slice(1)],
    rightEnd: skin.at(-1)!,
    leftEnd: skin[0]!,
  };
}

/** The filler's three cusps, from the tips to where the unstructured triangles begin. */
function addSlivers(
  builder: CubicMeshBuilder,
  { bendRadius: R }: TeeJoint,
  { sliver, rightArc, leftArc }: BorderDivision,
  border: BorderCorners,
  zone: number,
): void {
  const last = sliver.length - 1;
  const arcAt = (angles: ArrayLike<number>, side: 1 | -1, u: number): Place => {
    const phi = between(angles, u);
    return [side * R * (1 - Math.sin(phi)), R * (1 - Math.cos(phi))];
  };
  /** One sliver between two rows of corners that meet in their first one. */
  const add = (a: readonly number[], b: readonly number[], atA: (u: number) => Place, atB: (u: number) => Place) => {
    const at: PlaceOf = (u, v) => {
      const [x, y] = atA(u);
      const [X, Y] = atB(u);
      return [x + v * (X - x), y + v * (Y - y)];
    };
    const columns = Array.from({ length: last }, (_, k) => [a[k + 1]!, b[k + 1]!]);
    addBlock(
      builder,
      columns,
      (u, v) => at(u + 1, v),
      () => zone,
    );
    const tip = [a[0]!, a[1]!, b[1]!] as const;
    const places = tip.map(builder.place) as [Place, Place, Place];
    if (turn(...places) > 0) builder.triangle(tip[0], tip[1], tip[2], zone);
    else builder.triangle(tip[0], tip[2], tip[1], zone);
  };
  const baseAt =
    (side: 1 | -1) =>
    (u: number): Place => [side * (R - between(sliver, u)), 0];
  add(border.base.toReversed(), border.rightArc, baseAt(1), (u) => arcAt(rightArc, 1, u));
  add(border.base, border.leftArc, baseAt(-1), (u) => arcAt(leftArc, -1, u));
  const downRight = rightArc.toReversed();
  const downLeft = leftArc.toReversed();
  add(
    border.rightArc.toReversed(),
    border.leftArc.toReversed(),
    (u) => arcAt(downRight, 1, u),
    (u) => arcAt(downLeft, -1, u),
  );
}
