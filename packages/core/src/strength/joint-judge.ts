import { InputError } from '../errors.js';
import {
  aroundChannel,
  type Host,
  hostOf,
  isInterface,
  isMirrored,
  type Joint,
  modelBorder,
  type ReducedModel,
} from '../host/index.js';
import type { ActingLoad, SolvedEdge } from '../stress/index.js';
import { mirroredCase, type SplitCase } from './case-split.js';
import { type ChannelStress, createChannelStress } from './channel-stress.js';
import { type CharacteristicDistance, createDistanceStrength } from './distance-strength.js';
import { createPeakStrength, type EdgeStrength } from './edge-strength.js';
import { clearFailure, copyFailure, createFailure, type FirstFailure } from './first-failure.js';
import { createInnerFiller } from './inner-filler.js';
import type { FailurePlace } from './place-strengths.js';
import { createSectionStrength, type SectionStrength } from './section-strength.js';

/** How strength is judged. */
export interface StrengthOptions {
  /** The edge by its peak, or by the tension at (or averaged over) a characteristic distance, mm. */
  readonly edge: 'peak' | CharacteristicDistance;
  /** Points nearer to one of the host's tips are not judged, mm. Default: the host's own. */
  readonly cuspDistance?: number;
  /** Every place was repaired, and bears no more since. */
  readonly healed?: Healed;
}

/** What an agent bears, MPa, by itself and at interfaces of the joint; where the sound place bore less, that counts. */
export interface Healed {
  readonly tension: number;
  readonly shear: number;
  readonly bond: { readonly tension: number; readonly shear: number };
}

/** What is judged: until the first failure is known, or every place by itself, which takes longer. */
export type StrengthDetail = 'first' | 'places';

/** First failure of one case and, for the detail 'places', of every place in it. */
interface CaseFailure extends FirstFailure {
  readonly places: readonly FirstFailure[];
}

/** All that judges a joint, case by case. */
export interface JointJudge {
  /** The places that can fail, the edge first. */
  readonly places: readonly FailurePlace[];
  /** One for each channel that the outline which was taken last stands for (`SolvedEdge.each`). */
  readonly edges: readonly EdgeStrength[];
  readonly section: SectionStrength;
  /** Takes a channel, or none: edge and section tell of it until the next. */
  take(outline: SolvedEdge | undefined): void;
  /** What the image of a channel on the left bears in a case, as a case of the right one. */
  mirrored(split: SplitCase): SplitCase;
  /** With a channel, or without. Its edge's own failure is told for either detail. */
  judge(
    splits: readonly SplitCase[],
    outline: SolvedEdge | undefined,
    detail: StrengthDetail,
    out: readonly CaseFailure[],
  ): void;
}

/** A host whose places bear no more than what heals them. */
function withHealed(host: Host, healed: Healed | undefined): Host {
  if (healed === undefined) return host;
  // A criterion that does not apply there has no strength to be lowered.
  const least = (own: number, given: number) => (Number.isFinite(own) ? Math.min(own, given) : own);
  return {
    ...host,
    strengthAt(point) {
      const strength = host.strengthAt(point);
      const { tension, shear } = isInterface(host.kind, point.place) ? healed.bond : healed;
      return {
        ...strength,
        tension: least(strength.tension, tension),
        shear: least(strength.shear, shear),
        principal: least(strength.principal, healed.tension),
      };
    },
  };
}

