import {
  type CaseStrength,
  type CaseSurvey,
  createStrengthModel,
  type FailurePlace,
  fatigueLives,
  type JointStrength,
} from '../strength/index.js';
import type { SolvedEdge } from '../stress/index.js';
import type { ChannelTask } from './task.js';

/** Where failure starts, mm. */
export interface FailureStart {
  readonly place: FailurePlace | 'none';
  readonly at: readonly [number, number];
}

/** One place in one case: load factor at which it fails first, and where. */
export type PlaceFactor = CaseSurvey['places'][number];

/** Strength in one case. Factors are Infinity where nothing fails; see `CaseStrength` for what is scaled. */
export interface CaseReport extends FailureStart {
  readonly scales: CaseStrength['scales'];
  readonly loadFactor: number;
  readonly retained: number;
  /** The weakest place first. */
  readonly places: readonly PlaceFactor[];
  readonly withoutChannel: FailureStart & { readonly loadFactor: number; readonly places: readonly PlaceFactor[] };
  /** Constant amplitude at the loads as given; see `fatigueLives` for its limits. */
  readonly fatigue: FailureStart & { readonly life: number; readonly ratio: number };
}

/** What a channel leaves of the joint over all cases, and where the joint fails first. */
export interface StrengthSummary extends FailureStart {
  readonly retained: number;
  readonly loadFactor: number;
  readonly worstCase: string;
}

/** Strength of the whole joint with one channel, as plain data. */
export interface StrengthReport extends StrengthSummary {
  readonly cases: Readonly<Record<string, CaseReport>>;
}

/** Judges single channels for a report. Takes what a channel reporter of the same task has solved: it solves nothing itself. */
export interface StrengthReporter {
  /** For one of many. */
  summarise(edge: SolvedEdge): StrengthSummary;
  /** With every case, place and life. */
  report(edge: SolvedEdge): StrengthReport;
}

export function createStrengthReporter({
  model,
  joint,
  loads,
  cases,
  strength: wish,
}: Omit<ChannelTask, 'objective'>): StrengthReporter {
  const strength = createStrengthModel(model, joint, loads, cases, wish);
  const still = strength.surveyWithoutChannel();
  const stillScaled = strength.surveyWithoutChannel('all');

  return {
    summarise: (edge) => summaryOf(strength.evaluate(edge)),
    report(edge) {
      const survey = strength.survey(edge);
      const lives = fatigueLives(strength.survey(edge, 'all'), stillScaled, wish.fatigue);
      const found = strength.evaluate(edge);
      const byCase = found.cases.map((one, c): [string, CaseReport] => {
        const without = strength.withoutChannel.cases[c]!;
        const { life, ratio, place, x, y } = lives[c]!;
        return [
          one.name,
          {
            ...start(one),
            scales: one.scales,
            loadFactor: one.factor,
            retained: one.retained,
            places: weakestFirst(survey[c]!),
            withoutChannel: { ...start(without), loadFactor: without.factor, places: weakestFirst(still[c]!) },
            fatigue: { ...start({ place, x, y }), life, ratio },
          },
        ];
      });
      return { ...summaryOf(found), cases: Object.fromEntries(byCase) };
    },
  };
}

function summaryOf(found: JointStrength): StrengthSummary {
  const { retained, loadFactor, worstCase, cases } = found;
  return { retained, loadFactor, worstCase: cases[worstCase]!.name, ...start(found) };
}

function start({ place, x, y }: { place: FailureStart['place']; x: number; y: number }): FailureStart {
  return { place, at: [x, y] };
}

function weakestFirst({ places }: CaseSurvey): readonly PlaceFactor[] {
  return [...places].sort((a, b) => a.factor - b.factor);
}
