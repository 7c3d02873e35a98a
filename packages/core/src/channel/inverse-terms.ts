import { InputError } from '../errors.js';
import type { StrengthModel } from '../strength/index.js';
import type { ChannelTask } from './task.js';

/** A case whose load factor counts: as `weight` over it, plus `offset`. */
export interface InverseTerm {
  readonly case: number;
  /** Read at every `write`. */
  readonly weight: number;
  readonly offset: number;
  /** Of the edge alone, not of every place that can fail. */
  readonly edgeOnly?: boolean;
}

/** Kept from all limits: a report, with more nodes than a search, must find them kept as well. */
export const margin = 0.003;

/**
 * No cost is larger: a thousandth of the load, or of the strength without channel, is less than the model knows. Keeps costs finite where a joint
 * fails under its pre-stress.
 */
export const mostInverse = 1000;

/** One over a load factor, within 0 and `mostInverse`. */
export function inverseOf(factor: number): number {
  return factor <= 0 ? mostInverse : Math.min(mostInverse, 1 / factor);
}

/** The cases that count for a cost, each with what its inverse load factor is multiplied by. */
export function costTerms({ withoutChannel }: StrengthModel, cost: ChannelTask['objective']['cost']): InverseTerm[] {
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
export function retainedTerms({ withoutChannel: { cases } }: StrengthModel, leastRetained: number): InverseTerm[] {
  return cases.flatMap(({ scales, factor }, c) =>
    scales === 'loads' && factor > 0 && factor < Number.POSITIVE_INFINITY
      ? [{ case: c, weight: (1 + margin) * leastRetained * factor, offset: -1 }]
      : [],
  );
}

/** The cases of cure alone beside others: 0 and below while the joint bears the cure. */
export function cureTerms({ withoutChannel: { cases } }: StrengthModel): InverseTerm[] {
  if (!cases.some(({ scales }) => scales === 'loads')) return [];
  return cases.flatMap(({ scales }, c) => (scales === 'cure' ? [{ case: c, weight: 1 + margin, offset: -1 }] : []));
}
