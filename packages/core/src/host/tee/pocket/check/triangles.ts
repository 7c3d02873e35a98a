import { sectionStiffness } from '../../../../material/index.js';
import {
  addBlock,
  between,
  type CubicMesh,
  type CubicMeshBuilder,
  createCubicMeshBuilder,
  type EdgeCurve,
  encroachedSegments,
  type Place,
  type PlaceOf,
  triangulate,
  type Zone,
} from '../../../../mesh/triangle/index.js';
import type { Border } from '../../../../outline/index.js';
import {
  addPocketed,
  extentOf,
  largestInPocket,
  type Pocketed,
  type PocketedColumns,
  type PocketedEnd,
  pocketedColumns,
  sizedChannels,
} from '../../../laminate/index.js';
import { type BorderDivision, divideBorder } from '../../check/division.js';
import { laminateRows, skinColumns, straightColumns } from '../../check/laminates.js';
import { addSlivers } from '../../check/slivers.js';
import { type PocketSite, type PocketTee, siteBorder } from '../site.js';

/**
 * The whole section of a tee with a pocket in cubic triangles, in the joint's coordinates: laminates and the cusps of the filler in structured
 * blocks, pocket and filler graded. Boundary parts: 'channel', 'web-top', 'left-end', 'right-end' (of the skin). `curves`: in the joint's coordinates, too.
 *
 * Throws `InputError` where the channel does not lie in the pocket.
 */
export function pocketTeeTriangles(
  joint: PocketTee,
  site: PocketSite,
  curves: readonly EdgeCurve[],
  coarseness: number,
): CubicMesh {
  const inFrame = siteBorder(site);
  const border: Border = { distance: (x, y) => inFrame.distance(...site.toFrame(x, y)) };
  for (let finer = coarseness; finer > coarseness / 8; finer *= 0.75) {
    const mesh = attempt(joint, site, border, curves, finer);
    if (mesh !== undefined) return mesh;
  }
  throw new Error('the pocket cannot be meshed: sides stay too close to each other');
}

/** Least of a tee's columns and depths that the check needs, mm. */
interface Plain {
  readonly division: BorderDivision;
  readonly foot: Float64Array;
  readonly web: Float64Array;
  readonly skirt: Float64Array;
}

function plainColumns(joint: PocketTee, site: PocketSite, coarseness: number): Plain {
  const { bendRadius: R, pocket } = joint;
  // As in a tee without pocket.
  const [first, end] = [0.013 * R, 0.03 * R];
  const overhang = joint.skinHalfSpan - R - joint.footLength;
  let longest = 0.3 * R;
  if (pocket.in === 'bend') {
    const { radius, level } = site.roll!;
    const reach = site.reach / (radius - level);
    longest = Math.min(longest, 0.6 * R * Math.min(pocket.at - reach, Math.PI / 2 - pocket.at - reach));
  } else if (pocket.in === 'skin' && Math.abs(pocket.at) < R)
    longest = Math.min(longest, 0.6 * (R - Math.abs(pocket.at) - site.reach));
  return {
    division: divideBorder(R, [], coarseness, (x, y) => coarseness * fillerSize(R, x, y), longest),
    foot: straightColumns(joint.footLength, first, end, coarseness),
    web: straightColumns(joint.webHeight, first, joint.webHeight / 9, coarseness),
    skirt: overhang > 1e-9 * R ? straightColumns(overhang, end, end, coarseness) : Float64Array.of(0),
  };
}

/** Between two sides of the filler: at most their distance. */
function fillerSize(R: number, x: number, y: number): number {
  const [a, b, c] = [y, Math.hypot(x - R, y - R) - R, Math.hypot(x + R, y - R) - R];
  return Math.min(0.05 * R, 0.6 * (Math.max(a, 0) + Math.max(b, 0) + Math.max(c, 0) - Math.max(a, b, c)));
}

/** Columns of a laminate beyond the reach of its pocket, from there on: what comes too close to it is left out, `breaks` never. */
function beyond(columns: readonly number[], reach: number, breaks: readonly number[]): number[] {
  const all = columns.filter((s) => s > reach);
  const step = (all[1] ?? all[0]!) - all[0]!;
  return [reach, ...all.filter((s) => s - reach > 0.5 * step || breaks.some((one) => Math.abs(one - s) < 1e-9))];
}

