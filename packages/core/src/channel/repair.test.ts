import { describe, expect, it } from 'vitest';
import { readBrief } from '../brief/index.js';
import { genericAgents, type HealingAgent } from '../flow/index.js';
import { hostOf } from '../host/index.js';
import { outlineOf } from '../outline/index.js';
import { channelRoom, createChannelReporter, createTask, reduceJoint } from './index.js';

const {
  'thin-cyanoacrylate': glue,
  'low-viscosity-epoxy': epoxy,
  'expanding-polyurethane-foam': foam,
} = genericAgents as Readonly<Record<string, HealingAgent>>;

const brief = await readBrief(`host: { kind: tee, bendRadius: 5 }
loads: { pull: {}, cure: { deltaT: -80 } }
cases: { pulled: { pull: 1 }, served: { pull: 1, cure: 1 } }
`);
const model = reduceJoint(brief.joint, brief.channel);
const outline = outlineOf(
  { family: 'ellipse', parameters: { y: 1.2, width: 1.4, height: 0.9 } },
  channelRoom({ ...brief, joint: brief.joint }),
);
const reported = (cases: typeof brief.cases) =>
  createChannelReporter(createTask({ ...brief, cases }, model))(outline).repair([glue!, epoxy!, foam!])!;

describe('what repair gives back', () => {
  const { joint, cases } = brief;
  const sound = createTask(brief, model);
  const [pulled, served] = cases;

  it("is the agent's share of the strength where only tension of the loads acts", () => {
    const repair = reported([pulled!]);
    expect([repair.place, repair.case]).toEqual(['edge', 'pulled']);
    const virgin = hostOf(joint).material.transverseTension;
    const [byGlue, byEpoxy, byFoam] = repair.agents;
    expect(byGlue!.tensileShare).toBeCloseTo(15 / virgin, 12);
    // Stress grows with the load: half the strength bears half of it.
    expect(byGlue!.share).toBeCloseTo(15 / virgin, 9);
    expect(byGlue!.loadFactor).toBeCloseTo((repair.loadFactor * 15) / virgin, 9);
    expect(byEpoxy!.share).toBeCloseTo(45 / virgin, 9);
    // Lines of life = (strength / stress)^slope: at 1e6 cycles slope 10 leaves 10^-0.6 of the static strength, slope 6 leaves 10^-1.
    expect(byGlue!.cycledShare! / byGlue!.share!).toBeCloseTo(10 ** (0.6 - 1), 9);
    expect(byEpoxy!.cycledShare).toBeCloseTo(byEpoxy!.share!, 12);
    expect(byFoam).toEqual({ agent: foam!.name });
  });

  it('counts no stress of the cure at the healed place, and no more than the sound joint bears', () => {
    const repair = reported([served!]);
    const strength = createChannelReporter({ ...sound, cases: [served!] })(outline).strength()!;
    expect(repair.loadFactor).toBe(strength.loadFactor);
    for (const { share, loadFactor } of repair.agents.slice(0, 2)) {
      expect(share).toBeLessThanOrEqual(1);
      expect(loadFactor).toBeCloseTo(share! * repair.loadFactor, 12);
    }
    // The cure pulls at this edge: what is healed without it bears more of the load than its share of the strength.
    expect(repair.agents[0]!.share).toBeGreaterThan(15 / hostOf(joint).material.transverseTension);
  });

  it('heals an interface by the bond of the agent, each place by itself', () => {
    const { places } = model;
    const at = places.points.find(({ place }) => place === 'arc-interface')!;
    const virgin = hostOf(joint).strengthAt(at).sound;
    const repair = reported([pulled!]);
    const placeOf = (agent: number) => repair.agents[agent]!.places!.find(({ place }) => place === at.place)!;
    const [byGlue, byEpoxy] = [placeOf(0), placeOf(1)];
    expect([byGlue.tensileStrength, byGlue.shearStrength]).toEqual([12, 10]);
    expect([byEpoxy.tensileStrength, byEpoxy.shearStrength]).toEqual([
      Math.min(30, virgin.tension),
      Math.min(20, virgin.shear),
    ]);
    // All loads are scaled: strengths in the same ratio take the load factor with them, and lie between the ratios of tension and shear.
    for (const one of [byGlue, byEpoxy]) {
      const ratios = [one.tensileStrength / virgin.tension, one.shearStrength / virgin.shear];
      expect(one.loadFactor / one.sound).toBeGreaterThan(Math.min(...ratios) - 1e-9);
      expect(one.loadFactor / one.sound).toBeLessThan(Math.max(...ratios) + 1e-9);
    }
    const { bondTensileStrength, bondShearStrength, ...plain } = glue!;
    const byItself = createChannelReporter(createTask({ ...brief, cases: [pulled!] }, model))(outline).repair([plain])!;
    const healed = byItself.agents[0]!.places!.find(({ place }) => place === at.place)!;
    expect([bondTensileStrength, bondShearStrength, healed.tensileStrength]).toEqual([12, 10, 15]);
    expect(byItself.agents[0]!.places!.map(({ sound }) => sound)).toEqual(
      byItself.agents[0]!.places!.map(({ sound }) => sound).sort((a, b) => a - b),
    );
    expect(repair.crackMeets).toBe(true);
  });

  it('bears the root of the share of toughness, by itself or where strengths allow more', () => {
    const { tensileStrength: _tension, shearStrength: _shear, ...liquid } = foam!;
    const tough = { ...liquid, name: 'tough', toughnessShare: 0.25 };
    const strongAndTough = { ...epoxy!, name: 'both', toughnessShare: 0.25 };
    const weakAndTough = { ...glue!, name: 'weak', toughnessShare: 0.81 };
    const report = createChannelReporter(createTask({ ...brief, cases: [pulled!] }, model))(outline);
    const { agents, loadFactor, place } = report.repair([tough, strongAndTough, weakAndTough, glue!])!;
    const virgin = hostOf(joint).material;
    const [alone, both, weak, plain] = agents;
    // Loads alone act in this case, so that the load factor goes as the strength: K^2 = E' G.
    expect(alone!.share).toBeCloseTo(0.5, 9);
    expect(alone!.loadFactor).toBeCloseTo(loadFactor / 2, 9);
    expect(alone!.tensileStrength).toBeCloseTo(virgin.transverseTension / 2, 9);
    expect(alone!.places!.find((one) => one.place === place)!.loadFactor).toBe(alone!.loadFactor);
    for (const one of alone!.places!) expect(one.loadFactor).toBeCloseTo(one.sound / 2, 9);
    expect(both!.share).toBeCloseTo(0.5, 9);
    expect([alone!.byToughness, both!.byToughness, weak!.byToughness]).toEqual([true, true, undefined]);
    expect({ ...weak!, agent: plain!.agent }).toEqual(plain);
    expect(report.repair([{ ...tough, toughnessShare: 4 }])!.agents[0]!.share).toBe(1);
  });
});
