import {
  type Curve,
  createCurveNodes,
  createOutlineMeasure,
  curveNodesNeeded,
  measureOutline,
} from '../outline/index.js';
import { type ChannelTask, channelBorder, createStressModel, innerPoint } from '../stress/index.js';
import { type FatigueSlopes, fatigueLives } from './fatigue.js';
import { type CaseStrength, type CaseSurvey, createStrengthModel, type StrengthOptions } from './joint-strength.js';
import type { FailurePlace } from './place-strengths.js';

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

/** Strength of the whole joint with one channel, as plain data. */
export interface StrengthReport extends FailureStart {
  readonly loadFactor: number;
  readonly retained: number;
  readonly worstCase: string;
  readonly cases: Readonly<Record<string, CaseReport>>;
}

/**
 * Judges single outlines for a report, with twice the nodes they need. The outline must have passed the checks of a channel
 * reporter: inside the control contour and not crossing itself.
 */
export function createStrengthReporter(
  task: ChannelTask,
  options: StrengthOptions & { readonly fatigue: FatigueSlopes },
): (outline: Curve) => StrengthReport {
  const { model, joint, loads, cases } = task;
  const stress = createStressModel(model, loads, cases);
  const strength = createStrengthModel(model, joint, loads, cases, options);
  const still = strength.surveyWithoutChannel();
  const stillScaled = strength.surveyWithoutChannel('all');
  const border = channelBorder(joint);
  const measure = createOutlineMeasure();
  const inner = { x: 0, y: 0 };

  return (outline) => {
    const nodes = createCurveNodes(2 * curveNodesNeeded(outline));
    outline.place(nodes);
    measureOutline(nodes, border, measure);
    innerPoint(nodes, measure, inner);
    const mirror = outline.mirror && stress.symmetric;
    const solved = stress.evaluate(nodes, mirror, inner);
    const survey = strength.survey(solved, nodes, mirror, inner);
    const lives = fatigueLives(strength.survey(solved, nodes, mirror, inner, 'all'), stillScaled, options.fatigue);
    const found = strength.evaluate(solved, nodes, mirror, inner);
    const { loadFactor, retained, worstCase } = found;
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
    return {
      ...start(found),
      loadFactor,
      retained,
      worstCase: byCase[worstCase]![0],
      cases: Object.fromEntries(byCase),
    };
  };
}

function start({ place, x, y }: { place: FailureStart['place']; x: number; y: number }): FailureStart {
  return { place, at: [x, y] };
}

function weakestFirst({ places }: CaseSurvey): readonly PlaceFactor[] {
  return [...places].sort((a, b) => a.factor - b.factor);
}
