import { layupThickness } from '../../material/index.js';
import type { OutlineRoom } from '../../outline/index.js';
import type { FollowingPocket, Host, HostKind, HostSize, RoomWish } from '../contract.js';
import { tableHeights } from '../height-table.js';
import { type ControlContour, contourBorder, controlContour, halfRoom, usualAspect } from './contour.js';
import { halfLengthAt, type LaminateJoint, type Lens, lensAt } from './laminate.js';
import { laminateElements } from './laminate-mesh.js';
import { laminateLoads } from './loads.js';
import { oneInLens } from './one-channel.js';
import { laminatePlaces, laminateStrengthAt } from './places.js';
import { lensForm, lensSize, type PocketForm, pocketForm, upwards } from './pocket.js';
import { heightPlan, reduceLaminate } from './reduce.js';
import { laminateShape } from './shape.js';

/** A flat laminate: the channel lies in a pocket of resin, a slot cut in plies or a lens that plies drape over. */
export const laminateHost: HostKind<LaminateJoint> = {
  kind: 'laminate',
  name: 'a flat laminate',
  loads: laminateLoads,
  places: laminatePlaces,
  families: [],
  contour: contourBorder,
  open: openLaminate,
};

function openLaminate(joint: LaminateJoint): Host {
  const { pocket } = joint;
  if (pocket.made === 'drape' && pocket.follows !== undefined) return openFollowing(joint, pocket, pocket.follows);
  const form = pocketForm(joint);
  const [bottom, top] = [form.lower.at(0), form.upper.at(0)];
  const height = top - bottom;
  const middle = (top + bottom) / 2;
  const isSlot = pocket.made === 'cut';
  return {
    kind: 'laminate',
    material: joint.resin,
    border: form,
    lengthScale: height / 2,
    largestCircle: {
      at: [0, middle],
      radius: height / 2,
      words: {
        name: 'the largest circle that fits the pocket',
        formula: 'half its height',
        more: isSlot ? 'more cut plies' : 'a higher preform or a thicker film',
        inside: `a channel inside the pocket: ${number(bottom)} < y < ${number(top)} mm in its middle, y from the bottom of the laminate`,
      },
    },
    usual: {
      reference: { at: [0, middle], width: 0.5 * height, height: 0.5 * height },
      largest: { width: Math.min(usualAspect * height, 2 * form.halfWidth), height },
    },
    room: (wish) => roomOf(form, wish),
    wholeRoom: ({ mirror }) => ({
      mirror,
      xMin: -form.halfWidth,
      xMax: form.halfWidth,
      yMin: bottom,
      yMax: top,
      edgeRadius: 0,
    }),
    condensed: true,
    reduce: (wish, onProgress) => reduceLaminate(joint, wish, onProgress),
    ...oneInLens(pocket, 'for one pocket each, number: row; '),
    size: (wish) => laminateSize(joint, controlContour(joint, wish)),
    judgesSection: true,
    strengthAt: laminateStrengthAt(joint, form),
    tips: {
      at: isSlot
        ? [
            [form.halfWidth, bottom],
            [form.halfWidth, top],
          ]
        : [[form.halfWidth, form.lower.at(form.halfWidth)]],
      usualDistance: isSlot ? 0.2 * height : 0.1 * form.halfWidth,
      mostDistance: isSlot ? height / 2 : form.halfWidth / 2,
      words: isSlot
        ? { name: 'the corners of the slot', most: 'half its height' }
        : { name: 'the tips of the pocket', most: 'a quarter of its length' },
    },
    get shape() {
      return laminateShape(joint);
    },
    get summary() {
      return summaryOf(joint, height);
    },
  };
}