function attempt(
  joint: PocketTee,
  site: PocketSite,
  border: Border,
  curves: readonly EdgeCurve[],
  coarseness: number,
): CubicMesh | undefined {
  const { bendRadius: R, pocket, footLength, skinHalfSpan } = joint;
  const { form, laminate, reach } = site;
  const plain = plainColumns(joint, site, coarseness);
  const flat = (x: number, y: number) => site.unfold(...site.toFrame(x, y));
  const largest = largestInPocket(form);
  const size = (x: number, y: number) => largest(flat(x, y)[0]);
  const channels = sizedChannels(curves, form, border, coarseness, size);
  const scale = site.roll === undefined ? 1 : site.roll.radius - site.roll.level;
  const ends =
    pocket.in === 'bend'
      ? [(pocket.at - Math.PI / 2) * scale, pocket.at * scale]
      : pocket.in === 'foot'
        ? [R - pocket.at, R + footLength - pocket.at]
        : [-skinHalfSpan - pocket.at, skinHalfSpan - pocket.at];
  const spec: Pocketed = {
    laminate,
    form,
    place: placeOn(joint, site, plain.division),
    from: ends[0]!,
    to: ends[1]!,
    channels,
    sizeAt: channels.at,
    extent: extentOf(form, border, flat, curves),
    coarseness,
  };
  const columns = pocketedColumns(spec, coarsestOn(joint, site, coarseness), givenColumns(joint, plain, reach, scale));
  const builder = createCubicMeshBuilder();
  const zones: Zone[] = [];
  const corners = addSection(builder, zones, joint, site, plain, spec, columns, coarseness);
  if (corners === undefined) return undefined;
  const filler = zones.push({
    place: 'joint-filler',
    layer: -1,
    material: sectionStiffness({ angle: 90, ply: joint.filler }),
    normal: { angle: Math.PI / 2 },
  });
  if (!addFiller(builder, R, corners, filler - 1, coarseness)) return undefined;
  const name = (part: string, list: readonly number[]) => {
    for (let i = 0; i + 1 < list.length; i++) builder.side(part, list[i]!, list[i + 1]!);
  };
  name('web-top', corners.webTop);
  name('right-end', corners.rightEnd);
  name('left-end', corners.leftEnd.toReversed());
  return builder.finish(zones);
}

/** The longest columns beyond a pocket: those of a laminate, and of the filler where it touches it. */
function coarsestOn({ bendRadius: R, pocket }: PocketTee, site: PocketSite, coarseness: number): (s: number) => number {
  const own = 0.45 * site.thickness * coarseness;
  if (pocket.in === 'foot') return () => own;
  const face = pocket.in === 'skin' ? site.thickness : 0;
  return (s) => {
    const [x, y] = site.toJoint(...site.fold(s, face));
    return Math.abs(x) < R ? Math.min(own, Math.max(coarseness * fillerSize(R, x, y), 1e-4 * R)) : own;
  };
}

/** From the flat laminate to the joint; a bend's first slice at either tip of the filler is straight towards it. */
function placeOn(joint: PocketTee, site: PocketSite, { rightArc }: BorderDivision): Pocketed['place'] {
  const { bendRadius: R, pocket, overlaminate } = joint;
  const place: Pocketed['place'] = (s, y) => site.toJoint(...site.fold(s, y));
  if (pocket.in !== 'bend') return place;
  const { radius, level } = site.roll!;
  const depth = overlaminate[0]!.thickness;
  const slices = [
    [rightArc[0]!, rightArc[1]!],
    [rightArc.at(-2)!, rightArc.at(-1)!],
  ] as const;
  return (s, y) => {
    const [x, Y] = place(s, y);
    const angle = pocket.at - s / (radius - level);
    const slice = slices.find(([from, to]) => angle > from && angle < to);
    if (slice === undefined || y >= depth) return [x, Y];
    const [p, q] = slice;
    const chord = (f: (at: number) => number) => f(p) + ((angle - p) / (q - p)) * (f(q) - f(p)) - f(angle);
    const share = 1 - y / depth;
    return [x - share * R * chord(Math.sin), Y - share * R * chord(Math.cos)];
  };
}

