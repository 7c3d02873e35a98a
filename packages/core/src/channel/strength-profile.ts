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
import { type ChannelTask, limitsStrength, tradesStrength } from './task.js';

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

/** Of a task that `hasSlopes` (see there); undefined where it neither limits nor trades strength. */
export function createStrengthProfile(task: ChannelTask): StrengthProfile | undefined {
  const trades = tradesStrength(task);
  if (!trades && !limitsStrength(task)) return undefined;
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

/**
 * Share by which the edge, place by place in all cases that count, fails before all else does: then failure starts there. 0 and below where it
 * does not.
 */
function createLead(rows: StrengthRows, { cases }: JointStrength) {
  const scalesLoads = cases.some(({ scales }) => scales === 'loads');
  const counting = cases.flatMap(({ scales }, c) => (scales === 'loads' || !scalesLoads ? [c] : []));
  /** Where all else fails first. */
  const first = { loadCase: 0, stretch: 0 };
  let elsewhere = Number.POSITIVE_INFINITY;

  return {
    count: () => counting.length * rows.alongEdge,
    write(out: Float64Array, from: number): void {
      elsewhere = Number.POSITIVE_INFINITY;
      for (const c of counting)
        rows.factors(c).forEach((factor, stretch) => {
          if (!(factor < elsewhere)) return;
          elsewhere = factor;
          first.loadCase = c;
          first.stretch = stretch;
        });
      const weight = (1 + margin) * Math.min(elsewhere, mostInverse);
      for (const [k, c] of counting.entries()) rows.writeAlongEdge(c, weight, out, from + k * rows.alongEdge);
      for (let i = from; i < out.length; i++) out[i]! -= 1;
    },
    writeRates({ values, rates, least }: RatedValues, from: number, howMany: number): void {
      const weight = (1 + margin) * Math.min(elsewhere, mostInverse);
      for (const [k, c] of counting.entries()) rows.writeAlongEdgeRates(c, weight, rates, from + k * rows.alongEdge);
      if (!(elsewhere > 0 && elsewhere < mostInverse)) return;
      // (value + 1) is one over the edge's factor times elsewhere's: of one over the latter u, its rate is -(value + 1) u' / u.
      const later = new Float64Array(howMany);
      rows.addStretchRates(first, elsewhere, later, 0);
      for (let row = from; row < values.length; row++) {
        if (!(values[row]! >= least)) continue;
        for (let p = 0, at = row * howMany; p < howMany; p++, at++) rates[at]! -= (values[row]! + 1) * later[p]!;
      }
    },
  };
}
