import { power } from '@lumenfront/core';
import type { Refined, Sized } from './refined.js';

/** Neighbours of a front differ in cost by about this share, more where that makes too many… */
const leastStep = 0.006;
const mostSteps = 115;
/** …and no nearer in size than where the cost rises by so many times its amount over the front's whole size: near the largest channel, where nothing but walls stand, that is all it does. */
const steepest = 5;
/** Designs of a front nearer to each other than this share of a step are as good as one. */
const apart = 0.7;
/** …of which one in so many has slopes of its own, and those on both sides of it are foretold. */
export const group = 5;
export const reach = 2;

/** Neighbours of a front, and the steps in which the gap between them is filled: each larger than the one before by `share`. */
export interface Gap {
  readonly below: Refined;
  readonly above: Refined;
  readonly parts: number;
  readonly share: number;
  /** Steps of the front, as a share of the cost. */
  readonly step: number;
}

/** How far apart two designs of a front are, as a share of the cost. */
export const lengthOf = (front: readonly Sized[]) => {
  const whole = front.at(-1)!.size;
  return (below: Sized, above: Sized): number =>
    Math.min(Math.log(above.cost / below.cost), (steepest * (above.size - below.size)) / whole);
};

/** How far along a front its designs lie, from its smallest one. */
export function lengthsAlong(front: readonly Sized[]): number[] {
  const length = lengthOf(front);
  let sum = 0;
  return front.map((design, k) => {
    if (k > 0) sum += length(front[k - 1]!, design);
    return sum;
  });
}

/** Share of the cost by which neighbours are to differ. */
function stepOf(front: readonly Sized[]): number {
  return Math.max(leastStep, lengthsAlong(front).at(-1)! / mostSteps);
}

export function gapsOf(front: readonly Refined[]): Gap[] {
  if (front.length === 0) return [];
  const length = lengthOf(front);
  const step = stepOf(front);
  return front.slice(1).map((above, k) => {
    const below = front[k]!;
    const parts = Math.max(1, Math.floor(length(below, above) / step));
    return { below, above, parts, share: power(above.size / below.size, 1 / parts) - 1, step };
  });
}

/** At the end a front is filled so much more finely than by its steps. */
const fineness = 3;

/** Shares by which sizes lie beside that of a design, from whose slopes outlines of these sizes are to be foretold. */
export interface Beside {
  readonly from: Refined;
  readonly shares: readonly number[];
}

/** Sizes between the neighbours of a front, each beside the middles of the groups on both sides of it: either may hold the better shape. */
export function between(front: readonly Refined[]): Beside[] {
  const groups = groupsOf(front, false);
  const middles = groups.map((members) => ({ from: members[members.length >> 1]!, shares: [] as number[] }));
  const length = lengthOf(front);
  const step = stepOf(front) / fineness;
  for (const [k, above] of front.slice(1).entries()) {
    const below = front[k]!;
    const parts = Math.round(length(below, above) / step);
    for (let part = 1; part < parts; part++) {
      const size = below.size * power(above.size / below.size, part / parts);
      const next = middles.findIndex(({ from }) => from.size >= size);
      for (const { from, shares } of middles.slice(Math.max(0, next - 1), next + 1)) {
        const share = size / from.size - 1;
        if (Math.abs(share) < foreseen) shares.push(share);
      }
    }
  }
  return middles.filter(({ shares }) => shares.length > 0);
}

/** Designs of a front that differ by about a step, both ends among them. */
function apartInCost(front: readonly Refined[]): Refined[] {
  if (front.length === 0) return [];
  const length = lengthOf(front);
  const least = apart * stepOf(front);
  let last: Refined | undefined;
  return front.filter((design, k) => {
    if (last !== undefined && length(last, design) < least && k < front.length - 1) return false;
    last = design;
    return true;
  });
}

/** Areas to be descended to one after the other, and shares by which others lie beside each of them. */
export interface Way {
  readonly areas: readonly number[];
  readonly beside: readonly (readonly number[])[];
  /** Whether its areas are too far from each other for slopes to foretell what lies between. */
  readonly farApart: boolean;
}

/** Change of the area, as a logarithm, that slopes foretell, the less the better: beyond, an outline has to be descended to. */
const foreseen = 0.06;
const foreseenWell = 0.04;
/** How many neighbours on either side are foretold. */
const reachOf = ({ share }: Gap): number => Math.min(reach, Math.floor(foreseen / Math.log(1 + share)));

/**
 * From a design through the gap `ahead`: its neighbours on both sides are foretold from the slopes there, then it is followed into the gap, one set of slopes to every
 * group, as far as the neighbours of the design on the other side.
 */
export function wayThrough({ size }: Refined, way: 1 | -1, ahead: Gap | undefined, behind: Gap | undefined): Way {
  const own: number[] = [];
  const [reachAhead, reachBehind] = [ahead, behind].map((gap) => (gap === undefined ? 0 : reachOf(gap))) as [
    number,
    number,
  ];
  for (let k = 1; k <= reach; k++) {
    // Neighbours of the other side reach into the gap as well.
    if (k <= reachBehind && k < behind!.parts / 2) own.push(power(1 + behind!.share, -way * k) - 1);
    if (k <= reachAhead && k < ahead!.parts && k <= ahead!.parts / 2) own.push(power(1 + ahead!.share, way * k) - 1);
  }
  const between = Math.max(0, (ahead?.parts ?? 1) - 1 - 2 * reachAhead);
  const groups = Math.ceil(between / (2 * reachAhead + 1));
  const share = ahead?.share ?? 0;
  const areas = [size];
  const beside = [own];
  for (let g = 0; g < groups; g++) {
    // Those between, shared out evenly among the groups.
    const [first, end] = [Math.round((g * between) / groups), Math.round(((g + 1) * between) / groups)];
    const middle = first + (end - 1 - first) / 2;
    const from = Math.floor(middle);
    areas.push(size * power(1 + share, way * (reachAhead + 1 + from)));
    beside.push(
      Array.from({ length: end - first }, (_, k) => way * (first + k - from))
        .filter((steps) => steps !== 0)
        .map((steps) => power(1 + share, steps) - 1),
    );
  }
  return { areas, beside, farApart: groups > 0 && reachAhead === 0 };
}

/** Designs of a front in groups of which the middle one foretells the others; with `shifted`, the middle ones lie where groups end without it. */
export function groupsOf(front: readonly Refined[], shifted: boolean): (readonly Refined[])[] {
  const groups: Refined[][] = [];
  for (const one of apartInCost(front)) {
    const last = groups.at(-1);
    const most = shifted && groups.length === 1 ? reach : group;
    if (last !== undefined && last.length < most && Math.log(one.size / last[0]!.size) < 2 * foreseenWell)
      last.push(one);
    else groups.push([one]);
  }
  return groups;
}
