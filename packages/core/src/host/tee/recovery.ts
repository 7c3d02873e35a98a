import { placeIn, tangentAngle } from '../../mesh/quad/index.js';
import {
  best,
  createRecovery,
  faceTellers,
  other,
  own,
  type Recovery,
  type RecoveryBuilder,
  shareOf,
  spacedColumns,
  type Teller,
  whole,
} from '../condensed/index.js';
import { type Depth, depthsTelling, nearTip, overlaminateDepths, skinDepths } from './depths.js';
import { judgedExtent } from './extent.js';
import type { TeePlace } from './places.js';
import { elementOf, end, placesTelling, type Station, type StationRange, start, stationsOf } from './stations.js';
import type { TeeJoint } from './tee.js';
import type { TeeMesh, TeePart } from './tee-mesh.js';

/** Section points nearer to a cusp of the filler than this many bend radii are left out (0.3 mm for a radius of 5 mm). */
export const cuspExclusion = 0.06;

/** Depth down to which the skin feels a channel as its interface does, in bend radii. */
const nearSurface = 0.03;

/** Least distances between columns of section points, in bend radii: beneath the filler, next to it, and where fields are smoother. */
const closest = 0.012;
const close = 0.018;
const wide = 0.04;
const wider = 0.08;
const deep = 0.12;

/** Towards a cusp columns stand closer: by this share of their distance from it. */
const nearCusp = 0.2;

/** And towards the foot's end. */
const nearEnd = 0.25;

/** Places along an element where stresses are best. */
const alongElement = [-best, best] as const;

/**
 * The section points of a meshed tee. Columns of points stand where stresses are best along elements and at both ends of every part. In bend, foot and web each
 * layer has one at its filler-side face and others inside it; the skin has rows of them
 * over all of its depth, the filler the middles of its elements. Normal and shear stress at a face are the mean of both sides (they are continuous); tangential stress is
 * the outer layer's own, at the filler's two interfaces the filler's. Closest columns next to the filler. What lies beyond `judgedExtent` is left out, and so is what is nearer
 * to a cusp than `cuspExclusion`.
 */
export function sectionRecovery(joint: TeeJoint, tee: TeeMesh): Recovery {
  const builder = createRecovery(tee.body);
  const add: AddPoint = (place, layer, [x, y], normalAngle, sides) => {
    if (toCusp(joint, x, y) < cuspExclusion * joint.bendRadius) return;
    builder.add({ place, x, y, normalAngle, layer }, sides);
  };
  addOverlaminate(joint, tee, add);
  addSkin(joint, tee, add);
  addInterfaces(joint, tee, builder, add);
  addFiller(joint, tee, add);
  return builder.recovery;
}

const toCusp = ({ bendRadius: R }: TeeJoint, x: number, y: number): number =>
  Math.min(Math.hypot(x - R, y), Math.hypot(x, y - R));

type AddPoint = (
  place: TeePlace,
  layer: number,
  at: readonly [x: number, y: number],
  normalAngle: number,
  tellers: readonly Teller[],
) => void;

/** Closer towards the cusps and the foot's end: where stresses are singular. */
const spacedBy =
  (joint: TeeJoint, least: number, most: number) =>
  (x: number, y: number): number => {
    const R = joint.bendRadius;
    return Math.min(
      Math.max(least * R, nearCusp * toCusp(joint, x, y)),
      most * R,
      nearEnd * (R + joint.footLength - x),
    );
  };

