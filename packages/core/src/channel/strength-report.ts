import type { CaseReport, FailureStart, PlaceFactor, StrengthReport, StrengthSummary } from '../result/index.js';
import { type CaseSurvey, createStrengthModel, fatigueLives, type JointStrength } from '../strength/index.js';
import type { SolvedEdge } from '../stress/index.js';
import type { ChannelTask } from './task.js';

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
  const cycled = strength.scaledWhole();
  const stillCycled = cycled.surveyWithoutChannel();

  return {
    summarise: (edge) => summaryOf(strength.evaluate(edge)),
    report(edge) {
      const survey = strength.survey(edge);
      const lives = fatigueLives(cycled.survey(edge), stillCycled, wish.fatigue);
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
