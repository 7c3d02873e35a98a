import { hostOf, modelAt } from '../host/index.js';
import { highestOf, lowestOf } from '../outline/index.js';
import { createStrengthModel, type JointStrength } from '../strength/index.js';
import type { SolvedEdge } from '../stress/index.js';
import {
  costTerms,
  cureTerms,
  type InverseTerm,
  inverseOf,
  margin,
  mostInverse,
  retainedTerms,
} from './inverse-terms.js';
import { type ChannelTask, tradesStrength } from './task.js';

/** Values of a profile that the strength of the joint gives. */
export interface StrengthValues {
  /** Their number, of an outline of which so many nodes are seen. */
  count(seen: number): number;
  /** Writes those of the outline that was judged last. */
  write(out: Float64Array): void;
}

/** What the strength of the whole joint says of solved outlines. Allocates nothing per outline. */
export interface StrengthJudge {
  /** Takes a solved outline; all else tells of it until the next. `profiled`: `functions` or `limits` will be written. */
  judge(edge: SolvedEdge, profiled: boolean): void;
  /** As one more constraint: 0 and below where it is met, 2 at most. */
  readonly violation: number;
  /** What a task that trades strength keeps small. */
  readonly cost: number;
  /** Smooth in the outline; their largest is the cost. None for a task that trades no strength. */
  readonly functions: StrengthValues;
  /** The same for limits, each met at 0 and below. */
  readonly limits: StrengthValues;
}

/**
 * What a channel scorer needs of the strength of the whole joint, of a task that limits or trades it.
 *
 * Limits: retained strength that lacks from `strength.leastRetained` counts as a share of what is asked (1 and more where the joint fails in
 * the cure, the further the earlier); a start at the edge, against `strength.startsAwayFromEdge`, as the share by which the edge is
 * weaker than the next place, in the case that fails first. A task that trades strength must not fail in the cure: what its load factor
 * there lacks from 1 counts.
 *
 * Costs: one over the load factor or the strength retained of `JointStrength`; see `inverseOf` for its bound. A load factor turned upside down is
 * a stress over a strength, smooth in the outline wherever it is looked at.
 *
 * Throws InputError for a task that trades the strength retained of a joint whose model knows no failure without channel: a plate.
 */
export function createStrengthJudge(task: ChannelTask): StrengthJudge {
  const trades = tradesStrength(task);
  return task.model.heights === undefined ? createJudge(task, trades) : createFollowingJudge(task, trades);
}

/** Of a pocket of one height. */
function createJudge(task: ChannelTask, trades: boolean): StrengthJudge {
  const { model, joint, loads, cases, objective } = task;
  const { leastRetained = 0, startsAwayFromEdge } = task.strength;
  const strength = createStrengthModel(model, joint, loads, cases, task.strength);
  let found: JointStrength;
  let violation = Number.NaN;
  let cost = Number.NaN;

  const valuesOf = (terms: readonly InverseTerm[]): StrengthValues => {
    const placesOf = ({ edgeOnly = false }: InverseTerm) => (edgeOnly ? 1 : strength.places.length);
    const alongEdge = (seen: number) => strength.perNode * seen;
    return {
      count: (seen) => terms.reduce((sum, term) => sum + alongEdge(seen) + placesOf(term), 0),
      write(out) {
        const atPlaces = terms.reduce((sum, term) => sum + placesOf(term), 0);
        const perTerm = (out.length - atPlaces) / terms.length;
        let next = 0;
        for (const term of terms) {
          const { case: c, weight, offset } = term;
          if (weight === 0) {
            out.fill(offset, next, next + perTerm + placesOf(term));
            next += perTerm + placesOf(term);
            continue;
          }
          strength.writeAlongEdge(c, weight, out, next);
          for (const end = next + perTerm; next < end; next++) out[next]! += offset;
          for (let p = 0; p < placesOf(term); p++)
            out[next++] = weight * inverseOf(found.cases[c]!.places[p]!.factor) + offset;
        }
      },
    };
  };
  const costs = trades ? costTerms(strength, objective.cost) : [];
  /** Edge against the next place, case by case; only the case that fails first has a weight. */
  const leads = cases.map((_, c) => ({ case: c, weight: 0, offset: -1, edgeOnly: true }));
  const limits = [
    ...(trades || leastRetained > 0 ? cureTerms(strength) : []),
    ...(leastRetained > 0 ? retainedTerms(strength, leastRetained) : []),
    ...(startsAwayFromEdge ? leads : []),
  ];
  const detail = [...costs, ...limits].every(({ edgeOnly }: InverseTerm) => edgeOnly) ? 'first' : 'places';

  /** Share by which the edge leads, in the case that fails first. */
  const leadOfEdge = (): number => {
    const { worstCase } = found;
    const elsewhere = strength.awayFromEdge(worstCase);
    for (const lead of leads)
      lead.weight = lead.case === worstCase ? (1 + margin) * Math.min(elsewhere, mostInverse) : 0;
    return leadOf(found.cases[worstCase]!.places[0]!.factor, elsewhere);
  };

  return {
    judge(edge, profiled) {
      found = strength.evaluate(edge, profiled ? detail : 'first');
      violation = Number.NaN;
      cost = Number.NaN;
      if (Number.isNaN(found.loadFactor)) return;
      cost = inverseOf(objective.cost === 'strengthRetained' ? found.retained : found.loadFactor);
      violation = Number.NEGATIVE_INFINITY;
      if (leastRetained > 0) violation = lackOf(found, leastRetained);
      if (trades) violation = Math.max(violation, preStressLackOf(found));
      if (startsAwayFromEdge) violation = Math.max(violation, leadOfEdge());
    },
    get violation() {
      return violation;
    },
    get cost() {
      return cost;
    },
    functions: valuesOf(costs),
    // Where no case gives smooth limits, the violation stands in for them, kinks and all.
    limits:
      limits.length > 0
        ? valuesOf(limits)
        : {
            count: () => 1,
            write(out) {
              out[0] = Math.max(-1, violation);
            },
          },
  };
}

