import { plyBorders } from '../../laminate/index.js';
import {
  boxAround,
  type HostShape,
  type ShapeLayer,
  type ShapePart,
  type ShapePath,
  type ShapePoint,
} from '../../shape.js';
import { fillerRadius } from '../rounded-filler.js';
import { teeShape } from '../shape.js';
import type { PocketSite, PocketTee } from './site.js';

/** Points along half a pocket, and round a bend. */
const steps = 32;

/** What pictures and drawings show of a tee with a pocket, in the pocket's frame. */
export function pocketTeeShape(joint: PocketTee, site: PocketSite): HostShape {
  const { form } = site;
  const { pocket } = joint;
  const a = form.halfWidth;
  const plain = teeShape(joint);
  const { toFrame } = site;
  const moved = (path: ShapePath): ShapePath => ({
    from: toFrame(...path.from),
    steps: path.steps.map((step) => ({ ...step, to: toFrame(...step.to) })),
  });
  const inside = Array.from({ length: 2 * steps + 1 }, (_, k) => a * Math.sin((Math.PI / 2) * (k / steps - 1)));
  const on = (side: typeof form.lower, s: number): ShapePoint => site.fold(s, side.at(s));
  const room = closed([...inside.map((s) => on(form.lower, s)), ...inside.toReversed().map((s) => on(form.upper, s))]);
  const roomBox = boxAround([room.from, ...room.steps.map(({ to }) => to)]);
  const [width, height] = [roomBox.xMax - roomBox.xMin, roomBox.yMax - roomBox.yMin];
  // Layers of the overlaminates stand first, right and left by turns, then those of the skin.
  const count = joint.overlaminate.length;
  const own = pocketedLayers(joint, site, inside);
  const layers = plain.layers.flatMap((layer, k): ShapeLayer[] => {
    const isSkin = k >= 2 * count;
    const number = isSkin ? k - 2 * count : k >> 1;
    const isOwn = pocket.in === 'skin' ? isSkin : !isSkin && k % 2 === 0;
    return isOwn ? own[number]! : [{ ...layer, path: moved(layer.path) }];
  });
  const opening = joint.fillerChannel && moved(closed(joint.fillerChannel));
  return {
    room,
    roomName: 'pocket',
    ...(opening === undefined ? {} : { openings: [opening] }),
    roomBox,
    // The filler's fibres run along the channel.
    layers: [...layers, { path: moved(plain.room), angle: 90 }],
    parts: [
      ...(plain.parts ?? []).map(
        ({ name, path, nameAt }): ShapePart => ({ name, path: moved(path), nameAt: toFrame(...nameAt) }),
      ),
      { name: 'filler', path: moved(plain.room), nameAt: toFrame(0, fillerRadius(joint.bendRadius)) },
      ...(opening === undefined ? [] : [{ name: 'channel in the filler', path: opening, nameAt: opening.from }]),
    ],
    lines: { layer: 'PLIES', arcs: [], straight: plyLines(site, inside) },
    frame: { at: site.toJoint(0, 0), turn: site.turn, whole: plain.whole },
    whole: boxAround(
      [
        [plain.whole.xMin, plain.whole.yMin],
        [plain.whole.xMin, plain.whole.yMax],
        [plain.whole.xMax, plain.whole.yMin],
        [plain.whole.xMax, plain.whole.yMax],
      ].map(([x, y]) => toFrame(x!, y!)),
    ),
    closeUp: {
      xMin: roomBox.xMin - 0.1 * width,
      xMax: roomBox.xMax + 0.1 * width,
      yMin: roomBox.yMin - 0.6 * height,
      yMax: roomBox.yMax + 0.6 * height,
    },
  };
}

