import { InputError } from '../errors.js';
import {
  cureLoad,
  type Host,
  hostOf,
  type Joint,
  type LoadCase,
  type Loads,
  modelBorder,
  type ReducedModel,
} from '../host/index.js';
import { actingLoads, caseFactors, type SolvedEdge } from '../stress/index.js';
import { type SplitCase, splitCase } from './case-split.js';
import { type ChannelStress, createChannelStress } from './channel-stress.js';
import { createDistanceStrength } from './distance-strength.js';
import { createPeakStrength, type EdgeStrength } from './edge-strength.js';
import { clearFailure, createFailure, type FirstFailure } from './first-failure.js';
import { createInnerFiller } from './inner-filler.js';
import { createInverseFactors, type InverseFactors, type InverseTerm } from './inverse-factors.js';
import type { FailurePlace } from './place-strengths.js';
import { createSectionStrength } from './section-strength.js';

/** How strength is judged. */
export interface StrengthOptions {
  /** The edge by its peak, or by the tension at (or averaged over) a characteristic distance, mm. */
  readonly edge: 'peak' | { readonly distance: number; readonly average?: boolean };
  /** Points nearer to one of the host's tips are not judged, mm. Default: the host's own. */
  readonly cuspDistance?: number;
}

/** One case: load factor to first failure, where it starts, and the share of the strength without channel. */
export interface CaseStrength extends FirstFailure {
  readonly name: string;
  /**
   * `loads`: cure is a fixed pre-stress and everything else is scaled. `cure`: a case of cure alone, which is scaled itself; below 1 the
   * joint fails before any load comes.
   */
  readonly scales: 'loads' | 'cure';
  /** Load factor over that without channel; 0 where that is 0, NaN where nothing fails without channel (a pressure needs one). */
  retained: number;
}

/** The whole joint. Overwritten by the next evaluation of the same model. */
export interface JointStrength {
  readonly cases: readonly CaseStrength[];
  /**
   * Least load factor of the cases that scale loads (of all, where none does); 0 where a case of cure alone has a factor below 1.
   * NaN where the edge equation had no solution.
   */
  loadFactor: number;
  /** Least strength retained over the same cases, 0 and NaN as above; Infinity where no case fails without channel. */
  retained: number;
  /** Index of the case with the least load factor, where its failure starts, mm. */
  worstCase: number;
  place: FailurePlace | 'none';
  x: number;
  y: number;
}

/** Strength of one joint under given loads and cases, with any channel: no solve, only linear maps of the edge's moments. */
export interface StrengthModel {
  /** The joint without channel, once for all. */
  readonly withoutChannel: JointStrength;
  /** Strength with a channel that a stress model of the same loads and cases has solved. Allocates nothing. */
  evaluate(edge: SolvedEdge): JointStrength;
  /**
   * First failure of every place that can fail, case by case: for reports. `scaling: 'all'` scales the cure with the loads, as
   * fatigue needs it.
   */
  survey(edge: SolvedEdge, scaling?: 'loads' | 'all'): readonly CaseSurvey[];
  surveyWithoutChannel(scaling?: 'loads' | 'all'): readonly CaseSurvey[];
  /** What a descent lowers to raise the load factors of some cases; `write` tells of the outline that `evaluate` took last. */
  inverseFactors(terms: readonly InverseTerm[]): InverseFactors;
}

/** One case: load factor at which each place fails first, and where. Places that no load factor makes fail are left out. */
export interface CaseSurvey {
  readonly name: string;
  readonly places: readonly {
    readonly place: FailurePlace;
    readonly factor: number;
    readonly x: number;
    readonly y: number;
  }[];
}

/**
 * Makes the strength model of a joint. Judged are: the channel's edge and the filler, by tension; the filler's interfaces, bend, foot, web and skin, by the
 * quadratic criterion of delamination onset. Throws InputError for loads or cases that the model does not know.
 */
