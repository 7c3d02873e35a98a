import { sectionStiffness } from '../../../../material/index.js';
import {
  addRings,
  type ChannelSizes,
  type CubicMesh,
  type CubicMeshBuilder,
  channelSizes,
  createCubicMeshBuilder,
  type EdgeCurve,
  edgeCurve,
  encroachedSegments,
  type Loop,
  madeFiner,
  ringLoops,
  sizeBeside,
  triangulate,
  type Zone,
} from '../../../../mesh/triangle/index.js';
import { type Border, createCurveNodes, fitPoints } from '../../../../outline/index.js';
import {
  divided,
  extentOf,
  finerAtMouth,
  largestInPocket,
  type MeshedCrack,
  type Pocketed,
  pocketedColumns,
  sizedChannels,
} from '../../../laminate/index.js';
import { teeFillerBorder } from '../../border.js';
import { type BorderDivision, divideBorder } from '../../check/division.js';
import { skinColumns, straightColumns } from '../../check/laminates.js';
import { addSlivers } from '../../check/slivers.js';
import type { KnownOutline } from '../../tee.js';
import type { PocketSite, PocketTee } from '../site.js';
import { addSection, type PlainColumns, type SectionCorners } from './section-blocks.js';

/**
 * The whole section of a tee with a pocket in cubic triangles, in the joint's coordinates: laminates and the cusps of the filler in structured
 * blocks, pocket and filler graded. Boundary parts: 'channel' and 'filler-channel', 'web-top', 'left-end', 'right-end' (of the skin), and 'crack' (see `addPocketed`).
 *
 * Throws `InputError` where a channel does not lie in the pocket.
 */
export function pocketTeeTriangles(
  joint: PocketTee,
  site: PocketSite,
  curves: TeeCurves,
  coarseness: number,
  crack?: MeshedCrack,
): CubicMesh {
  return madeFiner(coarseness, (finer) => attempt(joint, site, curves, finer, crack));
}

/** Edges of channels by where they lie, in the joint's coordinates. */
export interface TeeCurves {
  readonly pocket: readonly EdgeCurve[];
  readonly filler: readonly EdgeCurve[];
}

/** The curve through the points of a known outline. */
export function knownCurve(outline: KnownOutline): EdgeCurve {
  const nodes = createCurveNodes(outline.length);
  fitPoints(outline).place(nodes);
  return edgeCurve(nodes);
}

/** Sides of the filler's triangles, and its channels. */
function fillerSizes({ bendRadius: R }: PocketTee, curves: TeeCurves['filler'], coarseness: number): ChannelSizes {
  const border = teeFillerBorder(R);
  return channelSizes(curves, { coarseness, gap: border.distance, largest: (x, y) => fillerSize(R, x, y) });
}

function plainColumns(
  joint: PocketTee,
  site: PocketSite,
  coarseness: number,
  { at, edges }: ChannelSizes,
): PlainColumns {
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
    division: divideBorder(
      R,
      edges.map(({ curve }) => curve),
      coarseness,
      at,
      longest,
    ),
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

/** Columns of a laminate beyond the reach of its pocket, from there on: what comes too close to it is left out, `breaks` never; `longest`: by the distance from there. */
function beyond(
  columns: readonly number[],
  reach: number,
  breaks: readonly number[],
  longest: (distance: number) => number,
): number[] {
  const all = columns.filter((s) => s > reach);
  const step = (all[1] ?? all[0]!) - all[0]!;
  const kept = all.filter((s) => s - reach > 0.5 * step || breaks.some((one) => Math.abs(one - s) < 1e-9));
  return [
    reach,
    ...kept.flatMap((s, i) => {
      const from = kept[i - 1] ?? reach;
      return [...divided(from, s, (at) => longest(at - reach)).slice(1, -1), s];
    }),
  ];
}

function attempt(
  joint: PocketTee,
  site: PocketSite,
  { pocket: curves, filler: besides }: TeeCurves,
  coarseness: number,
  crack: MeshedCrack | undefined,
): CubicMesh | undefined {
  const { bendRadius: R, pocket, footLength, skinHalfSpan } = joint;
  const { form, laminate } = site;
  const border: Border = { distance: (x, y) => site.border.distance(...site.toFrame(x, y)) };
  const inFiller = fillerSizes(joint, besides, coarseness);
  const plain = plainColumns(joint, site, coarseness, inFiller);
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
    sizeAt: finerAtMouth(channels.at, flat, form, crack),
    extent: extentOf(form, border, flat, curves),
    coarseness,
    crack,
  };
  const columns = pocketedColumns(
    spec,
    coarsestOn(joint, site, coarseness, inFiller),
    givenColumns(joint, plain, site, coarseness, scale),
  );
  const builder = createCubicMeshBuilder();
  const zones: Zone[] = [];
  const corners = addSection({ builder, zones, joint, site, plain, spec, columns });
  if (corners === undefined) return undefined;
  const filler = zones.push({
    place: 'joint-filler',
    layer: -1,
    material: sectionStiffness({ angle: 90, ply: joint.filler }),
    normal: { angle: Math.PI / 2 },
  });
  if (!addFiller(builder, R, corners, filler - 1, inFiller)) return undefined;
  const name = (part: string, list: readonly number[]) => {
    for (let i = 0; i + 1 < list.length; i++) builder.side(part, list[i]!, list[i + 1]!);
  };
  name('web-top', corners.webTop);
  name('right-end', corners.rightEnd);
  name('left-end', corners.leftEnd.toReversed());
  return builder.finish(zones);
}