/** Bend, foot and web. */
function addOverlaminate(joint: TeeJoint, tee: TeeMesh, add: AddPoint): void {
  const R = joint.bendRadius;
  const { mesh } = tee.body;
  const extent = judgedExtent(joint);
  const depths = overlaminateDepths(joint, tee);
  const isShallow = (depth: number) => depth < nearTip * R;
  /** The points of one station at the depths that are wanted. */
  const through = (place: 'web' | 'bend' | 'foot', station: Station, wanted: (depth: number) => boolean) => {
    for (const at of depths) {
      if (!wanted(at.depth) || (at.ofBend && place !== 'bend') || (at.meeting && station.length === 1)) continue;
      const [{ part, column, a }] = station as readonly [Station[0]];
      const e = elementOf(tee, part!, column!, at.row);
      const [x, y] = placeIn(mesh, e, a!, at.b);
      if (toCusp(joint, x, y) > at.reach) continue;
      const normalAngle = tangentAngle(mesh.axes[e]!, x, y) + Math.PI / 2;
      add(place, at.layer, [x, y], normalAngle, overlaminateTellers(tee, station, at));
    }
  };
  const top: Station = [end('web', tee), start('bend')];
  const side: Station = [end('bend', tee), start('foot')];
  const range = { row: 0, b: -1 };
  for (const shallow of [true, false]) {
    const distance = spacedBy(joint, shallow ? close : wide, wider);
    const wanted = (depth: number) => isShallow(depth) === shallow;
    const web = { ...range, distance, within: (_: number, y: number) => y <= extent.web };
    for (const station of stationsOf(tee, 'web', web, undefined, top)) through('web', station, wanted);
    const foot = { ...range, distance, within: (x: number) => x <= extent.foot };
    for (const station of stationsOf(tee, 'foot', foot, side)) through('foot', station, wanted);
  }
  // The bend is judged from the middle of its first layer on; its face to the filler, as the filler's interface.
  const { thickness } = joint.overlaminate[0]!;
  const [middle, beyond] = [thickness * (0.5 - 1e-9), thickness * (1 - 1e-9)];
  const acrossBend = (distance: StationRange['distance'], wanted: (depth: number) => boolean) => {
    for (const station of stationsOf(tee, 'bend', { ...range, distance }, top, side)) through('bend', station, wanted);
  };
  acrossBend(
    () => close * R,
    (depth) => depth === 0 || (depth >= middle && depth < beyond),
  );
  // Rows that the usual limit around a cusp cuts.
  acrossBend(spacedBy(joint, close, wide), (depth) => depth >= beyond && isShallow(depth));
  acrossBend(
    () => wide * R,
    (depth) => depth >= beyond && !isShallow(depth),
  );
}

/** Of a layer's face the mean of both sides. */
function overlaminateTellers(tee: TeeMesh, station: Station, at: Depth): Teller[] {
  const { row, b } = at;
  const { overlaminateLayers: layers } = tee;
  const told = (depth: Pick<Depth, 'row' | 'b'>, weights: Teller[3]) =>
    placesTelling(tee, station, depth.row, depth.b).flatMap(({ part, column, a, share }) =>
      depthsTelling(tee, { part, column }, layers, depth).map(
        (one): Teller => [elementOf(tee, part, column, one.row), a, one.b, shareOf(weights, share * one.share)],
      ),
    );
  if (b !== -1 || row === 0) return told(at, whole);
  return [...told(at, own), ...told({ row: row - 1, b: 1 }, other)];
}

/** The skin below filler and foot, from just below its surface down. */
function addSkin(joint: TeeJoint, tee: TeeMesh, add: AddPoint): void {
  const R = joint.bendRadius;
  const extent = judgedExtent(joint);
  const within = (x: number) => x <= extent.skin;
  for (const at of skinDepths(joint, tee)) {
    const { row, b, depth, layer, reach } = at;
    const least = depth < nearSurface * R ? closest : Math.max(close, Math.min(deep, depth / (2 * R)));
    // Beneath a channel stress changes as fast as it lies near.
    const most = depth < nearSurface * R ? closest : Math.max(least, Math.min(wider, close + depth / (2 * R)));
    const middle: Station = [end('skin-filler', tee), start('skin-foot')];
    const range = { row, b, within };
    const stations = [
      ...stationsOf(tee, 'skin-filler', { ...range, distance: spacedBy(joint, least, most) }, undefined, middle),
      ...stationsOf(
        tee,
        'skin-foot',
        { ...range, distance: spacedBy(joint, least, Math.max(least, wider)) },
        middle,
      ).slice(1),
    ];
    for (const station of at.last ? stations.slice(-1) : stations) {
      const tellers = placesTelling(tee, station, row, b).flatMap(({ part, column, a, share }) =>
        depthsTelling(tee, { part, column }, tee.skinLayers, at).map(
          (one): Teller => [elementOf(tee, part, column, one.row), a, one.b, shareOf(whole, share * one.share)],
        ),
      );
      const [{ part, column, a }] = station as readonly [Station[0]];
      const e = elementOf(tee, part!, column!, row);
      const [x, y] = placeIn(tee.body.mesh, e, a!, b);
      if (toCusp(joint, x, y) <= reach) add('skin', layer, [x, y], Math.PI / 2, tellers);
    }
  }
}

