import { type Layup, layupThickness, sectionStiffness } from '../../../material/index.js';
import {
  addBlock,
  between,
  type CubicMeshBuilder,
  divide,
  type Place,
  type PlaceOf,
  type Zone,
} from '../../../mesh/triangle/index.js';
import type { TeeJoint } from '../tee.js';
import type { BorderDivision } from './division.js';

/** Corners on the filler's border and on the loaded and supported ends. */
export interface BorderCorners {
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

/** Least number of rows through a laminate, whatever its layers. */
const leastRows = 8;
/** Rows are no thicker than this share of the radius that they bend with: where it is tight, radial stress falls as fast as it does. */
const rowPerRadius = 0.25;

/** Rows of a laminate: depths from the filler, mm, and the layer of each row. `radiusAt`: of the bend at a depth. */
export function laminateRows(
  layup: Layup,
  R: number,
  coarseness: number,
  radiusAt: (depth: number) => number = () => R,
) {
  const most = layupThickness(layup) / leastRows;
  const depths = [0];
  const layers: number[] = [];
  layup.forEach(({ thickness }, layer) => {
    const top = depths.at(-1)!;
    const parts = divide(thickness, 50, (k) => {
      const depth = top + ((k + 0.5) * thickness) / 50;
      return coarseness * Math.min(0.0325 * R + 0.325 * depth, most, rowPerRadius * radiusAt(depth));
    });
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
export function straightColumns(length: number, first: number, last: number, coarseness: number): Float64Array {
  const samples = 800;
  return divide(length, samples, (k) => {
    const distance = ((k + 0.5) * length) / samples;
    return coarseness * Math.min(first + 0.26 * distance, last + 0.26 * (length - distance), length / 9);
  });
}

/** Columns of the skin, left to right: those of the filler's base and of the feet go on in it, and what lies beyond, the skirt. */
export function skinColumns(
  joint: TeeJoint,
  division: Pick<BorderDivision, 'sliver' | 'base'>,
  foot: Float64Array,
  skirt: Float64Array,
): number[] {
  const R = joint.bendRadius;
  const right = [...division.sliver.subarray(0, -1)].map((s) => R - s).reverse();
  return [
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
}

/** Skin, bends, feet and web legs. */
export function addLaminates(
  builder: CubicMeshBuilder,
  zones: Zone[],
  joint: TeeJoint,
  division: BorderDivision,
  coarseness: number,
): BorderCorners {
  const R = joint.bendRadius;
  const { depths, layers } = laminateRows(joint.overlaminate, R, coarseness, (depth) => R - depth);
  const first = 0.013 * R;
  // Foot ends and held skin ends are singular corners: coarse columns there cost 0.05 % of every pull peak.
  // A thin laminate's corner is as small as it is thick, above the skin and below.
  const t = Math.min(layupThickness(joint.overlaminate), layupThickness(joint.skin));
  const end = Math.min(0.03 * R, t / 6);
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

  const skinX = skinColumns(joint, division, foot, skirt);
  const skinRows = laminateRows(joint.skin, Math.min(R, 6 * t), coarseness);
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