/**
 * Heights of pockets, evenly spread in their logarithm, at which outlines are judged: what an outline has between two of them lies between what both say of it,
 * within 0.03 % of what is reported of it (load factors of seven ellipses).
 */
const judgedHeights = 12;

/**
 * Of a pocket that follows its channel: two judges of neighbouring heights see each outline, and what they say is weighted. A judge of every height for itself would
 * take fifty times as long as the stress. Judges are made when a height is first asked for.
 */
function createFollowingJudge(task: ChannelTask, trades: boolean): StrengthJudge {
  const follows = hostOf(task.joint).follows!;
  const [least, most] = follows.range;
  const known: StrengthJudge[] = [];
  const judgeAt = (k: number): StrengthJudge => {
    const height = least * Math.exp((k / (judgedHeights - 1)) * Math.log(most / least));
    const made = known[k];
    if (made !== undefined) return made;
    const judge = createJudge({ ...task, joint: follows.jointAt(height), model: modelAt(task.model, height) }, trades);
    known[k] = judge;
    return judge;
  };
  let below = judgeAt(0);
  let above = judgeAt(1);
  let share = 0;
  const between = (of: (judge: StrengthJudge) => number) => of(below) + share * (of(above) - of(below));
  let other = new Float64Array(0);
  const values = (part: 'functions' | 'limits'): StrengthValues => ({
    count: (seen) => below[part].count(seen),
    write(out) {
      if (other.length !== out.length) other = new Float64Array(out.length);
      below[part].write(out);
      above[part].write(other);
      for (let i = 0; i < out.length; i++) out[i]! += share * (other[i]! - out[i]!);
    },
  });
  return {
    judge(edge, profiled) {
      const height = follows.heightFor(lowestOf(edge.nodes), highestOf(edge.nodes));
      const place = ((judgedHeights - 1) * Math.log(height / least)) / Math.log(most / least);
      const k = Math.min(judgedHeights - 2, Math.floor(place));
      share = place - k;
      below = judgeAt(k);
      above = judgeAt(k + 1);
      below.judge(edge, profiled);
      above.judge(edge, profiled);
    },
    get violation() {
      return between((judge) => judge.violation);
    },
    get cost() {
      return between((judge) => judge.cost);
    },
    functions: values('functions'),
    limits: values('limits'),
  };
}

/** What a load factor in the cure alone lacks from 1; 1 where only the pre-stress of another case fails. */
function preStressLackOf({ cases, loadFactor }: JointStrength): number {
  const lack = 1 + margin - curedFactor(cases);
  return loadFactor === 0 && !(lack > margin) ? 1 : Math.max(-1, lack);
}

function lackOf({ cases, retained }: JointStrength, leastRetained: number): number {
  if (retained > 0) return 1 + margin - retained / leastRetained;
  return 2 - Math.min(1, curedFactor(cases));
}

/** Least load factor of the cases of cure alone. */
function curedFactor(cases: JointStrength['cases']): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { scales, factor } of cases) if (scales === 'cure' && factor < least) least = factor;
  return least;
}

/** Share by which the edge fails before any other place; below 0 where it does not, at most 1. */
function leadOf(edge: number, elsewhere: number): number {
  if (edge === Number.POSITIVE_INFINITY) return -1;
  if (elsewhere === Number.POSITIVE_INFINITY) return 1;
  // Where both fail in the cure, the edge does.
  return elsewhere === 0 ? 1 : Math.max(-1, 1 + margin - edge / elsewhere);
}
