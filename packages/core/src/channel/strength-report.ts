import { isEdge, type Joint } from '../host/index.js';
import type { CaseReport, FailureStart, PlaceFactor, StrengthReport, StrengthSummary } from '../result/index.js';
import {
  type CaseStrength,
  type CaseSurvey,
  type CrackCourse,
  crackCourse,
  createStrengthModel,
  type FirstFailure,
  fatigueLives,
  type JointStrength,
  type StrengthModel,
} from '../strength/index.js';
import { distanceToEdges, type SolvedEdge } from '../stress/index.js';
import type { ChannelTask } from './task.js';

/** What strength is left, and where each case fails first. */
export type StrengthStarts = StrengthSummary & {
  readonly cases: Readonly<Record<string, Pick<CaseReport, 'place' | 'at' | 'loadFactor'>>>;
};

/** Judges single channels for a report. Takes what a channel reporter of the same task has solved: it solves nothing itself. */
export interface StrengthReporter {
  /** For one of many. */
  summarise(edge: SolvedEdge): StrengthSummary;
  /** The same, and where each case fails first. */
  starts(edge: SolvedEdge): StrengthStarts;
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
  const edgePlace = strength.places.find((place) => place !== 'edge' && isEdge(joint.kind, place));

  /** Along the edge of a channel of known outline beside the one that was evaluated last; undefined without one. */
  const besideIn = (loadCase: number) => {
    const found = edgePlace && strength.tensionAlong(loadCase, edgePlace);
    return found && { stress: found.stress, at: [found.x, found.y] as const };
  };
  const summarise = (edge: SolvedEdge): { found: JointStrength; summary: StrengthSummary } => {
    const found = strength.evaluate(edge, 'places');
    const [beside] = cases
      .flatMap(({ name }, c) => {
        const one = besideIn(c);
        return one ? [{ ...one, worstCase: name }] : [];
      })
      .sort((a, b) => b.stress - a.stress);
    return { found, summary: { ...summaryOf(joint, strength, found, edge), ...(beside && { beside }) } };
  };

  return {
    summarise: (edge) => summarise(edge).summary,
    starts(edge) {
      const { found, summary } = summarise(edge);
      const cases = found.cases.map(({ name, place, x, y, factor }) => [
        name,
        { place, at: [x, y], loadFactor: factor },
      ]);
      return { ...summary, cases: Object.fromEntries(cases) };
    },
    report(edge) {
      const survey = strength.survey(edge);
      const lives = fatigueLives(cycled.survey(edge), stillCycled, wish.fatigue);
      const { found, summary } = summarise(edge);
      const byCase = found.cases.map((one, c): [string, CaseReport] => {
        const beside = besideIn(c);
        const without = strength.withoutChannel.cases[c]!;
        const { life, ratio, place, x, y } = lives[c]!;
        return [
          one.name,
          {
            ...startBeside(edge, one),
            ...crackOf(crackCourse(joint, strength, edge, c, one)),
            ...clearnessOf(survey[c]!),
            scales: one.scales,
            loadFactor: one.factor,
            ...retainedOf(one, without),
            places: weakestFirst(survey[c]!),
            ...(beside && { beside }),
            withoutChannel: {
              ...start(without),
              ...clearnessOf(still[c]!),
              loadFactor: without.factor,
              places: weakestFirst(still[c]!),
            },
            fatigue: { ...start({ place, x, y }), life, ratio },
          },
        ];
      });
      return { ...summary, cases: Object.fromEntries(byCase) };
    },
  };
}

/** @param found judged place by place */
function summaryOf(joint: Joint, strength: StrengthModel, found: JointStrength, edge: SolvedEdge): StrengthSummary {
  const { retained, loadFactor, worstCase, cases } = found;
  const worst = cases[worstCase]!;
  const without = strength.withoutChannel.cases[worstCase]!;
  return {
    ...(Number.isFinite(retained) && retained > 0 ? { retained } : retainedOf({ ...worst, retained }, without)),
    loadFactor,
    worstCase: worst.name,
    ...startBeside(edge, found),
    ...crackOf(crackCourse(joint, strength, edge, worstCase, worst)),
    ...clearnessOf(worst),
  };
}

/** The share retained and, where it is none or nothing, why. */
function retainedOf(
  { factor, retained, scales }: Pick<CaseStrength, 'factor' | 'retained' | 'scales'>,
  { factor: without }: CaseStrength,
): Pick<CaseReport, 'retained' | 'reason'> {
  const share = Number.isFinite(retained) ? retained : Number.NaN;
  const reason = () => {
    if (without === Number.POSITIVE_INFINITY)
      return factor === Number.POSITIVE_INFINITY
        ? 'nothing fails, however large the load'
        : 'without channel nothing fails, however large the load: there is no strength of which a share could be retained';
    if (factor === Number.POSITIVE_INFINITY) return 'with the channel nothing fails, however large the load';
    const whole = scales === 'cure' ? 'a part of the cure' : 'the cure alone';
    return `${whole} breaks the joint${without < (scales === 'cure' ? 1 : Number.MIN_VALUE) ? ', without channel too' : ' with this channel'}`;
  };
  return share > 0 ? { retained: share } : { retained: share, reason: reason() };
}

function crackOf(course: CrackCourse | undefined): Pick<FailureStart, 'crackPath' | 'crackMeets'> {
  return course === undefined ? {} : { crackPath: course.path, crackMeets: course.meets };
}

/** The place that fails next, and by how much later. */
function clearnessOf({
  places,
}: {
  readonly places: readonly Pick<FirstFailure, 'place' | 'factor'>[];
}): Required<Pick<FailureStart, 'clarity' | 'next'>> {
  const [first, second] = places.filter(({ place }) => place !== 'none').sort((a, b) => a.factor - b.factor);
  if (first === undefined || second === undefined) return { clarity: Number.NaN, next: 'none' };
  return { clarity: first.factor > 0 ? second.factor / first.factor : Number.NaN, next: second.place };
}

function start({ place, x, y }: { place: FailureStart['place']; x: number; y: number }): FailureStart {
  return { place, at: [x, y] };
}

function startBeside(edge: SolvedEdge, found: Parameters<typeof start>[0]): FailureStart {
  const { place, x, y } = found;
  return { ...start(found), fromEdge: place === 'edge' ? 0 : distanceToEdges(edge, x, y) };
}

function weakestFirst({ places }: CaseSurvey): readonly PlaceFactor[] {
  return places.map(({ place, factor, x, y }) => ({ place, factor, x, y })).sort((a, b) => a.factor - b.factor);
}