/** The filler's interfaces to bend and skin. */
function addInterfaces(joint: TeeJoint, tee: TeeMesh, { nearer }: RecoveryBuilder, add: AddPoint): void {
  const R = joint.bendRadius;
  const { mesh } = tee.body;
  const { parts } = tee;
  const columnsOf = (part: TeePart, row: number) =>
    spacedColumns(parts[part]!.columns, (column) => placeIn(mesh, elementOf(tee, part, column, row), 0, -1), close * R);
  // The filler's border elements in the order of the bend's columns (from the top) and of the skin's.
  const alongArc: [TeePart, number, number][] = [];
  const alongBase: [TeePart, number, number][] = [];
  const push = (list: [TeePart, number, number][], part: TeePart, row: number) => {
    for (let column = 0; column < parts[part]!.columns; column++) list.push([part, column, row]);
  };
  push(alongBase, 'ring-base', 0);
  push(alongBase, 'ring-tip-below', 0);
  push(alongBase, 'cusp-bottom', 0);
  push(alongArc, 'cusp-bottom', parts['cusp-bottom']!.rows - 1);
  alongArc.reverse();
  for (const part of ['ring-tip-above', 'ring-side', 'ring-top', 'cusp-top'] as const) push(alongArc, part, 0);
  alongArc.reverse();
  for (const column of columnsOf('bend', 0)) {
    const [of, at, row] = alongArc[column]!;
    const e = elementOf(tee, of, at, row);
    const bend = [elementOf(tee, 'bend', column, 0), elementOf(tee, 'bend', column, 1)] as const;
    const face = of === 'cusp-bottom' ? 1 : -1;
    for (const a of alongElement) {
      const [x, y] = placeIn(mesh, bend[0], a, -1);
      add('arc-interface', -1, [x, y], Math.atan2(R - y, R - x), [
        ...faceTellers(mesh, [e, elementOf(tee, of, at, row - face)], nearer(e, a, face, x, y), face, own),
        ...faceTellers(mesh, bend, a, -1, other),
      ]);
    }
  }
  const uppermost = tee.skinLayers.length - 1;
  for (const column of columnsOf('skin-filler', uppermost)) {
    const [of, at, row] = alongBase[column]!;
    const e = elementOf(tee, of, at, row);
    const skin = [
      elementOf(tee, 'skin-filler', column, uppermost),
      elementOf(tee, 'skin-filler', column, uppermost - 1),
    ] as const;
    // On the axis a symmetric stress has its extreme.
    for (const a of column === 0 ? [-1, ...alongElement] : alongElement) {
      const [x, y] = placeIn(mesh, skin[0], a, 1);
      add('base-interface', -1, [x, y], Math.PI / 2, [
        ...faceTellers(mesh, [e, elementOf(tee, of, at, row + 1)], nearer(e, a, -1, x, y), -1, own),
        ...faceTellers(mesh, skin, a, 1, other),
      ]);
    }
  }
}

/** The filler inside its border. */
function addFiller(joint: TeeJoint, tee: TeeMesh, add: AddPoint): void {
  const { mesh } = tee.body;
  for (const part of [
    'ring-base',
    'ring-tip-below',
    'ring-tip-above',
    'ring-side',
    'ring-top',
    'cusp-bottom',
    'cusp-top',
  ] as const) {
    const { columns, rows } = tee.parts[part]!;
    const spaced = spacedColumns(
      columns,
      (column) => placeIn(mesh, elementOf(tee, part, column, 0), 0, -1),
      wide * joint.bendRadius,
    );
    for (const column of spaced)
      for (let row = 0; row < rows; row++) {
        const e = elementOf(tee, part, column, row);
        add('filler', -1, placeIn(mesh, e, 0, 0), Math.PI / 2, [[e, 0, 0, whole]]);
      }
  }
}