/** Columns beside a pocket, in thicknesses of its laminate, at most. */
const columnOfThickness = 0.45;

/** The longest columns beyond a pocket: those of a laminate, and of the filler where it touches it. */
function coarsestOn(
  { bendRadius: R, pocket }: PocketTee,
  site: PocketSite,
  coarseness: number,
  inFiller: ChannelSizes,
): (s: number) => number {
  const own = columnOfThickness * site.thickness * coarseness;
  if (pocket.in === 'foot') return () => own;
  const face = pocket.in === 'skin' ? site.thickness : 0;
  return (s) => {
    const [x, y] = site.toJoint(...site.fold(s, face));
    return Math.abs(x) < R ? Math.min(own, Math.max(inFiller.at(x, y), 1e-4 * R)) : own;
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

/** Columns grow by such a share of their distance from where the pocket reaches. */
const columnGrowth = 0.26;

/** Columns that a tee without pocket has beyond the reach of this one, in the flat laminate's lengths, and more where those are long for what the pocket disturbs. */
function givenColumns(
  joint: PocketTee,
  plain: PlainColumns,
  { reach, thickness }: PocketSite,
  coarseness: number,
  scale: number,
) {
  const { bendRadius: R, pocket, footLength } = joint;
  const at = pocket.at;
  const longest = (distance: number) => coarseness * (columnOfThickness * thickness + columnGrowth * distance);
  const breaks = [-R - footLength, -R, R, R + footLength];
  const all =
    pocket.in === 'bend'
      ? Array.from(plain.division.rightArc, (angle) => (at - angle) * scale).reverse()
      : pocket.in === 'foot'
        ? Array.from(plain.foot, (s) => R + s - at)
        : skinColumns(joint, plain.division, plain.foot, plain.skirt).map((x) => x - at);
  const fixed = pocket.in === 'skin' ? breaks.map((x) => x - at) : [];
  return {
    right: beyond(all, reach, fixed, longest),
    left: beyond(
      all.map((s) => -s).reverse(),
      reach,
      fixed.map((s) => -s),
      longest,
    ).map((s) => -s),
  };
}

/** The filler, around its channel of known outline if it has one: its cusps in slivers, the rest graded from its border. False where sides come too close to each other. */
function addFiller(
  builder: CubicMeshBuilder,
  R: number,
  { border, division }: SectionCorners,
  zone: number,
  inFiller: ChannelSizes,
): boolean {
  addSlivers(builder, R, division, border, zone);
  const last = division.sliver.length - 1;
  const rim = [
    ...border.base.slice(last, -last),
    ...border.rightArc.slice(last, -last),
    ...border.leftArc.slice(last, -last).reverse(),
  ];
  const places = rim.map((corner) => builder.place(corner));
  const loops: Loop[] = [{ x: places.map(([x]) => x), y: places.map(([, y]) => y) }, ...ringLoops(inFiller)];
  if (encroachedSegments(loops).length > 0) return false;
  // A pocket close by brings columns finer than the filler asks for.
  const besideRim = sizeBeside(loops.slice(0, 1));
  const sizeAt = (x: number, y: number) => Math.min(inFiller.at(x, y), besideRim(x, y));
  const { x, y, triangles } = triangulate(loops, sizeAt);
  const corners = [...rim];
  for (let i = rim.length; i < x.length; i++) corners.push(builder.corner(x[i]!, y[i]!));
  if (inFiller.edges.length > 0) addRings(builder, inFiller, corners[rim.length]!, zone, 'filler-channel');
  for (let t = 0; t < triangles.length; t += 3)
    builder.triangle(corners[triangles[t]!]!, corners[triangles[t + 1]!]!, corners[triangles[t + 2]!]!, zone);
  return true;
}