export function createStrengthModel(
  model: ReducedModel,
  joint: Joint,
  loads: Loads,
  cases: readonly LoadCase[],
  options: StrengthOptions,
): StrengthModel {
  const acting = actingLoads(model, loads);
  const names = acting.map(({ name }) => name);
  const splits = cases.map((one) => splitCase(caseFactors(one, names), names.indexOf(cureLoad.name)));
  const host = hostOf(joint);
  const keep = awayFromTips(host, options.cuspDistance);
  const strength = host.material.transverseTension;
  const filler = createInnerFiller(model, strength, acting);
  const channel = createChannelStress(model, acting);
  const section = createSectionStrength(model, host, acting, channel, keep);
  const edge = createEdge(model, channel, acting, strength, options.edge);

  const result = (): JointStrength => ({
    cases: cases.map(({ name }, c) => ({ ...createFailure(), name, scales: splits[c]!.scales, retained: 1 })),
    loadFactor: Number.NaN,
    retained: 1,
    worstCase: 0,
    place: 'none',
    x: Number.NaN,
    y: Number.NaN,
  });
  const withoutChannel = result();
  const symmetric = acting.every((load) => load.symmetric);
  section.take(undefined, symmetric);
  withoutChannel.cases.forEach((first, c) => {
    const { fixed, scaled } = splits[c]!;
    section.judge(fixed, scaled, first);
    filler.judgeUndisturbed(fixed, scaled, first);
  });
  conclude(withoutChannel);
  const withChannel = result();
  const places: readonly FailurePlace[] = ['edge', ...section.places];
  const solved: { edge: SolvedEdge | undefined; seen: number } = { edge: undefined, seen: 0 };
  const take = (outline: SolvedEdge) => {
    const { nodes, mirror, moments } = outline;
    solved.edge = outline;
    solved.seen = mirror ? nodes.count / 2 : nodes.count;
    channel.take(outline);
    edge.take(outline);
    section.take(moments, mirror, edge.covers);
  };
  const nothing = new Float64Array(acting.length);
  const wholes = cases.map((one) => ({ fixed: nothing, scaled: caseFactors(one, names) }));
  /** First failure of every place, case by case. */
  const survey = (
    scaling: 'loads' | 'all',
    judge: (split: Pick<SplitCase, 'fixed' | 'scaled'>, place: FailurePlace, first: FirstFailure) => void,
  ) =>
    cases.map(({ name }, c) => {
      const found = places.map((place) => {
        const first = createFailure();
        judge(scaling === 'all' ? wholes[c]! : splits[c]!, place, first);
        return { ...first, place };
      });
      return { name, places: found.filter(({ factor }) => factor < Number.POSITIVE_INFINITY) };
    });

  return {
    withoutChannel,
    evaluate(outline) {
      take(outline);
      for (let c = 0; c < splits.length; c++) {
        const first = withChannel.cases[c]!;
        const { fixed, scaled, holds } = splits[c]!;
        clearFailure(first);
        edge.judge(fixed, scaled, first, holds ? undefined : outline.cases[c]);
        section.judge(fixed, scaled, first);
        first.retained = share(first.factor, withoutChannel.cases[c]!.factor);
      }
      conclude(withChannel);
      if (!Number.isFinite(outline.worst)) forget(withChannel);
      return withChannel;
    },
    survey(outline, scaling = 'loads') {
      take(outline);
      return survey(scaling, ({ fixed, scaled }, place, first) => {
        if (place === 'edge') edge.judge(fixed, scaled, first);
        else section.judge(fixed, scaled, first, place);
      });
    },
    surveyWithoutChannel(scaling = 'loads') {
      section.take(undefined, symmetric);
      return survey(scaling, ({ fixed, scaled }, place, first) => {
        if (place === 'edge') return;
        section.judge(fixed, scaled, first, place);
        if (place === 'filler') filler.judgeUndisturbed(fixed, scaled, first);
      });
    },
    inverseFactors: (terms) => createInverseFactors(terms, splits, edge, section, solved),
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
  acting: ReturnType<typeof actingLoads>,
  strength: number,
  edge: StrengthOptions['edge'],
): EdgeStrength {
  if (edge === 'peak')
    return createPeakStrength(
      strength,
      model.basis.length,
      acting.map(({ offset }) => offset),
    );
  const { distance, average = false } = edge;
  if (!(distance > 0 && Number.isFinite(distance)))
    throw new InputError({
      path: 'strength.edge.distance',
      expected: 'a distance above 0 mm',
      received: String(distance),
      remedy: "correct it, or take edge: 'peak'",
    });
  const contour = model.contour && modelBorder(model);
  return createDistanceStrength(channel, acting.length, strength, distance, average, contour);
}

function share(factor: number, without: number): number {
  if (without === 0) return 0;
  return without === Number.POSITIVE_INFINITY ? Number.NaN : factor / without;
}

/** The edge equation had no solution. */
function forget(strength: JointStrength): void {
  for (const one of strength.cases) {
    one.factor = Number.NaN;
    one.retained = Number.NaN;
    one.place = 'none';
  }
  strength.loadFactor = Number.NaN;
  strength.retained = Number.NaN;
  strength.place = 'none';
}

/** Draws the joint's numbers from its cases. */
function conclude(strength: JointStrength): void {
  const { cases } = strength;
  let scalesLoads = false;
  let failsCured = false;
  for (const one of cases) {
    if (one.scales === 'loads') scalesLoads = true;
    else if (one.factor < 1) failsCured = true;
  }
  failsCured &&= scalesLoads;
  strength.loadFactor = Number.POSITIVE_INFINITY;
  strength.retained = Number.POSITIVE_INFINITY;
  strength.worstCase = 0;
  for (let c = 0; c < cases.length; c++) {
    const one = cases[c]!;
    if (scalesLoads && one.scales === 'cure' && !(one.factor < 1)) continue;
    if (one.retained < strength.retained) strength.retained = one.retained;
    const factor = scalesLoads && one.scales === 'cure' ? 0 : one.factor;
    if (factor >= strength.loadFactor) continue;
    strength.loadFactor = factor;
    strength.worstCase = c;
  }
  if (failsCured) strength.retained = 0;
  const worst = cases[strength.worstCase]!;
  strength.place = worst.place;
  strength.x = worst.x;
  strength.y = worst.y;
}
