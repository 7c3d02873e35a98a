import type { ChannelObjective } from '../brief/index.js';
import { InputError } from '../errors.js';
import {
  createStrengthModel,
  type InverseTerm,
  inverseOf,
  type JointStrength,
  mostInverse,
  type StrengthModel,
} from '../strength/index.js';
import type { SolvedEdge } from '../stress/index.js';
import { type ChannelTask, limitsStrength, tradesStrength } from './task.js';

/** What the strength of the whole joint says of solved outlines: see `createChannelJudge`. Allocates nothing per outline. */
export interface ChannelJudge {
  /** Takes a solved outline; all else tells of it until the next. */
  judge(edge: SolvedEdge): void;
  /** As one more constraint: 0 and below where it is met, 2 at most. */
  readonly violation: number;
  /** What a task that trades strength keeps small. */
  readonly cost: number;
  /** Length of what `writeFunctions` writes for an outline of which so many nodes are seen; 0 for a task that trades no strength. */
  functionCount(seen: number): number;
  /** Writes functions, smooth in the outline, whose largest is the cost, into `out` from `at` on. */
  writeFunctions(out: Float64Array, at: number): void;
  /** The same for limits, smooth in the outline, each met at 0 and below. */
  limitCount(seen: number): number;
  writeLimits(out: Float64Array, at: number): void;
}

/** Kept from all limits: a report, with more nodes than a search, must find them kept as well. */
const margin = 0.003;

/**
 * What a channel scorer needs of the strength of the whole joint; `undefined` where a task neither limits nor trades it.
 *
 * Limits: retained strength that lacks from `strength.leastRetained` counts as a share of what is asked (1 and more where the joint fails in
 * the cure, the further the earlier); a start at the edge, against `strength.startsAwayFromEdge`, as the share by which the edge is
 * weaker than the next place, in the case that fails first. A task that trades strength must not fail in the cure: what its load factor
 * there lacks from 1 counts.
 *
 * Costs: one over the load factor or the strength retained of `JointStrength`; see `inverseOf` for its bound.
 *
 * Throws InputError for a task that trades the strength retained of a joint whose model knows no failure without channel: a plate.
 */
export function createChannelJudge(task: ChannelTask): ChannelJudge | undefined {
  const trades = tradesStrength(task);
  if (!trades && !limitsStrength(task)) return undefined;
  const { model, joint, loads, cases, objective } = task;
  const { leastRetained = 0, startsAwayFromEdge } = task.strength;
  const strength = createStrengthModel(model, joint, loads, cases, task.strength);
  const costs = strength.inverseFactors(trades ? costTerms(strength, objective.cost) : []);
  /** Edge against the next place, case by case; only the case that fails first has a weight. */
  const leads = cases.map((_, c) => ({ case: c, weight: 0, offset: -1, edgeOnly: true }));
  const limits = strength.inverseFactors([
    ...(trades || leastRetained > 0 ? cureTerms(strength) : []),
    ...(leastRetained > 0 ? retainedTerms(strength, leastRetained) : []),
    ...(startsAwayFromEdge ? leads : []),
  ]);

  /** In the case that fails first. */
  const leadOfEdge = (worstCase: number, solved: SolvedEdge): number => {
    const { places } = strength.survey(solved)[worstCase]!;
    let edge = Number.POSITIVE_INFINITY;
    let elsewhere = Number.POSITIVE_INFINITY;
    for (const { place, factor } of places) {
      if (place === 'edge') edge = Math.min(edge, factor);
      else elsewhere = Math.min(elsewhere, factor);
    }
    for (const lead of leads)
      lead.weight = lead.case === worstCase ? (1 + margin) * Math.min(elsewhere, mostInverse) : 0;
    return leadOf(edge, elsewhere);
  };
  let violation = Number.NaN;
  let cost = Number.NaN;

  return {
    judge(edge) {
      const found = strength.evaluate(edge);
      violation = Number.NaN;
      cost = Number.NaN;
      if (Number.isNaN(found.loadFactor)) return;
      cost = inverseOf(objective.cost === 'strengthRetained' ? found.retained : found.loadFactor);
      violation = Number.NEGATIVE_INFINITY;
      if (leastRetained > 0) violation = lackOf(found, leastRetained);
      if (trades) violation = Math.max(violation, preStressLackOf(found));
      if (startsAwayFromEdge) violation = Math.max(violation, leadOfEdge(found.worstCase, edge));
    },
    get violation() {
      return violation;
    },
    get cost() {
      return cost;
    },
    functionCount: costs.count,
    writeFunctions: costs.write,
    limitCount: limits.count,
    writeLimits: limits.write,
  };
}

/** The cases that count for a cost, each with what its inverse load factor is multiplied by. */
function costTerms({ withoutChannel }: StrengthModel, cost: ChannelObjective['cost']): InverseTerm[] {
  const { cases } = withoutChannel;
  const scalesLoads = cases.some(({ scales }) => scales === 'loads');
  const terms = cases
    .map(({ scales, factor }, c) => ({ case: c, scales, weight: cost === 'strengthRetained' ? factor : 1, offset: 0 }))
    .filter(({ scales, weight }) => (scales === 'loads' || !scalesLoads) && weight < Number.POSITIVE_INFINITY);
  if (terms.length > 0) return terms;
  throw new InputError({
    path: 'search.against',
    expected: 'peak or load-factor, where the model knows no failure without channel',
    received: 'strength-retained',
    remedy: 'choose one of these',
  });
}

/** The cases that scale loads: 0 and below while they keep their share of the strength without channel. */
function retainedTerms({ withoutChannel: { cases } }: StrengthModel, leastRetained: number): InverseTerm[] {
  return cases.flatMap(({ scales, factor }, c) =>
    scales === 'loads' && factor > 0 && factor < Number.POSITIVE_INFINITY
      ? [{ case: c, weight: (1 + margin) * leastRetained * factor, offset: -1 }]
      : [],
  );
}

/** The cases of cure alone beside others: 0 and below while the joint bears the cure. */
function cureTerms({ withoutChannel: { cases } }: StrengthModel): InverseTerm[] {
  if (!cases.some(({ scales }) => scales === 'loads')) return [];
  return cases.flatMap(({ scales }, c) => (scales === 'cure' ? [{ case: c, weight: 1 + margin, offset: -1 }] : []));
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