/** Columns that a tee without pocket has beyond the reach of this one, in the flat laminate's lengths. */
function givenColumns(joint: PocketTee, plain: Plain, reach: number, scale: number) {
  const { bendRadius: R, pocket, footLength } = joint;
  const at = pocket.at;
  const breaks = [-R - footLength, -R, R, R + footLength];
  const all =
    pocket.in === 'bend'
      ? Array.from(plain.division.rightArc, (angle) => (at - angle) * scale).reverse()
      : pocket.in === 'foot'
        ? Array.from(plain.foot, (s) => R + s - at)
        : skinColumns(joint, plain.division, plain.foot, plain.skirt).map((x) => x - at);
  const fixed = pocket.in === 'skin' ? breaks.map((x) => x - at) : [];
  return {
    right: beyond(all, reach, fixed),
    left: beyond(
      all.map((s) => -s).reverse(),
      reach,
      fixed.map((s) => -s),
    ).map((s) => -s),
  };
}

/** Corners on the filler's border and on the loaded and supported ends, and where the columns of the border stand. */
interface SectionCorners {
  readonly border: Parameters<typeof addSlivers>[3];
  readonly division: BorderDivision;
  readonly webTop: readonly number[];
  /** Bottom up. */
  readonly rightEnd: readonly number[];
  readonly leftEnd: readonly number[];
}

/** A grid's column of corners, from the filler outward, and its rows. */
interface Rows {
  readonly depths: readonly number[];
  readonly layers: readonly number[];
  readonly corners?: readonly number[];
}

