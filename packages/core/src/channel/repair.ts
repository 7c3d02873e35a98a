import type { HealingAgent } from '../flow/index.js';
import { hostOf, isInterface } from '../host/index.js';
import { power } from '../power.js';
import type { AgentRepair, RepairReport } from '../result/index.js';
import { crackCourse, createStrengthModel, type Healed, type StrengthModel, slopeOf } from '../strength/index.js';
import type { SolvedEdge } from '../stress/index.js';
import type { ChannelTask } from './task.js';

/** Cycles at which lives are compared. */
const repairCycles = 1e6;

/** What repair by each agent gives back of a joint with a solved channel; `undefined` where no case of loads makes anything fail. */
export type JudgeRepair = (edge: SolvedEdge, agents: readonly HealingAgent[]) => RepairReport | undefined;

/**
 * What repair gives back where a joint with its channel fails first, agent by agent, and of every other place, repaired by itself. A healed place bears the agent's
 * tension and shear, an interface its bond, never more than the sound one did. Damage has released the stress of the cure there, and the agent hardens
 * without: so loads alone count at a healed place. Beside it the same material stands as before, so that the joint bears no more than it did. Stiffness
 * stays as it was, and the agent is taken to fill all of the damage and to stick to both its faces.
 *
 * Where the toughness of a healed crack is known, the place bears the root of its share, too: K^2 = E' G (Irwin, J. Appl. Mech. 24 (1957) 361-364), and
 * stress goes as K for cracks as long as before.
 *
 * Lives go by lines `life = (strength / stress)^slope` (Basquin, Proc. ASTM 10 (1910) 625-630, from memory): an agent that is as strong in a static
 * test may do poorly in fatigue.
 *
 * Makes what it needs of an agent once for all channels.
 */
export function createRepair(task: Omit<ChannelTask, 'objective'>): JudgeRepair {
  const { model, joint, loads, cases, strength: wish } = task;
  const host = hostOf(joint);
  if (!host.judgesSection) return () => undefined;
  const soundModel = createStrengthModel(model, joint, loads, cases, wish);
  const models = new Map<string, StrengthModel>();
  const repairedModel = (healed: Healed): StrengthModel => {
    const key = JSON.stringify(healed);
    const known = models.get(key) ?? createStrengthModel(model, joint, loads, cases, { ...wish, healed }).withCure(0);
    models.set(key, known);
    return known;
  };

  return (edge, agents) => {
    const sound = soundModel.evaluate(edge, 'places');
    const worst = sound.cases
      .filter(({ scales, factor }) => scales === 'loads' && factor > 0 && Number.isFinite(factor))
      .reduce<(typeof sound.cases)[number] | undefined>(
        (a, b) => (a === undefined || b.factor < a.factor ? b : a),
        undefined,
      );
    if (worst === undefined || worst.place === 'none') return undefined;
    const { name: caseName, place, factor: loadFactor } = worst;
    const c = sound.cases.indexOf(worst);
    const soundSlope = slopeOf(worst.criterion, wish.fatigue);
    const meets = crackCourse(joint, soundModel, edge, c, worst)?.meets;
    const places = worst.places
      .filter(({ factor }) => factor > 0 && Number.isFinite(factor))
      .map((one) => ({ place: one.place, sound: one.factor }))
      .sort((a, b) => a.sound - b.sound);

    const factorsOf = (healed: Healed) => {
      const [...factors] = repairedModel(healed).survey(edge)[c]!.places;
      return (at: string) => factors.find((one) => one.place === at)?.factor ?? Number.POSITIVE_INFINITY;
    };
    const repairedBy = (agent: HealingAgent): AgentRepair => {
      const { name, fatigueSlope, toughnessShare } = agent;
      const healed = healedBy(agent);
      if (healed === undefined) return { agent: name };
      const byStrength = factorsOf(healed);
      const tough = Math.min(1, Math.sqrt(toughnessShare ?? 1));
      const soundWithoutCure = tough === 1 ? byStrength : factorsOf(asSound);
      const repaired = places.map((one) => {
        const virgin = strengthOf(task, one.place);
        const { tension, shear } = isInterface(joint.kind, one.place) ? healed.bond : healed;
        return {
          ...one,
          loadFactor: Math.min(one.sound, byStrength(one.place), tough * soundWithoutCure(one.place)),
          tensileStrength: Math.min(tension, tough * virgin.tension),
          shearStrength: Math.min(shear, tough * virgin.shear),
        };
      });
      const first = repaired.find((one) => one.place === place)!;
      const virgin = strengthOf(task, place);
      const share = first.loadFactor / loadFactor;
      return {
        agent: name,
        tensileStrength: first.tensileStrength,
        shearStrength: first.shearStrength,
        tensileShare: first.tensileStrength / virgin.tension,
        shearShare: first.shearStrength / virgin.shear,
        loadFactor: first.loadFactor,
        share,
        ...(tough * soundWithoutCure(place) < Math.min(byStrength(place), loadFactor) ? { byToughness: true } : {}),
        ...(fatigueSlope === undefined
          ? {}
          : { cycledShare: Math.min(1, share * power(repairCycles, 1 / soundSlope - 1 / fatigueSlope)) }),
        places: repaired,
      };
    };
    return {
      ...{ case: caseName, place, loadFactor, cycles: repairCycles },
      ...(meets === undefined ? {} : { crackMeets: meets }),
      agents: agents.map(repairedBy),
    };
  };
}

const unbounded = { tension: Number.POSITIVE_INFINITY, shear: Number.POSITIVE_INFINITY };

/** As strong as the sound joint everywhere. */
const asSound: Healed = { ...unbounded, bond: unbounded };

/** What an agent bears; `undefined` where that is not known. Of one whose toughness alone is known, that alone counts. */
function healedBy({
  tensileStrength: tension,
  shearStrength: shear,
  bondTensileStrength = tension,
  bondShearStrength = shear,
  toughnessShare,
}: HealingAgent): Healed | undefined {
  if (tension === undefined || shear === undefined) return toughnessShare === undefined ? undefined : asSound;
  const bond = { tension: Math.min(tension, bondTensileStrength!), shear: Math.min(shear, bondShearStrength!) };
  return { tension, shear, bond };
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
