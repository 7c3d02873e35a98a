import { InputError } from '../errors.js';
import { createStrengthModel, type JointStrength, type StrengthModel } from '../strength/index.js';
import type { SolvedEdge } from '../stress/index.js';
import { type ChannelTask, limitsStrength, tradesStrength } from './task.js';

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

/** A case whose load factor counts: as `weight` over it, plus `offset`. */
interface InverseTerm {
  readonly case: number;
  /** Read at every `write`. */
  readonly weight: number;
  readonly offset: number;
  /** Of the edge alone, not of every place that can fail. */
  readonly edgeOnly?: boolean;
}

/** Kept from all limits: a report, with more nodes than a search, must find them kept as well. */
const margin = 0.003;

/**
 * No cost is larger: a thousandth of the load, or of the strength without channel, is less than the model knows. Keeps costs finite where a joint
 * fails under its pre-stress.
 */
const mostInverse = 1000;

/**
 * What a channel scorer needs of the strength of the whole joint; `undefined` where a task neither limits nor trades it.
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
export function createStrengthJudge(task: ChannelTask): StrengthJudge | undefined {
  const trades = tradesStrength(task);
  if (!trades && !limitsStrength(task)) return undefined;
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

/** One over a load factor, within 0 and `mostInverse`. */
function inverseOf(factor: number): number {
  return factor <= 0 ? mostInverse : Math.min(mostInverse, 1 / factor);
}

/** The cases that count for a cost, each with what its inverse load factor is multiplied by. */
function costTerms({ withoutChannel }: StrengthModel, cost: ChannelTask['objective']['cost']): InverseTerm[] {
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