/** Skin, bends, feet, web legs and the pocket. */
function addSection(
  builder: CubicMeshBuilder,
  zones: Zone[],
  joint: PocketTee,
  site: PocketSite,
  plain: Plain,
  spec: Pocketed,
  columns: PocketedColumns,
  coarseness: number,
): SectionCorners | undefined {
  const { bendRadius: R, pocket } = joint;
  const { sliver } = plain.division;
  const zoneOf = zoneBook(zones, joint, site);
  const inSkin = pocket.in === 'skin';
  const grid = (count: number, rows: number, at: PlaceOf, given: (i: number, j: number) => number | undefined) =>
    Array.from({ length: count }, (_, i) =>
      Array.from({ length: rows }, (_, j) => given(i, j) ?? builder.corner(...at(i, j))),
    );
  const pocketed = (known?: (column: number) => number | undefined) =>
    addPocketed(
      builder,
      spec,
      columns,
      {
        resin: zoneOf('filler', -1, 1),
        ply: (ply, s) => zoneOf(Math.abs(s) < site.reach ? 'pocket-plies' : pocket.in, site.layerOf(ply), 1),
        breaks: [-site.reach, site.reach],
      },
      known,
    );

  // The skin, its columns from left to right.
  const plainSkin = skinColumns(joint, plain.division, plain.foot, plain.skirt);
  const bentFoot = pocket.in === 'foot' ? columns.below.map((s) => s + pocket.at - R) : [...plain.foot];
  const skinX = inSkin
    ? columns.above.map((s) => s + pocket.at)
    : [
        ...plainSkin.filter((x) => x < R * (1 + 1e-9)),
        ...bentFoot.slice(1).map((s) => R + s),
        ...plain.skirt.subarray(1).map((s) => R + joint.footLength + s),
      ];
  let top: readonly number[];
  let skinEnds: readonly [left: readonly number[], right: readonly number[]];
  if (inSkin) {
    const made = pocketed();
    if (made === undefined) return undefined;
    top = made.top;
    skinEnds = [made.left.corners, made.right.corners];
  } else {
    const rows = laminateRows(joint.skin, R, coarseness);
    const at: PlaceOf = (u, v) => [between(skinX, u), -between(rows.depths, v)];
    const skin = grid(skinX.length, rows.depths.length, at, () => undefined);
    addBlock(builder, skin, at, (row) => zoneOf('skin', rows.layers[row]!, 1));
    top = skin.map((column) => column[0]!);
    skinEnds = [skin[0]!.toReversed(), skin.at(-1)!.toReversed()];
  }
  const topAt = (x: number) => {
    let best = 0;
    for (let i = 1; i < skinX.length; i++) if (Math.abs(skinX[i]! - x) < Math.abs(skinX[best]! - x)) best = i;
    return best;
  };
  const [leftTip, rightTip] = [topAt(-R), topAt(R)];

  const tip = builder.corner(0, R);
  const webAxis = [tip, ...Array.from(plain.web.subarray(1), (s) => builder.corner(0, R + s))];
  const usual: Rows = laminateRows(joint.overlaminate, R, coarseness);
  const rowsFrom = ({ corners, levels, plies }: PocketedEnd): Rows => ({ corners, depths: levels, layers: plies });

  const leg = (side: 1 | -1) => {
    const mirror = (x: number, y: number): Place => [side * x, y];
    const footTip = side === 1 ? rightTip : leftTip;
    const footX = footOn(skinX, footTip, side, R + joint.footLength).map((x) => x - R);
    let angles: ArrayLike<number> = side === 1 ? plain.division.rightArc : plain.division.leftArc;
    let arc: readonly number[];
    let [atFoot, atWeb]: [Rows, Rows] = [usual, usual];
    const addFoot = (rows: Rows) => {
      const at: PlaceOf = (u, v) => mirror(R + between(footX, u), between(rows.depths, v));
      const foot = grid(footX.length, rows.depths.length, at, (i, j) =>
        i === 0 ? rows.corners?.[j] : j === 0 ? top[footTip + side * i] : undefined,
      );
      addBlock(builder, foot, at, (row) => zoneOf('foot', rows.layers[row]!, side));
    };
    if (side === 1 && pocket.in === 'bend') {
      // Along the flat laminate from the web to the foot.
      const made = pocketed((i) => (i === 0 ? tip : i === columns.below.length - 1 ? top[footTip] : undefined));
      if (made === undefined) return undefined;
      const { radius, level } = site.roll!;
      angles = columns.below.map((s) => pocket.at - s / (radius - level)).reverse();
      arc = made.bottom.toReversed();
      [atFoot, atWeb] = [rowsFrom(made.right), rowsFrom(made.left)];
      addFoot(atFoot);
    } else {
      if (side === 1 && pocket.in === 'foot') {
        const made = pocketed((i) => top[footTip + i]);
        if (made === undefined) return undefined;
        atFoot = rowsFrom(made.left);
        atWeb = atFoot;
      }
      const { depths, layers, corners: given } = atFoot;
      const last = angles.length - 1;
      const at = bendPlace(R, angles, depths, mirror);
      const bend = grid(angles.length, depths.length, at, (i, j) => {
        if (i === 0 && given !== undefined) return given[j];
        if (j !== 0) return undefined;
        return i === 0 ? top[footTip] : i === last ? tip : undefined;
      });
      addBlock(builder, bend, at, (row) => zoneOf('bend', layers[row]!, side));
      arc = bend.map((column) => column[0]!);
      if (given === undefined) addFoot({ depths, layers, corners: bend[0]! });
      atWeb = { depths, layers, corners: bend[last]! };
    }
    const webAt: PlaceOf = (u, v) => mirror(between(atWeb.depths, v), R + between(plain.web, u));
    const web = grid(plain.web.length, atWeb.depths.length, webAt, (i, j) =>
      i === 0 ? atWeb.corners![j] : j === 0 ? webAxis[i] : undefined,
    );
    addBlock(builder, web, webAt, (row) => zoneOf('web', atWeb.layers[row]!, side));
    return { arc, angles, top: web.at(-1)! };
  };
  const right = leg(1);
  const left = leg(-1);
  if (right === undefined || left === undefined) return undefined;
  return {
    border: {
      base: top.slice(leftTip, rightTip + 1),
      rightArc: right.arc,
      leftArc: left.arc,
      webTop: [],
      rightEnd: [],
      leftEnd: [],
    },
    division: {
      sliver,
      base: Float64Array.from(skinX.slice(leftTip, rightTip + 1)),
      rightArc: Float64Array.from(right.angles),
      leftArc: Float64Array.from(left.angles),
    },
    webTop: [...right.top.toReversed(), ...left.top.slice(1)],
    rightEnd: skinEnds[1],
    leftEnd: skinEnds[0],
  };
}

