import { sectionStiffness } from '../../../../material/index.js';
import {
  addBlock,
  between,
  type CubicMeshBuilder,
  type Place,
  type PlaceOf,
  type Zone,
} from '../../../../mesh/triangle/index.js';
import {
  addPocketed,
  nearestIndex,
  type Pocketed,
  type PocketedColumns,
  type PocketedEnd,
} from '../../../laminate/index.js';
import type { BorderDivision } from '../../check/division.js';
import { laminateRows, skinColumns } from '../../check/laminates.js';
import type { addSlivers } from '../../check/slivers.js';
import type { PocketSite, PocketTee } from '../site.js';

/** Columns of a tee without pocket: of the filler's border, along foot, web and the skin beyond the foot. */
export interface PlainColumns {
  readonly division: BorderDivision;
  readonly foot: Float64Array;
  readonly web: Float64Array;
  readonly skirt: Float64Array;
}

/** Corners on the filler's border and on the loaded and supported ends, and where the columns of the border stand. */
export interface SectionCorners {
  readonly border: Parameters<typeof addSlivers>[3];
  readonly division: BorderDivision;
  readonly webTop: readonly number[];
  /** Bottom up. */
  readonly rightEnd: readonly number[];
  readonly leftEnd: readonly number[];
}

/** What is meshed, and into what. */
export interface SectionMaking {
  readonly builder: CubicMeshBuilder;
  /** New ones are added. */
  readonly zones: Zone[];
  readonly joint: PocketTee;
  readonly site: PocketSite;
  readonly plain: PlainColumns;
  /** The laminate with the pocket. */
  readonly spec: Pocketed;
  readonly columns: PocketedColumns;
}

type ZoneOf = ReturnType<typeof zoneBook>;

/** Skin, bends, feet, web legs and the pocket. `undefined` where sides come too close to each other. */
export function addSection(making: SectionMaking): SectionCorners | undefined {
  const { builder, joint, plain } = making;
  const R = joint.bendRadius;
  const zoneOf = zoneBook(making.zones, joint, making.site);
  const skin = addSkin(making, zoneOf);
  if (skin === undefined) return undefined;
  const webAxis = [builder.corner(0, R), ...Array.from(plain.web.subarray(1), (s) => builder.corner(0, R + s))];
  const right = addLeg(making, zoneOf, skin, webAxis, 1);
  const left = addLeg(making, zoneOf, skin, webAxis, -1);
  if (right === undefined || left === undefined) return undefined;
  const { top, leftTip, rightTip } = skin;
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
      sliver: plain.division.sliver,
      base: Float64Array.from(skin.along.slice(leftTip, rightTip + 1)),
      rightArc: Float64Array.from(right.angles),
      leftArc: Float64Array.from(left.angles),
    },
    webTop: [...right.top.toReversed(), ...left.top.slice(1)],
    rightEnd: skin.rightEnd,
    leftEnd: skin.leftEnd,
  };
}

const addPocket = (
  { builder, joint, site, spec, columns }: SectionMaking,
  zoneOf: ZoneOf,
  known?: (column: number) => number | undefined,
) =>
  addPocketed(
    builder,
    spec,
    columns,
    {
      resin: zoneOf('filler', -1, 1),
      ply: (ply, s) => zoneOf(Math.abs(s) < site.reach ? 'pocket-plies' : joint.pocket.in, site.layerOf(ply), 1),
      breaks: [-site.reach, site.reach],
    },
    known,
  );

/** Corners of a grid, column by column; `given`: those that exist already. */
const cornersOf = (
  builder: CubicMeshBuilder,
  count: number,
  rows: number,
  at: PlaceOf,
  given: (i: number, j: number) => number | undefined,
) =>
  Array.from({ length: count }, (_, i) =>
    Array.from({ length: rows }, (_, j) => given(i, j) ?? builder.corner(...at(i, j))),
  );

/** The meshed skin: where its columns stand from left to right, their corners on its upper face, and those of its ends, bottom up. */
interface Skin {
  readonly along: readonly number[];
  readonly top: readonly number[];
  readonly leftEnd: readonly number[];
  readonly rightEnd: readonly number[];
  /** Columns at the filler's two cusps. */
  readonly leftTip: number;
  readonly rightTip: number;
}

function addSkin(making: SectionMaking, zoneOf: ZoneOf): Skin | undefined {
  const { builder, joint, plain, spec, columns } = making;
  const { bendRadius: R, pocket, footLength } = joint;
  const tipsOf = (along: readonly number[]) => ({
    along,
    leftTip: nearestIndex(along, -R),
    rightTip: nearestIndex(along, R),
  });
  if (pocket.in === 'skin') {
    const made = addPocket(making, zoneOf);
    if (made === undefined) return undefined;
    const along = columns.above.map((s) => s + pocket.at);
    return { ...tipsOf(along), top: made.top, leftEnd: made.left.corners, rightEnd: made.right.corners };
  }
  const foot = pocket.in === 'foot' ? columns.below.map((s) => s + pocket.at - R) : [...plain.foot];
  const along = [
    ...skinColumns(joint, plain.division, plain.foot, plain.skirt).filter((x) => x < R * (1 + 1e-9)),
    ...foot.slice(1).map((s) => R + s),
    ...plain.skirt.subarray(1).map((s) => R + footLength + s),
  ];
  const rows = laminateRows(joint.skin, R, spec.coarseness);
  const at: PlaceOf = (u, v) => [between(along, u), -between(rows.depths, v)];
  const grid = cornersOf(builder, along.length, rows.depths.length, at, () => undefined);
  addBlock(builder, grid, at, (row) => zoneOf('skin', rows.layers[row]!, 1));
  return {
    ...tipsOf(along),
    top: grid.map((column) => column[0]!),
    leftEnd: grid[0]!.toReversed(),
    rightEnd: grid.at(-1)!.toReversed(),
  };
}

