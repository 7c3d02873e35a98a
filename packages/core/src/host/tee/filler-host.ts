import { InputError } from '../../errors.js';
import type { Host, HostKind, RoomWish } from '../contract.js';
import { contourBorder, teeFillerBorder } from './border.js';
import { usualTipDistance } from './extent.js';
import { teeFamilies, wholeFiller } from './inset.js';
import { liesInFiller, teeKind, teeSummary } from './kind.js';
import { teeStrengthAt } from './places.js';
import { proveTee } from './prove.js';
import { fillerRadius, roundedFiller } from './rounded-filler.js';
import { teeShape } from './shape.js';
import { estimateSize } from './size.js';
import type { TeeJoint } from './tee.js';

/** A web pulled off a skin: the channel lies in the filler between the bends. Knows no pockets: a third of a tee's code. */
export const fillerTeeHost: HostKind<TeeJoint> = {
  ...teeKind,
  part: liesInFiller,
  contour: (data) => {
    const { bendRadius, inset, tipRadius } = data as Readonly<Record<string, number>>;
    return contourBorder(bendRadius!, inset!, tipRadius!);
  },
  open: openFillerTee,
};

function openFillerTee(joint: TeeJoint): Host {
  if (joint.pocket !== undefined)
    throw new InputError({
      path: 'host.pocket',
      expected: 'a tee whose channel lies in its filler',
      received: `a pocket in the ${joint.pocket.in}`,
      remedy:
        'register teeHost and teeBrief, which know pockets, instead of fillerTeeHost and fillerTeeBrief; where hosts come on demand, await loadHost(joint)',
    });
  const { bendRadius: R } = joint;
  const deepest = fillerRadius(R);
  return {
    kind: 'tee',
    material: joint.filler,
    border: teeFillerBorder(R),
    lengthScale: deepest,
    largestCircle: {
      at: [0, deepest],
      radius: deepest,
      words: {
        name: 'the largest circle that fits the filler',
        formula: 'bendRadius / 4',
        more: 'a larger bend radius',
        inside: `a channel inside the filler: 0 < y < ${Number(R.toPrecision(4))} mm between the two bends`,
      },
    },
    usual: { reference: { at: [0, deepest], width: R / 10, height: R / 10 } },
    room({ mirror, wall, edgeRadius }: RoomWish) {
      const { sideX, topY } = roundedFiller(R, wall, wall, edgeRadius, edgeRadius);
      const xMax = sideX + edgeRadius;
      return { mirror, xMin: -xMax, xMax, yMin: wall, yMax: topY + edgeRadius, edgeRadius, families: teeFamilies(R) };
    },
    wholeRoom: ({ mirror }) => wholeFiller(joint, mirror),
    condensed: true,
    reduce: ({ wall, edgeRadius }, onProgress) => proveTee(joint, { wall, edgeRadius, onProgress }),
    size: () => ({ ...estimateSize(joint), finest: 3 }),
    judgesSection: true,
    strengthAt: (point) => teeStrengthAt(joint, point),
    tips: {
      at: [
        [R, 0],
        [0, R],
      ],
      usualDistance: usualTipDistance * R,
      mostDistance: R / 2,
      words: { name: 'the tips of the filler', most: 'half the bend radius' },
    },
    get shape() {
      return teeShape(joint);
    },
    get summary() {
      return teeSummary(joint);
    },
  };
}
