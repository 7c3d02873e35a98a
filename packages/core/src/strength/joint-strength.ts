import { InputError } from '../errors.js';
import { cureLoad, type Joint, type LoadCase, type Loads, type ReducedModel } from '../host/index.js';
import { actingLoads, caseFactors, type SolvedEdge } from '../stress/index.js';
import { type SplitCase, splitCase, wholeCase, withCure } from './case-split.js';
import { clearFailure, createFailure, type FailureCriterion, type FirstFailure } from './first-failure.js';
import { createJointJudge, type JointJudge, type StrengthDetail, type StrengthOptions } from './joint-judge.js';
import type { FailurePlace } from './place-strengths.js';
import type { EdgeTension, FailureStress } from './section-strength.js';
import { createStrengthRows, type StrengthRows } from './strength-rows.js';

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
  /** First failure of every place of the model, in its order: of the edge, and for the detail 'places' of the others. */
  readonly places: readonly FirstFailure[];
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

/** First failure of every place that can fail, case by case: for reports. */
export interface StrengthSurvey {
  survey(edge: SolvedEdge): readonly CaseSurvey[];
  surveyWithoutChannel(): readonly CaseSurvey[];
}

/** Strength of one joint under given loads and cases, with any channel: no solve, only linear maps of the edge's moments. */
export interface StrengthModel extends StrengthSurvey {
  /** The places that can fail, the edge first. */
  readonly places: readonly FailurePlace[];
  /** The joint without channel, once for all. */
  readonly withoutChannel: JointStrength;
  /** Strength with a channel that a stress model of the same loads and cases has solved. Allocates nothing. */
  evaluate(edge: SolvedEdge, detail?: StrengthDetail): JointStrength;
  /** Of the channel that was evaluated last: load factor of one case at which anything but the edge fails. */
  awayFromEdge(loadCase: number): number;
  /** Of the channel that was evaluated last: stress where a failure of one case away from the edge starts, at its load factor. */
  stressAt(loadCase: number, first: Readonly<FirstFailure>): FailureStress | undefined;
  /** Of the channel that was evaluated last: the largest tension along an edge that is a place of the section, in one case with its loads as given. */
  tensionAlong(loadCase: number, place: FailurePlace): EdgeTension | undefined;
  /** Values that `writeAlongEdge` gives for a node that is seen. */
  readonly perNode: number;
  /**
   * Of the channel that was evaluated last: writes `weight` over the load factor along the edge in one case, smooth in the outline and 0 or less where
   * nothing fails, into `out` from `at` on; of several channels one after the other, each on both sides where they bear different stress, the right one first.
   */
  writeAlongEdge(loadCase: number, weight: number, out: Float64Array, at: number): void;
  /** The same row by row, with slopes. */
  readonly rows: StrengthRows;
  /** The same joint, its cure load `ratio` times as large: shares all that is costly, so that one is evaluated after the other. */
  withCure(ratio: number): StrengthModel;
  /** The cure scaled with the loads, as fatigue needs it. */
  scaledWhole(): StrengthSurvey;
}

/** One case: load factor at which each place fails first, and where. Places that no load factor makes fail are left out. */
export interface CaseSurvey {
  readonly name: string;
  readonly places: readonly {
    readonly place: FailurePlace;
    readonly criterion: FailureCriterion;
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
  if (model.places.leftOut)
    throw new InputError({
      path: 'model',
      expected: 'a reduced model with its strength part',
      received: 'its edge part alone',
      remedy: 'hand over the whole model',
    });
  const acting = actingLoads(model, loads);
  const names = acting.map(({ name }) => name);
  const factors = cases.map((one) => caseFactors(one, names));
  const judge = createJointJudge(model, joint, acting, options);
  const caseNames = cases.map(({ name }) => name);
  const modelOf = (splits: readonly SplitCase[]): StrengthModel =>
    modelOfCases(judge, caseNames, splits, {
      withCure: (ratio) => modelOf(splits.map((one) => withCure(one, ratio))),
      scaledWhole: () => modelOf(factors.map(wholeCase)),
    });
  return modelOf(factors.map((one) => splitCase(one, names.indexOf(cureLoad.name))));
}

function modelOfCases(
  judge: JointJudge,
  names: readonly string[],
  splits: readonly SplitCase[],
  others: Pick<StrengthModel, 'withCure' | 'scaledWhole'>,
): StrengthModel {
  const { places, section, edges } = judge;
  const result = (): JointStrength => ({
    cases: names.map((name, c) => ({
      ...createFailure(),
      name,
      scales: splits[c]!.scales,
      retained: 1,
      places: places.map(createFailure),
    })),
    loadFactor: Number.NaN,
    retained: 1,
    worstCase: 0,
    place: 'none',
    x: Number.NaN,
    y: Number.NaN,
  });
  const withoutChannel = result();
  const judgeInto = (found: JointStrength, outline: SolvedEdge | undefined, detail: StrengthDetail): void => {
    judge.judge(splits, outline, detail, found.cases);
    for (let c = 0; c < splits.length; c++) {
      const one = found.cases[c]!;
      one.retained = share(one.factor, withoutChannel.cases[c]!.factor);
    }
    conclude(found);
    if (outline !== undefined && !Number.isFinite(outline.worst)) forget(found);
  };
  judgeInto(withoutChannel, undefined, 'first');
  const found = result();
  const elsewhere = createFailure();
  let judged: StrengthDetail = 'first';
  let last: SolvedEdge | undefined;
  const surveyOf = (outline: SolvedEdge | undefined): CaseSurvey[] => {
    const all = result();
    judgeInto(all, outline, 'places');
    return all.cases.map(({ name, places: firsts }) => ({
      name,
      places: firsts
        .filter(({ factor }) => factor < Number.POSITIVE_INFINITY)
        .map((first) => ({ ...first }) as CaseSurvey['places'][number]),
    }));
  };

  return {
    places,
    withoutChannel,
    evaluate(outline, detail = 'first') {
      judged = detail;
      last = outline;
      judgeInto(found, outline, detail);
      return found;
    },
    survey: surveyOf,
    surveyWithoutChannel: () => surveyOf(undefined),
    awayFromEdge(loadCase) {
      const one = found.cases[loadCase]!;
      if (one.place !== 'edge') return one.factor;
      if (judged === 'places') return leastOf(one.places, 1);
      clearFailure(elsewhere);
      section.judge(splits[loadCase]!, elsewhere);
      return elsewhere.factor;
    },
    stressAt: (loadCase, first) => section.stressAt(splits[loadCase]!, first),
    tensionAlong: (loadCase, place) => section.tensionAlong(splits[loadCase]!, place),
    rows: createStrengthRows(judge, splits),
    perNode: edges[0]!.perNode,
    writeAlongEdge(loadCase, weight, out, at) {
      const split = splits[loadCase]!;
      let next = at;
      for (let k = 0; k < edges.length; k++) {
        const edge = edges[k]!;
        const { bothSides, nodes } = last!.each[k]!;
        edge.writeInverse(split, weight, out, next);
        if (bothSides) edge.writeInverse(judge.mirrored(split), weight, out, next + edge.perNode * nodes.count);
        next += (bothSides ? 2 : 1) * edge.perNode * nodes.count;
      }
    },
    ...others,
  };
}

function leastOf(firsts: readonly FirstFailure[], from: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let p = from; p < firsts.length; p++) least = Math.min(least, firsts[p]!.factor);
  return least;
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
    one.criterion = 'none';
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
