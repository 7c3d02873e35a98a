import { type ChannelTask, createStrengthModel, type SolvedEdge, type StrengthOptions } from '@lumenfront/core';

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
 * strengths S under (c / f) C fails at a load smaller by f. So only the ratio of cure to strength counts, and the
 * edge is not solved again.
 */
export function createMadeStrength(
  { model, joint, loads, cases }: ChannelTask,
  options: StrengthOptions,
): (edge: SolvedEdge, strength: number, cure: number) => MadeStrength {
  const given = createStrengthModel(model, joint, loads, cases, options);
  const cures = loads.cure !== undefined && cases.some(({ factors }) => (factors.cure ?? 0) !== 0);
  const scalesLoads = given.withoutChannel.cases.some(({ scales }) => scales === 'loads');
  return (edge, strength, cure) => {
    const ratio = cures ? cure / strength : 1;
    const { loadFactor, retained, place } = (ratio === 1 ? given : given.withCure(ratio)).evaluate(edge);
    // Where cure alone is scaled, the ratio has said all.
    return { loadFactor: scalesLoads ? strength * loadFactor : loadFactor, retained, place };
  };
}