/** Distances from the middle of the joint at which the skin has columns below a foot, from the bend outwards. */
function footOn(skinX: readonly number[], footTip: number, side: 1 | -1, end: number): number[] {
  const outwards = side === 1 ? skinX.slice(footTip) : skinX.slice(0, footTip + 1).reverse();
  return outwards.map(Math.abs).filter((x) => x < end * (1 + 1e-9));
}

/** A bend without pocket; its first slice at either tip is straight towards the filler. */
function bendPlace(
  R: number,
  angles: ArrayLike<number>,
  depths: readonly number[],
  mirror: (x: number, y: number) => Place,
): PlaceOf {
  return (u, v) => {
    const phi = between(angles, u);
    const r = R - between(depths, v);
    const [x, y] = [R - r * Math.sin(phi), R - r * Math.cos(phi)];
    const cell = Math.min(Math.floor(u), angles.length - 2);
    if (v >= 1 || (cell !== 0 && cell !== angles.length - 2)) return mirror(x, y);
    const [p, q] = [angles[cell]!, angles[cell + 1]!];
    const chord = (f: (angle: number) => number) => f(p) + (u - cell) * (f(q) - f(p)) - f(phi);
    return mirror(x - (1 - v) * R * chord(Math.sin), y - (1 - v) * R * chord(Math.cos));
  };
}

/** Numbers of zones, made when they are first asked for. */
function zoneBook(zones: Zone[], { bendRadius: R, overlaminate, skin, pocket }: PocketTee, site: PocketSite) {
  const known = new Map<string, number>();
  const layersOf = (place: string) =>
    place === 'skin' || (place === 'pocket-plies' && pocket.in === 'skin') ? skin : overlaminate;
  const draped = (x: number, y: number) => {
    const [s, level] = site.unfold(...site.toFrame(x, y));
    return site.lean(s, level) + site.turn + Math.PI / 2;
  };
  return (place: string, layer: number, side: 1 | -1): number => {
    const key = `${place} ${layer} ${side}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const material =
      layer < 0 ? sectionStiffness({ angle: 90, ply: pocket.resin }) : sectionStiffness(layersOf(place)[layer]!);
    const normal: Zone['normal'] =
      place === 'pocket-plies'
        ? { angleAt: draped }
        : place === 'bend'
          ? { centre: [side * R, R] }
          : { angle: place === 'web' ? (side === 1 ? 0 : Math.PI) : Math.PI / 2 };
    const number = zones.push({ place, layer, material, normal }) - 1;
    known.set(key, number);
    return number;
  };
}

/** The filler without a channel: its cusps in slivers, the rest graded from its border. False where sides come too close to each other. */
function addFiller(
  builder: CubicMeshBuilder,
  R: number,
  { border, division }: SectionCorners,
  zone: number,
  coarseness: number,
): boolean {
  addSlivers(builder, R, division, border, zone);
  const last = division.sliver.length - 1;
  const rim = [
    ...border.base.slice(last, -last),
    ...border.rightArc.slice(last, -last),
    ...border.leftArc.slice(last, -last).reverse(),
  ];
  const places = rim.map(builder.place);
  const loops = [{ x: places.map(([x]) => x), y: places.map(([, y]) => y) }];
  if (encroachedSegments(loops).length > 0) return false;
  // A pocket close by brings columns finer than the filler asks for.
  const steps = places.map(([x, y], i) => {
    const [X, Y] = places[(i + 1) % places.length]!;
    return { x: (x + X) / 2, y: (y + Y) / 2, length: Math.hypot(X - x, Y - y) };
  });
  const sizeAt = (x: number, y: number) => {
    let size = coarseness * fillerSize(R, x, y);
    for (const step of steps) {
      if (step.length >= size) continue;
      size = Math.min(size, step.length + 0.3 * Math.hypot(x - step.x, y - step.y));
    }
    return size;
  };
  const { x, y, triangles } = triangulate(loops, sizeAt);
  const corners = [...rim];
  for (let i = rim.length; i < x.length; i++) corners.push(builder.corner(x[i]!, y[i]!));
  for (let t = 0; t < triangles.length; t += 3)
    builder.triangle(corners[triangles[t]!]!, corners[triangles[t + 1]!]!, corners[triangles[t + 2]!]!, zone);
  return true;
}