export function createJointJudge(
  model: ReducedModel,
  joint: Joint,
  acting: readonly ActingLoad[],
  options: StrengthOptions,
): JointJudge {
  const symmetric = acting.every((load) => load.symmetric);
  const host = withHealed(hostOf(joint), options.healed);
  const { transverseTension } = host.material;
  const strength = Math.min(transverseTension, options.healed?.tension ?? Number.POSITIVE_INFINITY);
  const filler = createInnerFiller(model, strength, acting);
  const channel = createChannelStress(model, acting);
  const section = createSectionStrength(model, host, acting, awayFromTips(host, options.cuspDistance));
  const createdEdge = () => createEdge(model, channel, acting, strength, options.edge);
  const edges = [createdEdge()];
  const places: readonly FailurePlace[] = ['edge', ...section.places];

  const take = (outline: SolvedEdge | undefined): void => {
    if (outline === undefined) {
      section.take(undefined, symmetric);
      return;
    }
    channel.take(outline);
    while (edges.length < outline.each.length) edges.push(createdEdge());
    edges.length = outline.each.length;
    outline.each.forEach((one, k) => {
      edges[k]!.take(one);
    });
    section.take(outline, outline.mirror || (outline.several && symmetric), edges[0]!.covers);
  };

  const odd = acting.map((load) => !load.symmetric);
  const onLeft = createFailure();
  const images = new WeakMap<SplitCase, SplitCase>();
  const mirrored = (split: SplitCase): SplitCase => {
    const known = images.get(split) ?? mirroredCase(split, odd);
    images.set(split, known);
    return known;
  };
  /** Of several channels under loads that are not symmetric, the edges on the left too. */
  const judgeEdge = (split: SplitCase, outline: SolvedEdge, loadCase: number, first: FirstFailure): void => {
    for (let k = 0; k < outline.each.length; k++) {
      edges[k]!.judge(split, first, outline.each.length === 1 ? outline.cases[loadCase] : undefined);
      if (!outline.each[k]!.bothSides) continue;
      clearFailure(onLeft);
      edges[k]!.judge(mirrored(split), onLeft, undefined);
      onLeft.x = -onLeft.x;
      if (onLeft.factor < first.factor) copyFailure(onLeft, first);
    }
  };

  const judgeCase = (split: SplitCase, withChannel: boolean, detail: StrengthDetail, one: CaseFailure): void => {
    for (let p = 1; detail === 'places' && p < places.length; p++) {
      const first = one.places[p]!;
      clearFailure(first);
      section.judge(split, first, places[p]!);
      if (!withChannel && places[p] === aroundChannel) filler.judgeUndisturbed(split, first);
      if (first.factor < one.factor) copyFailure(first, one);
    }
    if (detail === 'places') return;
    section.judge(split, one);
    if (!withChannel) filler.judgeUndisturbed(split, one);
  };

  return {
    places,
    edges,
    section,
    take,
    mirrored,
    judge(splits, outline, detail, out) {
      take(outline);
      for (let c = 0; c < splits.length; c++) {
        const split = splits[c]!;
        const one = out[c]!;
        const [atEdge] = one.places as readonly [FirstFailure];
        clearFailure(atEdge);
        if (outline !== undefined) judgeEdge(split, outline, c, atEdge);
        copyFailure(atEdge, one);
        judgeCase(split, outline !== undefined, detail, one);
      }
    },
  };
}

/** The distance from the host's tips within which nothing is judged, mm; 0 where it has none. */
export function cuspDistanceOf(joint: Joint, wanted: number | undefined): number {
  return distanceOf(hostOf(joint), wanted);
}

function distanceOf({ tips }: Host, wanted: number | undefined): number {
  const distance = wanted ?? tips?.usualDistance ?? 0;
  if (!(distance >= 0))
    throw new InputError({
      path: 'strength.cuspDistance',
      expected: 'a distance of 0 mm or more',
      received: String(distance),
      remedy: 'correct it or leave it out',
    });
  return distance;
}

/** Whether a place lies so far from the host's tips that it is judged. */
export function awayFromTips(host: Host, wanted: number | undefined): (x: number, y: number) => boolean {
  const distance = distanceOf(host, wanted);
  const tips = host.tips?.at ?? [];
  return (x, y) => tips.every(([tipX, tipY]) => Math.hypot(x - tipX, y - tipY) >= distance);
}

function createEdge(
  model: ReducedModel,
  channel: ChannelStress,
  acting: readonly ActingLoad[],
  strength: number,
  edge: StrengthOptions['edge'],
): EdgeStrength {
  if (edge === 'peak')
    return createPeakStrength(
      strength,
      model.basis.length,
      acting.map(({ offset }) => offset),
    );
  const { distance } = edge;
  if (!(distance > 0 && Number.isFinite(distance)))
    throw new InputError({
      path: 'strength.edge.distance',
      expected: 'a distance above 0 mm',
      received: String(distance),
      remedy: "correct it, or take edge: 'peak'",
    });
  const contour = model.contour && modelBorder(model);
  const mirrored = isMirrored(model);
  const loads = acting.map(({ symmetric, mixed }) => (!mirrored || mixed ? 0 : symmetric ? 1 : -1));
  return createDistanceStrength(edge, channel, loads, strength, contour);
}