/** A grid's column of corners, from the filler outward, and its rows. */
interface Rows {
  readonly depths: readonly number[];
  readonly layers: readonly number[];
  readonly corners?: readonly number[];
}

/** Angles along a bend from the foot, its corners on the filler's border, and how foot and web go on from its ends. */
interface Bend {
  readonly angles: ArrayLike<number>;
  readonly arc: readonly number[];
  readonly atFoot: Rows;
  readonly atWeb: Rows;
}

/** Bend, foot and web leg of one side. `webAxis`: corners on the joint's axis, from the filler's tip upwards. */
function addLeg(making: SectionMaking, zoneOf: ZoneOf, skin: Skin, webAxis: readonly number[], side: 1 | -1) {
  const { builder, joint, plain } = making;
  const R = joint.bendRadius;
  const mirror = (x: number, y: number): Place => [side * x, y];
  const footTip = side === 1 ? skin.rightTip : skin.leftTip;
  const footX = footOn(skin.along, footTip, side, R + joint.footLength).map((x) => x - R);
  const addFoot = (rows: Rows) => {
    const at: PlaceOf = (u, v) => mirror(R + between(footX, u), between(rows.depths, v));
    const foot = cornersOf(builder, footX.length, rows.depths.length, at, (i, j) =>
      i === 0 ? rows.corners?.[j] : j === 0 ? skin.top[footTip + side * i] : undefined,
    );
    addBlock(builder, foot, at, (row) => zoneOf('foot', rows.layers[row]!, side));
  };
  const ends = { tip: webAxis[0]!, foot: skin.top[footTip]! };
  let bend: Bend | undefined;
  if (side === 1 && joint.pocket.in === 'bend') {
    bend = addPocketBend(making, zoneOf, ends);
    if (bend !== undefined) addFoot(bend.atFoot);
  } else if (side === 1 && joint.pocket.in === 'foot') {
    const made = addPocket(making, zoneOf, (i) => skin.top[footTip + i]);
    if (made !== undefined) bend = addPlainBend(making, zoneOf, side, rowsFrom(made.left), ends);
  } else {
    const usual = laminateRows(joint.overlaminate, R, making.spec.coarseness);
    bend = addPlainBend(making, zoneOf, side, usual, ends);
    addFoot(bend.atFoot);
  }
  if (bend === undefined) return undefined;
  const { angles, arc, atWeb } = bend;
  const webAt: PlaceOf = (u, v) => mirror(between(atWeb.depths, v), R + between(plain.web, u));
  const web = cornersOf(builder, plain.web.length, atWeb.depths.length, webAt, (i, j) =>
    i === 0 ? atWeb.corners![j] : j === 0 ? webAxis[i] : undefined,
  );
  addBlock(builder, web, webAt, (row) => zoneOf('web', atWeb.layers[row]!, side));
  return { arc, angles, top: web.at(-1)! };
}

const rowsFrom = ({ corners, levels, plies }: PocketedEnd): Rows => ({ corners, depths: levels, layers: plies });

/** Corners that a bend shares with the filler's upper tip and, at the lower one, with the skin. */
interface BendEnds {
  readonly tip: number;
  readonly foot: number;
}

/** The right bend with the pocket, along the flat laminate from the web to the foot. */
function addPocketBend(making: SectionMaking, zoneOf: ZoneOf, ends: BendEnds): Bend | undefined {
  const { joint, site, columns } = making;
  const last = columns.below.length - 1;
  const made = addPocket(making, zoneOf, (i) => (i === 0 ? ends.tip : i === last ? ends.foot : undefined));
  if (made === undefined) return undefined;
  const { radius, level } = site.roll!;
  return {
    angles: columns.below.map((s) => joint.pocket.at - s / (radius - level)).reverse(),
    arc: made.bottom.toReversed(),
    atFoot: rowsFrom(made.right),
    atWeb: rowsFrom(made.left),
  };
}

/** `rows`: with the corners of its foot's end where those exist already. */
function addPlainBend(
  { builder, joint, plain }: SectionMaking,
  zoneOf: ZoneOf,
  side: 1 | -1,
  { depths, layers, corners: given }: Rows,
  ends: BendEnds,
): Bend {
  const angles = side === 1 ? plain.division.rightArc : plain.division.leftArc;
  const last = angles.length - 1;
  const at = bendPlace(joint.bendRadius, angles, depths, (x, y) => [side * x, y]);
  const bend = cornersOf(builder, angles.length, depths.length, at, (i, j) => {
    if (i === 0 && given !== undefined) return given[j];
    if (j !== 0) return undefined;
    return i === 0 ? ends.foot : i === last ? ends.tip : undefined;
  });
  addBlock(builder, bend, at, (row) => zoneOf('bend', layers[row]!, side));
  return {
    angles,
    arc: bend.map((column) => column[0]!),
    atFoot: { depths, layers, corners: bend[0]! },
    atWeb: { depths, layers, corners: bend[last]! },
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
