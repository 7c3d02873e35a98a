import type { Host, HostSize } from '../../contract.js';
import { controlContour, halfRoom, oneInLens, usualAspect } from '../../laminate/index.js';
import { teeSummary } from '../kind.js';
import { estimateSize } from '../size.js';
import type { Beside } from './beside.js';
import { pocketStrengthAt } from './places.js';
import { reducePocketTee } from './reduce.js';
import { pocketTeeShape } from './shape.js';
import { type PocketSite, type PocketTee, pocketSite } from './site.js';

/** A tee with its channel in a pocket of bend, foot or skin: all in the pocket's frame. */
export function openPocketTee(joint: PocketTee, beside?: Beside, site = pocketSite(joint)): Host {
  const { form, border } = site;
  const isSlot = joint.pocket.form.made === 'cut';
  const [bottom, top] = [form.lower.at(0), form.upper.at(0)];
  const height = top - bottom;
  const middle = (top + bottom) / 2;
  /** Lowest and highest place of the pocket as far from its middle as `half`, in the frame. */
  const heightsUpTo = (half: number): readonly [number, number] => {
    const ends = [form.lower, form.upper].map((side) => site.fold(half, side.at(half))[1]);
    return [Math.min(bottom, ...ends), Math.max(top, ...ends)];
  };
  return {
    kind: 'tee',
    material: joint.pocket.resin,
    border,
    lengthScale: height / 2,
    largestCircle: {
      at: [0, middle],
      radius: height / 2,
      words: {
        name: 'the largest circle that fits the pocket',
        formula: 'half its height',
        more: isSlot ? 'more cut plies' : 'a higher preform or a thicker film',
        inside: `a channel inside the pocket in the ${joint.pocket.in}: ${number(bottom)} < y < ${number(top)} mm in its middle; x along the plies from there, y from the ${joint.pocket.in === 'skin' ? "skin's lower face" : "overlaminate's face to the filler"}`,
      },
    },
    usual: {
      reference: { at: [0, middle], width: 0.5 * height, height: 0.5 * height },
      largest: { width: Math.min(usualAspect * height, 2 * form.halfWidth), height },
    },
    room(wish) {
      const half = halfRoom(form, wish);
      const { wall, edgeRadius, largest, mirror } = wish;
      const [low, high] = heightsUpTo(half);
      const spare = Math.max(0, (height - 2 * wall - (largest?.height ?? Number.POSITIVE_INFINITY)) / 2);
      return { mirror, xMin: -half, xMax: half, yMin: low + wall + spare, yMax: high - wall - spare, edgeRadius };
    },
    wholeRoom({ mirror }) {
      const [low, high] = heightsUpTo(form.halfWidth);
      const half = site.fold(form.halfWidth, bottom)[0];
      return { mirror, xMin: -half, xMax: half, yMin: low, yMax: high, edgeRadius: 0 };
    },
    condensed: true,
    reduce: (wish, onProgress) => reducePocketTee(joint, site, wish, onProgress, beside),
    ...oneInLens(joint.pocket.form),
    size: (wish) => pocketSize(joint, controlContour(site.laminate, wish)),
    judgesSection: true,
    strengthAt: pocketStrengthAt(joint, site),
    tips: {
      at: [-1, 1].flatMap((side) =>
        (isSlot ? [bottom, top] : [form.lower.at(form.halfWidth)]).map((y) => site.fold(side * form.halfWidth, y)),
      ),
      usualDistance: isSlot ? 0.2 * height : 0.1 * form.halfWidth,
      mostDistance: isSlot ? height / 2 : form.halfWidth / 2,
      words: isSlot
        ? { name: 'the corners of the slot', most: 'half its height' }
        : { name: 'the tips of the pocket', most: 'a quarter of its length' },
    },
    get shape() {
      return pocketTeeShape(joint, site);
    },
    get summary() {
      return [...teeSummary(joint), pocketSummary(joint, site)];
    },
  };
}

/** What a channel of known outline brings to both meshes, about. */
export const aroundKnown = { elements: 1500, triangles: 4000 };

/** Both halves, more finely than a tee without, and what goes on from the contour through plies and filler: within a quarter of the meshes that are made. */
function pocketSize(joint: PocketTee, { x }: { readonly x: Float64Array }): HostSize {
  const { elements, triangles } = estimateSize(joint);
  const contour = (x.length - 1) / 2;
  const around = joint.fillerChannel === undefined ? { elements: 0, triangles: 0 } : aroundKnown;
  return {
    elements: 3 * elements + 60 * contour + around.elements,
    contour: 2 * contour,
    finest: 1.5,
    triangles: triangles + around.triangles,
  };
}

const number = (value: number) => String(Number(value.toPrecision(6)));

/** For a brief's summary. */
export function pocketSummary({ pocket, skin, overlaminate }: PocketTee, site: PocketSite): Host['summary'][0] {
  const { form } = pocket;
  const where =
    pocket.in === 'bend'
      ? `right bend at ${number((pocket.at * 180) / Math.PI)} degrees from its foot`
      : `${pocket.in} at ${number(pocket.at)} mm from the middle of the joint`;
  const plies = pocket.in === 'skin' ? skin.length : overlaminate.length;
  const named = (ply: number) => (pocket.in === 'skin' ? plies - ply : ply + 1);
  const height = site.form.upper.at(0) - site.form.lower.at(0);
  const size = `${number(2 * site.form.halfWidth)} by ${number(height)} mm`;
  const cut = form.made === 'cut' ? [named(form.first), named(form.first + form.count - 1)].sort((a, b) => a - b) : [];
  return [
    'pocket',
    form.made === 'cut'
      ? `${where}: cut in plies ${cut[0]} to ${cut[1]}, ${size}`
      : `${where}: draped above ply ${named(form.below - 1)}, ${size}`,
  ];
}
