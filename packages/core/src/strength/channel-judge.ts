import { type ChannelJudge, type ChannelTask, limitsStrength } from '../stress/index.js';
import { createStrengthModel, type JointStrength } from './joint-strength.js';

/** Kept from both limits: a report, with more nodes than a search, must find them kept as well. */
const margin = 0.003;

/**
 * What a channel scorer needs to keep a task's `strength.leastRetained` and `strength.startsAwayFromEdge`; `undefined` where neither is
 * asked. Retained strength that lacks counts as a share of what is asked (1 and more where the joint fails in the cure, the
 * further the earlier); a start at the edge counts as the share by which the edge is weaker than the next place, in the case that fails first.
 */
export function createChannelJudge(task: ChannelTask): ChannelJudge | undefined {
  const { model, joint, loads, cases, strength: wish } = task;
  if (wish === undefined || !limitsStrength(task)) return undefined;
  const strength = createStrengthModel(model, joint, loads, cases, wish);
  const { leastRetained = 0, startsAwayFromEdge } = wish;
  return (stress, nodes, mirror, inner) => {
    const found = strength.evaluate(stress, nodes, mirror, inner);
    if (Number.isNaN(found.loadFactor)) return Number.NaN;
    const lacking = leastRetained > 0 ? lackOf(found, leastRetained) : Number.NEGATIVE_INFINITY;
    if (!startsAwayFromEdge) return lacking;
    const { places } = strength.survey(stress, nodes, mirror, inner)[found.worstCase]!;
    let edge = Number.POSITIVE_INFINITY;
    let elsewhere = Number.POSITIVE_INFINITY;
    for (const { place, factor } of places) {
      if (place === 'edge') edge = Math.min(edge, factor);
      else elsewhere = Math.min(elsewhere, factor);
    }
    return Math.max(lacking, leadOf(edge, elsewhere));
  };
}

function lackOf({ cases, retained }: JointStrength, leastRetained: number): number {
  if (retained > 0) return 1 + margin - retained / leastRetained;
  const cured = Math.min(1, ...cases.filter(({ scales }) => scales === 'cure').map(({ factor }) => factor));
  return 2 - cured;
}

/** Share by which the edge fails before any other place; below 0 where it does not, at most 1. */
function leadOf(edge: number, elsewhere: number): number {
  if (edge === Number.POSITIVE_INFINITY) return -1;
  if (elsewhere === Number.POSITIVE_INFINITY) return 1;
  // Where both fail in the cure, the edge does.
  return elsewhere === 0 ? 1 : Math.max(-1, 1 + margin - edge / elsewhere);
}
