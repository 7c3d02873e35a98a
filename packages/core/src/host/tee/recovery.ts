import { layupThickness } from '../../material/index.js';
import { placeIn, tangentAngle } from '../../mesh/quad/index.js';
import {
  createRecovery,
  faceTellers,
  other,
  own,
  type Recovery,
  type RecoveryBuilder,
  spacedColumns,
  type Teller,
  whole,
} from '../condensed/index.js';
import type { TeePlace } from './places.js';
import { elementOf, end, type Station, start, stationsOf } from './stations.js';
import type { TeeJoint } from './tee.js';
import type { TeeMesh, TeePart } from './tee-mesh.js';

/** Section points nearer to a cusp of the filler than this many bend radii are left out (0.3 mm for a radius of 5 mm). */
export const cuspExclusion = 0.06;

/** Least distances between columns of section points, in bend radii: next to the filler, and where fields are smoother. */
const close = 0.018;
const wide = 0.04;
const wider = 0.08;
const deep = 0.12;

/** Towards a cusp columns stand closer: by this share of their distance from it. */
const nearCusp = 0.2;

/** Depth of the skin's uppermost points in bend radii, or half of its first layer: above them it is the filler's interface that is judged. */
const skinTop = 0.01;

/**
 * Distance of rows through the laminates where the usual limit around a cusp crosses them, and the depth to which it does, in bend radii: between two of
 * them stands what is judged at the limit.
 */
const depthsAtTip = 0.04;
const nearTip = 0.12;

/** Least distance of rows of section points in the skin, below its three uppermost, in skin thicknesses. */
const skinDepths = 0.06;

/** Layers of foot and web thinner than this share of the laminate are judged at their faces alone. */
const thin = 1 / 12;

/** Places along an element where stresses are best, the Gauss points of its reduced rule (Barlow, Int. J. Numer. Meth. Eng. 10 (1976) 243-251). */
const alongElement = [-1 / Math.sqrt(3), 1 / Math.sqrt(3)] as const;

/**
 * The section points of a meshed tee. Columns of points stand at the middles of element columns and at both ends of every part. In bend, foot and web each
 * layer has one at its filler-side face and others inside it; the skin has rows of them
 * over all of its depth, the filler the middles of its elements. Normal and shear stress at a face are the mean of both sides (they are continuous); tangential stress is
 * the outer layer's own, at the filler's two interfaces the filler's. Closest columns next to the filler. The foot's last thickness and the
 * web beyond two thicknesses are left out (run-out and load introduction are not modelled in detail), and so is what is nearer
 * to a cusp than `cuspExclusion`.
 */
export function sectionRecovery(joint: TeeJoint, tee: TeeMesh): Recovery {
  const builder = createRecovery(tee.body);
  const add: AddPoint = (place, layer, [x, y], normalAngle, sides) => {
    const R = joint.bendRadius;
    if (Math.hypot(x - R, y) < cuspExclusion * R || Math.hypot(x, y - R) < cuspExclusion * R) return;
    builder.add({ place, x, y, normalAngle, layer }, sides);
  };
  addOverlaminate(joint, tee, add);
  addSkin(joint, tee, add);
  addInterfaces(joint, tee, builder, add);
  addFiller(joint, tee, add);
  return builder.recovery;
}

type AddPoint = (
  place: TeePlace,
  layer: number,
  at: readonly [x: number, y: number],
  normalAngle: number,
  tellers: readonly Teller[],
) => void;

/** Closer towards the cusps: where stresses are singular. */
const spacedBy =
  ({ bendRadius: R }: TeeJoint, least: number, most: number) =>
  (x: number, y: number): number =>
    Math.min(Math.max(least * R, nearCusp * Math.min(Math.hypot(x - R, y), Math.hypot(x, y - R))), most * R);

/** Of what `count` elements tell, an equal part each. */
const part = (weights: Teller[3], count: number) => weights.map((weight) => weight / count) as unknown as Teller[3];

/** Bend, foot and web. */
function addOverlaminate(joint: TeeJoint, tee: TeeMesh, add: AddPoint): void {
  const R = joint.bendRadius;
  const t = layupThickness(joint.overlaminate);
  const { mesh } = tee.body;
  const depths = overlaminateDepths(joint, tee);
  const layers = tee.overlaminateLayers;
  /** The points of one station at the depths that are wanted. */
  const through = (place: 'web' | 'bend' | 'foot', station: Station, wanted = (_depth: number) => true) => {
    for (const { layer, row, b, depth, ofBend } of depths) {
      if (!wanted(depth) || (ofBend && place !== 'bend')) continue;
      const tellers = station.flatMap(({ part: of, column, a }): Teller[] => {
        const element = (at: number) => elementOf(tee, of, column, at);
        if (b !== -1) return [[element(row), a, b, part(whole, station.length)]];
        /** What lies behind a row in the same layer. */
        const behind = (at: number, next: number) => (layers[next] === layers[at] ? element(next) : undefined);
        const above = faceTellers(
          mesh,
          [element(row), behind(row, row + 1)],
          a,
          -1,
          part(row === 0 ? whole : own, station.length),
        );
        if (row === 0) return above;
        return [
          ...above,
          ...faceTellers(mesh, [element(row - 1), behind(row - 1, row - 2)], a, 1, part(other, station.length)),
        ];
      });
      const [{ part: of, column, a }] = station as readonly [Station[0]];
      const e = elementOf(tee, of!, column!, row);
      const [x, y] = placeIn(mesh, e, a!, b);
      add(place, layer, [x, y], tangentAngle(mesh.axes[e]!, x, y) + Math.PI / 2, tellers);
    }
  };
  const top: Station = [end('web', tee), start('bend')];
  const side: Station = [end('bend', tee), start('foot')];
  const range = { row: 0, b: -1 };
  const web = { ...range, distance: spacedBy(joint, wide, wider), within: (_: number, y: number) => y <= R + 2 * t };
  for (const station of stationsOf(tee, 'web', web, undefined, top)) through('web', station);
  // The bend is judged from the middle of its first layer on; its face to the filler, as the filler's interface.
  const [from, beyond] = [
    joint.overlaminate[0]!.thickness * (0.5 - 1e-9),
    joint.overlaminate[0]!.thickness * (1 - 1e-9),
  ];
  const next = { ...range, distance: () => close * R };
  for (const station of stationsOf(tee, 'bend', next, top, side))
    through('bend', station, (depth) => depth === 0 || (depth >= from && depth < beyond));
  for (const station of stationsOf(tee, 'bend', { ...next, distance: () => wide * R }, top, side))
    through('bend', station, (depth) => depth >= beyond);
  const foot = {
    ...range,
    distance: spacedBy(joint, wide, wider),
    within: (x: number) => x <= R + joint.footLength - t,
  };
  for (const station of stationsOf(tee, 'foot', foot, side)) through('foot', station);
}

