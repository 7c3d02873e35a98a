import {
  type ChannelTask,
  createStrengthModel,
  type LoadCase,
  type SolvedEdge,
  type StrengthModel,
  type StrengthOptions,
} from '@lumenfront/core';

/** What a made joint bears. */
export interface MadeStrength {
  readonly loadFactor: number;
  readonly retained: number;
  readonly place: string;
}

/**
 * Judges the strength of made joints: all strengths times `strength`, the cure load times `cure`.
 *
 * Criteria are of the first degree in stress over strength: a joint of strengths f S under the cure c C fails where one of
 * strengths S under (c / f) C fails at a load smaller by f. So only the ratio of cure to strength asks for another strength model, and the
 * edge is not solved again.
 */
export function createMadeStrength(
  { model, joint, loads, cases }: ChannelTask,
  options: StrengthOptions,
): (edge: SolvedEdge, strength: number, cure: number) => MadeStrength {
  const withCure = (ratio: number): LoadCase[] =>
    cases.map(({ name, factors }) => ({
      name,
      factors: factors.cure === undefined ? factors : { ...factors, cure: ratio * factors.cure },
    }));
  const strengthAt = (ratio: number): StrengthModel =>
    createStrengthModel(model, joint, loads, withCure(ratio), options);
  const cures = loads.cure !== undefined && cases.some(({ factors }) => (factors.cure ?? 0) !== 0);
  const scalesLoads = cases.some((one) => !isCureAlone(one));
  const given = strengthAt(1);

  return (edge, strength, cure) => {
    const ratio = cures ? cure / strength : 1;
    const judge = ratio === 1 ? given : strengthAt(ratio);
    const scaled =
      ratio === 1
        ? edge
        : { ...edge, cases: edge.cases.map((one, c) => (isCureAlone(cases[c]!) ? scaledBy(ratio, one) : one)) };
    const { loadFactor, retained, place } = judge.evaluate(scaled);
    // Where cure alone is scaled, the ratio has said all.
    return { loadFactor: scalesLoads ? strength * loadFactor : loadFactor, retained, place };
  };
}

function isCureAlone({ factors }: LoadCase): boolean {
  const acting = Object.entries(factors).filter(([, factor]) => factor !== 0);
  return acting.length === 1 && acting[0]![0] === 'cure';
}

type Extremes = SolvedEdge['cases'][number];

function scaledBy(ratio: number, { peak, peakX, peakY, least }: Extremes): Extremes {
  return { peak: ratio * peak, peakX, peakY, least: ratio * least };
}
