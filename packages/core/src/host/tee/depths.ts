import { layupThickness } from '../../material/index.js';
import { placeIn } from '../../mesh/quad/index.js';
import { best, byBestPlaces, heightOf } from '../condensed/index.js';
import { thicknessOfRows, usualTipDistance } from './extent.js';
import { elementOf } from './stations.js';
import type { TeeJoint } from './tee.js';
import type { TeeMesh, TeePart } from './tee-mesh.js';

/** Depth down to which laminates feel the usual limit around a cusp, and distance of rows there, in bend radii. */
export const nearTip = 0.12;
const depthsAtTip = 0.04;

/** Rows that end this near to a cusp, in bend radii, so that the usual limit around it is judged at angles, in radians, no further apart than this: stress there depends on the angle as much as on the distance. */
const tipRowsReach = 0.14;
const anglesAtTip = Math.PI / 24;
const anywhere = Number.POSITIVE_INFINITY;

/** Least distance of rows through a laminate, in its thicknesses, and in radii that it bends with, where it is tight. */
const depthsApart = 0.06;
const depthsInRadius = 0.1;

/** The same below the surface of the skin, in depths: a channel above is felt as far as it lies away. */
const depthsInDepth = 0.35;

/** Distance of depths in bend radii where bend and web, bend and foot meet, and down to which: stress there goes up and down within a ply. */
const whereMeeting = { apart: 0.01, deepest: 0.3 };

/** Distance of depths of the skin in its thicknesses where it is judged last: below the foot's end stress goes over its depth as it does nowhere else. */
const apartAtLimit = 0.02;

/** Layers of foot and web thinner than this share of the laminate are judged at their faces alone. */
const thin = 1 / 12;

/** Depth of the skin's uppermost points in bend radii, or half of its first layer: above them it is the filler's interface that is judged. */
const skinTop = 0.01;

/** A depth at which a laminate is judged: element row, and the place through it. */
export interface Depth {
  readonly layer: number;
  readonly depth: number;
  readonly row: number;
  readonly b: number;
  /** Furthest from a cusp that it is judged, mm. */
  readonly reach: number;
}

/** Depths at a cusp that others leave wanting, down to `deepest`: every angle up to 60 degrees, and as deep as the limit reaches; in between rows run nearly along it. */
function wantedAtTip({ bendRadius: R }: TeeJoint, depths: readonly Depth[], deepest: number): number[] {
  const limit = usualTipDistance * R;
  const angles = Array.from({ length: 8 }, (_, k) => (k + 1) * anglesAtTip);
  const enough = (limit * anglesAtTip) / 4;
  return [...angles.map((angle) => limit * Math.sin(angle)), limit].filter(
    (wanted) => wanted < deepest && depths.every(({ depth }) => Math.abs(depth - wanted) > enough),
  );
}

/** Of the overlaminate; `ofBend`: in the bend only; `meeting`: only where two parts meet. */
export interface OverlaminateDepth extends Depth {
  readonly ofBend: boolean;
  readonly meeting: boolean;
}

/** Depths that leave no more than a distance between `from` and `to`, without these. */
function depthsBetween(from: number, to: number, distance: number): number[] {
  const gaps = Math.ceil((to - from) / distance - 1e-9);
  return Array.from({ length: Math.max(0, gaps - 1) }, (_, k) => from + ((k + 1) / gaps) * (to - from));
}

/**
 * The filler-side face of every layer, and places inside it where stresses are best: one at least, closer where the laminate bends tightly. The middle of the first layer, from
 * which on the bend is judged, is one of them.
 */
export function overlaminateDepths(joint: TeeJoint, tee: TeeMesh): OverlaminateDepth[] {
  const R = joint.bendRadius;
  const t = layupThickness(joint.overlaminate);
  const layers = tee.overlaminateLayers;
  const depthOf = (row: number, b: number) => placeIn(tee.body.mesh, elementOf(tee, 'web', 0, row), 0, b)[0];
  const apart = (depth: number) =>
    Math.min(
      depthsApart * thicknessOfRows(joint),
      depthsInRadius * (R - depth),
      depth < nearTip * R ? depthsAtTip * R : Number.POSITIVE_INFINITY,
    );
  let from = 0;
  const depths = joint.overlaminate.flatMap(({ thickness }, layer): OverlaminateDepth[] => {
    const rows = layers.flatMap((of, row) => (of === layer ? [row] : []));
    const inside = rows.flatMap((row) => [-best, best].map((b) => ({ row, b, depth: depthOf(row, b) })));
    const middle = from + thickness / 2;
    const chosen: typeof inside = layer > 0 ? [] : [placeAt(rows, depthOf, middle)];
    let last = from;
    for (const place of inside) {
      if (place.depth - last < apart(place.depth)) continue;
      last = place.depth;
      if (layer > 0 || Math.abs(place.depth - middle) > apart(middle) / 2) chosen.push(place);
    }
    if (chosen.length === 0)
      chosen.push(inside.reduce((a, b) => (Math.abs(b.depth - middle) < Math.abs(a.depth - middle) ? b : a)));
    chosen.sort((a, b) => a.depth - b.depth);
    const ofBend = thickness < Math.min(thin * t, depthsAtTip * R);
    const common = { layer, ofBend: false, meeting: false, reach: anywhere };
    const face = { ...common, depth: from, row: rows[0]!, b: -1 };
    from += thickness;
    const within = [face, ...chosen.map((place) => ({ ...common, ...place, ofBend }))];
    const between = within.flatMap(({ depth }, k) =>
      depth > whereMeeting.deepest * R
        ? []
        : depthsBetween(depth, within[k + 1]?.depth ?? from, whereMeeting.apart * R).map((one) => ({
            ...common,
            ...placeAt(rows, depthOf, one),
            meeting: true,
          })),
    );
    return [...within, ...between];
  });
  const rows = layers.map((_, row) => row);
  const usual = depths.filter(({ meeting }) => !meeting);
  const atTip = wantedAtTip(joint, usual, t).map((depth): OverlaminateDepth => {
    const place = placeAt(rows, depthOf, depth);
    return { layer: layers[place.row]!, ...place, ofBend: false, meeting: false, reach: tipRowsReach * R };
  });
  return [...depths, ...atTip].sort((a, b) => a.depth - b.depth);
}