/** A depth at which the overlaminate is judged: element row, and the place through it. `ofBend`: in the bend only. */
interface Depth {
  readonly layer: number;
  readonly depth: number;
  readonly row: number;
  readonly b: number;
  readonly ofBend: boolean;
}

/**
 * The filler-side face of every layer and places inside it: its middle, more in a layer that is a large part of the laminate or thick against its radius.
 */
function overlaminateDepths(joint: TeeJoint, tee: TeeMesh): Depth[] {
  const R = joint.bendRadius;
  const t = layupThickness(joint.overlaminate);
  const depthOf = (row: number, b: number) => placeIn(tee.body.mesh, elementOf(tee, 'web', 0, row), 0, b)[0];
  const lastRow = tee.overlaminateLayers.length - 1;
  const found: Depth[] = [];
  let from = 0;
  joint.overlaminate.forEach(({ thickness }, layer) => {
    const radius = R - from - thickness;
    const shares = [
      1,
      thickness / (0.25 * t),
      thickness / (2 * radius),
      from < nearTip * R ? thickness / (2 * depthsAtTip * R) : 0,
    ];
    const parts = 2 * Math.min(4, Math.ceil(Math.max(...shares) - 1e-9));
    let row = tee.overlaminateLayers.indexOf(layer);
    for (let k = 0; k < parts; k++) {
      const depth = from + (k / parts) * thickness;
      while (k > 0 && row < lastRow && depthOf(row, 1) < depth) row++;
      const [low, high] = [depthOf(row, -1), depthOf(row, 1)];
      const b = k === 0 ? -1 : (2 * (depth - low)) / (high - low) - 1;
      found.push({ layer, depth, row, b, ofBend: k > 0 && thickness < Math.min(thin * t, depthsAtTip * R) });
    }
    from += thickness;
  });
  return found;
}

/** The skin below filler and foot, from just below its surface down. */
function addSkin(joint: TeeJoint, tee: TeeMesh, add: AddPoint): void {
  const R = joint.bendRadius;
  const within = (x: number) => x <= R + joint.footLength - layupThickness(joint.overlaminate);
  for (const { row, b, depth } of skinRows(joint, tee)) {
    const least = Math.max(close, Math.min(deep, depth / (2 * R)));
    const distance = spacedBy(joint, least, Math.max(least, wider));
    const range = { row, b, distance, within };
    const middle: Station = [end('skin-filler', tee), start('skin-foot')];
    const stations = [
      ...stationsOf(tee, 'skin-filler', range, undefined, middle),
      ...stationsOf(tee, 'skin-foot', range, middle).slice(1),
    ];
    for (const station of stations) {
      const tellers = station.map(
        ({ part: of, column, a }): Teller => [elementOf(tee, of, column, row), a, b, part(whole, station.length)],
      );
      const [e, a] = tellers[0]!;
      add('skin', tee.skinLayers[row]!, placeIn(tee.body.mesh, e, a, b), Math.PI / 2, tellers);
    }
  }
}

/** Rows of the skin's points: element rows, and the place through them. */
function skinRows(joint: TeeJoint, tee: TeeMesh): { row: number; b: number; depth: number }[] {
  const { mesh } = tee.body;
  const depthOf = (row: number, b: number) => -placeIn(mesh, elementOf(tee, 'skin-filler', 0, row), 0, b)[1];
  const uppermost = tee.skinLayers.length - 1;
  const wanted = Math.min(skinTop * joint.bendRadius, joint.skin[0]!.thickness / 2);
  let row = uppermost;
  while (row > 0 && depthOf(row, -1) < wanted) row--;
  const [low, high] = [depthOf(row, -1), depthOf(row, 1)];
  const found = [{ row, b: (2 * (low - wanted)) / (low - high) - 1, depth: wanted }];
  // Next to the filler stress falls fast, below it shear goes over its largest value smoothly.
  for (row = uppermost; row >= 0; row--) {
    const depth = depthOf(row, 0);
    if (depth < 1.5 * wanted) continue;
    const last = found.at(-1)!.depth;
    const least = skinDepths * layupThickness(joint.skin);
    const distance = depth < nearTip * joint.bendRadius ? Math.min(least, depthsAtTip * joint.bendRadius) : least;
    if (found.length >= 3 && row > 0 && depth - last < distance) continue;
    found.push({ row, b: 0, depth });
  }
  return found;
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