/** The plies of the laminate that holds the pocket, as the joint counts, each in one piece or cut in two. */
function pocketedLayers(joint: PocketTee, site: PocketSite, inside: readonly number[]): ShapeLayer[][] {
  const { laminate, form, layerOf } = site;
  const { layup, pocket } = laminate;
  const borders = plyBorders(layup);
  const a = form.halfWidth;
  const layers: ShapeLayer[][] = layup.map(() => []);
  layup.forEach(({ angle }, ply) => {
    const isAbove = ply >= (pocket.made === 'drape' ? pocket.below : pocket.first);
    const isCut = pocket.made === 'cut' && isAbove && ply < pocket.first + pocket.count;
    const border = (level: number, from: number, to: number) =>
      run(joint, site, pocket.made === 'drape' ? inside : [-a, a], (s) => form.place(s, level, isAbove)).filter(
        ({ s }) => s >= from && s <= to,
      );
    const piece = (from: number, to: number): ShapeLayer => {
      const [bottom, top] = [border(borders[ply]!, from, to), border(borders[ply + 1]!, from, to)];
      return { path: closed([...bottom, ...top.toReversed()].map(({ at }) => at)), angle };
    };
    layers[layerOf(ply)] = isCut
      ? [piece(Number.NEGATIVE_INFINITY, -a), piece(a, Number.POSITIVE_INFINITY)]
      : [piece(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY)];
  });
  return layers;
}

/** Points of a line through the whole laminate that holds the pocket, at a height over its bottom face; `s`: along it at the pocket. */
function run(
  { bendRadius: R, webHeight, footLength, skinHalfSpan, pocket }: PocketTee,
  site: PocketSite,
  inside: readonly number[],
  height: (s: number) => number,
): { readonly s: number; readonly at: ShapePoint }[] {
  const point = (s: number) => ({ s, at: site.fold(s, height(s)) });
  const inJoint = (s: number, x: number, y: number) => ({ s, at: site.toFrame(x, y) });
  if (pocket.in === 'skin') return [-skinHalfSpan - pocket.at, ...sorted(inside), skinHalfSpan - pocket.at].map(point);
  const far = height(Number.POSITIVE_INFINITY);
  const angles = Array.from({ length: steps + 1 }, (_, k) => (Math.PI / 2) * (1 - k / steps));
  const web = (s: number) => inJoint(s, far, R + webHeight);
  if (pocket.in === 'foot') {
    const bend = angles.map((angle) =>
      inJoint(R - pocket.at - angle * R, R - (R - far) * Math.sin(angle), R - (R - far) * Math.cos(angle)),
    );
    return [web(Number.NEGATIVE_INFINITY), ...bend, ...[...sorted(inside), R + footLength - pocket.at].map(point)];
  }
  const { radius, level } = site.roll!;
  const along = angles.map((angle) => (pocket.at - angle) * (radius - level));
  return [
    web(Number.NEGATIVE_INFINITY),
    ...sorted([...along, ...inside]).map(point),
    inJoint(Number.POSITIVE_INFINITY, R + footLength, far),
  ];
}

const sorted = (values: readonly number[]) => values.toSorted((p, q) => p - q);

/** Borders of the plies next to the pocket, a little beyond it. */
function plyLines({ laminate, form, fold }: PocketSite, inside: readonly number[]) {
  const { layup, pocket } = laminate;
  const borders = plyBorders(layup);
  const [lowest, highest] =
    pocket.made === 'drape'
      ? [pocket.below - 1, pocket.below + 1]
      : [pocket.first - 1, pocket.first + pocket.count + 1];
  const view = 1.15 * form.halfWidth;
  return borders.flatMap((level, k) => {
    if (k < lowest || k > highest) return [];
    const isAbove = k >= (pocket.made === 'drape' ? pocket.below : pocket.first);
    const points = [-view, ...inside, view].map((s) => fold(s, form.place(s, level, isAbove)));
    return points.slice(1).map((to, i) => [points[i]!, to] as const);
  });
}

export function closed([from, ...rest]: readonly ShapePoint[]): ShapePath {
  return { from: from!, steps: rest.map((to) => ({ to })) };
}
