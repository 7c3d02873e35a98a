import type { HealingAgent } from '../flow/index.js';
import { hostOf } from '../host/index.js';
import { power } from '../power.js';
import type { AgentRepair, RepairReport } from '../result/index.js';
import { createStrengthModel, type HealedPlace, slopeOf } from '../strength/index.js';
import type { SolvedEdge } from '../stress/index.js';
import type { ChannelTask } from './task.js';

/** Cycles at which lives are compared. */
export const repairCycles = 1e6;

/**
 * What repair gives back where a joint with its channel fails first, agent by agent. The healed place bears the agent's tension and shear, never more
 * than the sound one did. Damage has released the stress of the cure there, and the agent hardens without: so loads alone count at the healed
 * place. Beside it the same material stands as before, so that the joint bears no more than it did. Stiffness stays as it was, and the agent is
 * taken to fill all of the damage and to stick to both its faces.
 *
 * Lives go by lines `life = (strength / stress)^slope` (Basquin, Proc. ASTM 10 (1910) 625-630, from memory): an agent that is as strong in a static
 * test may do poorly in fatigue.
 *
 * @returns undefined where no case of loads makes anything fail
 */
export function repairReport(
  task: Omit<ChannelTask, 'objective'>,
  edge: SolvedEdge,
  agents: readonly HealingAgent[],
): RepairReport | undefined {
  const { model, joint, loads, cases, strength: wish } = task;
  const host = hostOf(joint);
  if (!host.judgesSection) return undefined;
  const sound = createStrengthModel(model, joint, loads, cases, wish).evaluate(edge);
  const worst = sound.cases
    .filter(({ scales, factor }) => scales === 'loads' && factor > 0 && Number.isFinite(factor))
    .reduce<(typeof sound.cases)[number] | undefined>(
      (a, b) => (a === undefined || b.factor < a.factor ? b : a),
      undefined,
    );
  if (worst === undefined || worst.place === 'none') return undefined;
  const { name: caseName, place, factor: loadFactor } = worst;
  const c = sound.cases.indexOf(worst);
  const virgin = strengthOf(task, place);
  const soundSlope = slopeOf(worst.criterion, wish.fatigue);

  const repairedBy = (agent: HealingAgent): AgentRepair => {
    const { name, tensileStrength, shearStrength, fatigueSlope } = agent;
    if (tensileStrength === undefined || shearStrength === undefined) return { agent: name };
    const healed: HealedPlace = { place, tension: tensileStrength, shear: shearStrength };
    const repaired = createStrengthModel(model, joint, loads, cases, { ...wish, healed }).withCure(0);
    const atPlace = repaired.survey(edge)[c]!.places.find((one) => one.place === place)?.factor;
    const share = Math.min(1, (atPlace ?? Number.POSITIVE_INFINITY) / loadFactor);
    return {
      agent: name,
      tensileStrength: Math.min(tensileStrength, virgin.tension),
      shearStrength: Math.min(shearStrength, virgin.shear),
      tensileShare: Math.min(1, tensileStrength / virgin.tension),
      shearShare: Math.min(1, shearStrength / virgin.shear),
      loadFactor: share * loadFactor,
      share,
      ...(fatigueSlope === undefined
        ? {}
        : { cycledShare: Math.min(1, share * power(repairCycles, 1 / soundSlope - 1 / fatigueSlope)) }),
    };
  };
  return { case: caseName, place, loadFactor, cycles: repairCycles, agents: agents.map(repairedBy) };
}

/** What the sound place bears, MPa: of a laminate, its weakest layer. */
function strengthOf(
  { model, joint }: Omit<ChannelTask, 'objective'>,
  place: string,
): { tension: number; shear: number } {
  const host = hostOf(joint);
  const there = model.places.points
    .filter((point) => point.place === place)
    .map((point) => host.strengthAt(point).sound);
  // At the edge, and where a filler is judged at its interfaces alone, it is the material around the channel.
  if (there.length === 0) return { tension: host.material.transverseTension, shear: host.material.interlaminarShear };
  const least = (of: 'tension' | 'shear') => there.reduce((a, b) => Math.min(a, b[of]), Number.POSITIVE_INFINITY);
  return { tension: least('tension'), shear: least('shear') };
}