/** A laminate whose pocket follows its channel: that of the largest, moved to any other. */
function openFollowing(joint: LaminateJoint, pocket: Lens, { least, most, film }: NonNullable<Lens['follows']>): Host {
  const jointAt = (height: number): LaminateJoint => ({ ...joint, pocket: lensAt(pocket, height) });
  const { usual, ...host } = openLaminate(jointAt(most));
  const { layup } = joint;
  const size = { ...lensSize(layup, lensAt(pocket, most)) };
  const form = lensForm(size, layupThickness(layup), pocket.faces);
  const { level } = size;
  const isFlat = pocket.faces === 'both-flat';
  const channels = [least - 2 * film, most - 2 * film] as const;
  const channel = Math.min(most, Math.max(least, pocket.height)) - 2 * film;
  const follows: FollowingPocket = {
    range: [least, most],
    channels,
    heightFor(bottom, top) {
      const wanted = isFlat ? 2 * Math.max(top - level, level - bottom) + 2 * film : top - level + film;
      return Math.min(most, Math.max(least, wanted));
    },
    moveTo(height) {
      size.up = upwards(pocket.faces, height);
      size.down = height - size.up;
      size.halfLength = halfLengthAt(pocket, height);
    },
    jointAt,
    plan: (wish) => heightPlan(joint, wish),
  };
  const within = ({ mirror, xMin, xMax, edgeRadius }: OutlineRoom): OutlineRoom => {
    const [yMin, yMax] = isFlat
      ? [level - channels[1] / 2, level + channels[1] / 2]
      : [level + film, level + most - film];
    return { mirror, xMin, xMax, yMin, yMax, edgeRadius, stands: isFlat ? { about: level } : { on: level + film } };
  };
  return {
    ...host,
    border: form,
    strengthAt: laminateStrengthAt(joint, form),
    usual: {
      ...usual,
      reference: {
        at: [0, isFlat ? level : level + film + channel / 2],
        width: channel,
        height: channel,
      },
    },
    room: (wish) => within(host.room(wish)),
    wholeRoom: (wish) => within(host.wholeRoom(wish)),
    reduce: (wish, onProgress) => reduceLaminate(joint, wish, onProgress),
    size: (wish) => ({ ...host.size!(wish), models: tableHeights([least, most]).length }),
    follows,
    get summary() {
      const [lowest, highest] = channels.map(number);
      const of = summaryOf(jointAt(pocket.height), pocket.height);
      return of.map(([label, text]): readonly [string, string] => [
        label,
        label === 'pocket'
          ? `draped above ply ${pocket.below}, as high as its channel (${lowest} to ${highest} mm) and ${number(film)} mm of resin above and below`
          : text,
      ]);
    },
  };
}

/** Triangles within a third of the meshes that are made. */
function laminateSize(joint: LaminateJoint, contour: ControlContour): HostSize {
  const { layup, width } = joint;
  const columns = width / (0.45 * layupThickness(layup)) + 40;
  return {
    elements: laminateElements(joint, contour),
    contour: (contour.x.length - 1) / 2,
    finest: 1,
    triangles: Math.round(2000 + 2 * (layup.length + 6) * columns),
  };
}

function roomOf(form: PocketForm, wish: RoomWish) {
  const half = halfRoom(form, wish);
  const { wall, edgeRadius, largest, mirror } = wish;
  const [bottom, top] = [form.lower.at(0) + wall, form.upper.at(0) - wall];
  const spare = Math.max(0, (top - bottom - (largest?.height ?? Number.POSITIVE_INFINITY)) / 2);
  return { mirror, xMin: -half, xMax: half, yMin: bottom + spare, yMax: top - spare, edgeRadius };
}

const number = (value: number) => String(Number(value.toPrecision(6)));

function summaryOf({ layup, width, ends, pocket, row }: LaminateJoint, height: number): Host['summary'] {
  const angles = layup.map((layer) => layer.angle).join(', ');
  return [
    [
      'joint',
      row
        ? `flat laminate, ${ends} ends far away, an endless row of pockets every ${number(width)} mm`
        : `flat laminate, ${number(width)} mm wide, ${ends} ends`,
    ],
    ['layup', `${number(layupThickness(layup))} mm from the bottom up, [${angles}]`],
    [
      'pocket',
      pocket.made === 'cut'
        ? `cut in plies ${pocket.first + 1} to ${pocket.first + pocket.count}, ${number(2 * pocket.halfWidth)} by ${number(height)} mm`
        : `draped above ply ${pocket.below}, ${number(2 * pocket.halfLength)} by ${number(height)} mm,${pocket.flat === undefined ? '' : ` level over ${number(2 * pocket.flat)} mm,`} ${pocket.faces === 'both-flat' ? 'both faces' : 'bottom face'} flat`,
    ],
  ];
}