/** The row that reaches to a depth, and the place through it. */
function placeAt(rows: readonly number[], depthOf: (row: number, b: number) => number, depth: number) {
  const row = rows.find((one) => Math.max(depthOf(one, 1), depthOf(one, -1)) >= depth) ?? rows.at(-1)!;
  const [low, high] = [depthOf(row, -1), depthOf(row, 1)];
  return { row, b: (2 * (depth - low)) / (high - low) - 1, depth };
}

/** Of the skin; `last`: only where it is judged last. */
export interface SkinDepth extends Depth {
  readonly last: boolean;
}

/** Depths of the skin's points, the uppermost first. */
export function skinDepths(joint: TeeJoint, tee: TeeMesh): SkinDepth[] {
  const { skinLayers: layers } = tee;
  const depthOf = (row: number, b: number) => -placeIn(tee.body.mesh, elementOf(tee, 'skin-filler', 0, row), 0, b)[1];
  const downward = layers.map((_, row) => row).reverse();
  const wanted = Math.min(skinTop * joint.bendRadius, joint.skin[0]!.thickness / 2);
  const top = placeAt(downward, depthOf, wanted);
  const found: Depth[] = [{ ...top, layer: layers[top.row]!, reach: anywhere }];
  const least = depthsApart * layupThickness(joint.skin);
  const apart = (depth: number) =>
    depth < nearTip * joint.bendRadius ? Math.min(least, depthsAtTip * joint.bendRadius) : least;
  // Next to the filler stress falls fast, below it shear goes over its largest value smoothly.
  for (const row of downward)
    for (const b of [best, -best]) {
      const depth = depthOf(row, b);
      if (depth < 1.5 * wanted) continue;
      const isNewLayer = layers[row] !== found.at(-1)!.layer;
      if (found.length >= 3 && !isNewLayer && depth - found.at(-1)!.depth < apart(depth)) continue;
      found.push({ layer: layers[row]!, row, b, depth, reach: anywhere });
    }
  const at = (depth: number, reach: number): Depth => {
    const place = placeAt(downward, depthOf, depth);
    return { layer: layers[place.row]!, ...place, reach };
  };
  // Elements may be larger than the distance that is wanted.
  const between = found.flatMap(({ depth }, k) => {
    const next = found[k + 1]?.depth ?? depth;
    const middle = (depth + next) / 2;
    return depthsBetween(depth, next, Math.max(apart(middle), depthsInDepth * middle)).map((one) => at(one, anywhere));
  });
  const usual = [...found, ...between];
  const atTip = wantedAtTip(joint, usual, layupThickness(joint.skin)).map((depth) =>
    at(depth, tipRowsReach * joint.bendRadius),
  );
  const everywhere = [...usual, ...atTip].sort((a, b) => a.depth - b.depth);
  const last = everywhere.flatMap(({ depth }, k) =>
    depthsBetween(depth, everywhere[k + 1]?.depth ?? depth, apartAtLimit * layupThickness(joint.skin)),
  );
  return [
    ...everywhere.map((one) => ({ ...one, last: false })),
    ...last.map((depth) => ({ ...at(depth, anywhere), last: true })),
  ];
}

/** A place through a part, and how much of the stress at a depth it tells. */
export interface TellingDepth {
  readonly row: number;
  readonly b: number;
  readonly share: number;
}

/** By what places through a part the stress at a depth of one layer is told, at a column. */
export function depthsTelling(
  tee: TeeMesh,
  { part, column }: { readonly part: TeePart; readonly column: number },
  layers: readonly number[],
  { row, b }: Pick<Depth, 'row' | 'b'>,
): readonly TellingDepth[] {
  const sizeOf = (at: number) => heightOf(tee.body.mesh, elementOf(tee, part, column, at), 0);
  const sides = b < 0 ? ([-1, 1] as const) : ([1, -1] as const);
  const side = sides.find((one) => layers[row + one] === layers[row]);
  const next = side && { side, size: sizeOf(row + side) };
  return byBestPlaces(b, sizeOf(row), next).map(({ ofNext, at, share }) => ({
    row: ofNext ? row + side! : row,
    b: at,
    share,
  }));
}
