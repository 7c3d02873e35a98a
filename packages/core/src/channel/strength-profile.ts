import { createStrengthModel, type JointStrength, type StrengthRows } from '../strength/index.js';
import type { CaseSlopes, SolvedEdge } from '../stress/index.js';
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

/** Values of an outline that its strength gives, smooth in the outline, or their rates: one row to a value and one column to a motion. */
export interface StrengthPart {
  /** Their largest is the cost of a task that trades strength; none for others. */
  readonly functions: Float64Array;
  /** Each met at 0 and below. */
  readonly limits: Float64Array;
}

/** What descents with slopes see of the strength of the whole joint. */
export interface StrengthProfile {
  /** Of a solved outline, along its edge and stretch by stretch of the section. */
  values(edge: SolvedEdge): StrengthPart;
  /** Rates of the values given last. Those far from counting are 0. */
  slopes(slopes: CaseSlopes): StrengthPart;
}

/** Rows below this share of the largest, and limits met by more than this, are far from counting. */
const near = 0.6;
const farWithin = 0.4;

/** Of a task that `hasSlopes` (see there), and limits or trades strength. */
export function createStrengthProfile(task: ChannelTask): StrengthProfile {
  const trades = tradesStrength(task);
  const { leastRetained = 0, startsAwayFromEdge } = task.strength;
  const model = createStrengthModel(task.model, task.joint, task.loads, task.cases, task.strength);
  const { rows } = model;
  const costs = trades ? costTerms(model, task.objective.cost) : [];
  const limits = [
    ...(trades || leastRetained > 0 ? cureTerms(model) : []),
    ...(leastRetained > 0 ? retainedTerms(model, leastRetained) : []),
  ];
  const lead = startsAwayFromEdge ? createLead(rows, model.withoutChannel) : undefined;
  let values: StrengthPart;

  return {
    values(edge) {
      rows.take(edge);
      const perTerm = rows.alongEdge + rows.stretches;
      values = {
        functions: new Float64Array(costs.length * perTerm),
        limits: new Float64Array(limits.length * perTerm + (lead?.count() ?? 0)),
      };
      for (const [k, term] of costs.entries()) writeTerm(rows, term, values.functions, k * perTerm);
      for (const [k, term] of limits.entries()) writeTerm(rows, term, values.limits, k * perTerm);
      lead?.write(values.limits, limits.length * perTerm);
      return values;
    },
    slopes(slopes) {
      rows.takeSlopes(slopes);
      const perTerm = rows.alongEdge + rows.stretches;
      const rates = (of: Float64Array) => new Float64Array(of.length * slopes.howMany);
      const found = { functions: rates(values.functions), limits: rates(values.limits) };
      const most = values.functions.reduce((a, b) => Math.max(a, b), 0);
      const into = (part: 'functions' | 'limits', least: number) => ({
        values: values[part],
        rates: found[part],
        least,
      });
      for (const [k, term] of costs.entries()) writeTermRates(rows, term, into('functions', near * most), k * perTerm);
      for (const [k, term] of limits.entries()) writeTermRates(rows, term, into('limits', -farWithin), k * perTerm);
      lead?.writeRates(into('limits', -farWithin), limits.length * perTerm, slopes.howMany);
      return found;
    },
  };
}

/** Writes the rows of a term from `at` on. */
function writeTerm(rows: StrengthRows, { case: c, weight, offset }: InverseTerm, out: Float64Array, at: number): void {
  const { alongEdge } = rows;
  rows.writeAlongEdge(c, weight, out, at);
  for (let i = at; i < at + alongEdge; i++) out[i]! += offset;
  rows.factors(c).forEach((factor, k) => {
    out[at + alongEdge + k] = weight * inverseOf(factor) + offset;
  });
}

/** Rates of values, of which those below `least` do not count. */
interface RatedValues {
  readonly values: Float64Array;
  readonly rates: Float64Array;
  readonly least: number;
}

function writeTermRates(
  rows: StrengthRows,
  { case: loadCase, weight }: InverseTerm,
  { values, rates, least }: RatedValues,
  at: number,
): void {
  const { alongEdge, stretches } = rows;
  rows.writeAlongEdgeRates(loadCase, weight, rates, at);
  for (let stretch = 0, row = at + alongEdge; stretch < stretches; stretch++, row++)
    if (values[row]! >= least) rows.addStretchRates({ loadCase, stretch }, weight, rates, row);
}

/** Cases that are held against each other, and what else stands beside all that is not the edge. */
interface LeadGroup {
  readonly cases: readonly number[];
  /** Load factor from which on failure elsewhere does not count: a cure alone that the edge bears is no failure. */
  readonly most: number;
}

/**
 * Share by which the edge fails before all else does, place by place: then failure starts there. 0 and below where it does not. The cases that scale loads are held
 * against each other; one of cure alone counts where the cure breaks the joint, each for itself.
 */
function createLead(rows: StrengthRows, { cases }: JointStrength) {
  const scaling = cases.flatMap(({ scales }, c) => (scales === 'loads' ? [c] : []));
  const others = cases.flatMap(({ scales }, c) => (scales === 'loads' ? [] : [c]));
  const groups: readonly LeadGroup[] =
    scaling.length === 0
      ? [{ cases: others, most: mostInverse }]
      : [{ cases: scaling, most: mostInverse }, ...others.map((c) => ({ cases: [c], most: 1 }))];
  /** Where all else fails first, group by group, and at which factor. */
  const first = groups.map(() => ({ loadCase: 0, stretch: 0, factor: Number.POSITIVE_INFINITY }));

  const lookElsewhere = ({ cases, most }: LeadGroup, g: number): void => {
    const found = first[g]!;
    found.factor = most;
    for (const c of cases)
      rows.factors(c).forEach((factor, stretch) => {
        if (!(factor < found.factor)) return;
        found.factor = factor;
        found.loadCase = c;
        found.stretch = stretch;
      });
  };
  /** Calls for every case, in the order of the rows. */
  const eachCase = (from: number, of: (c: number, g: number, row: number) => void): void => {
    let row = from;
    groups.forEach(({ cases }, g) => {
      for (const c of cases) {
        of(c, g, row);
        row += rows.alongEdge;
      }
    });
  };

  return {
    count: () => cases.length * rows.alongEdge,
    write(out: Float64Array, from: number): void {
      groups.forEach(lookElsewhere);
      eachCase(from, (c, g, row) => rows.writeAlongEdge(c, (1 + margin) * first[g]!.factor, out, row));
      for (let i = from; i < out.length; i++) out[i]! -= 1;
    },
    writeRates({ values, rates, least }: RatedValues, from: number, howMany: number): void {
      const later = groups.map(() => new Float64Array(howMany));
      groups.forEach(({ most }, g) => {
        const { factor } = first[g]!;
        // Of one over that factor u, u' / u.
        if (factor > 0 && factor < most) rows.addStretchRates(first[g]!, factor, later[g]!, 0);
      });
      eachCase(from, (c, g, begin) => {
        rows.writeAlongEdgeRates(c, (1 + margin) * first[g]!.factor, rates, begin);
        // (value + 1) is one over the edge's factor times elsewhere's.
        for (let row = begin; row < begin + rows.alongEdge; row++)
          for (let p = 0, at = row * howMany; values[row]! >= least && p < howMany; p++, at++)
            rates[at]! -= (values[row]! + 1) * later[g]![p]!;
      });
    },
  };
}
