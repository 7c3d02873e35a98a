import { describe, expect, it } from 'vitest';
import { InputError, type InputProblem } from '../errors.js';
import { defaultDelivery, genericAgents, genericWater } from '../flow/index.js';
import { canonicalBrief, readBrief } from './index.js';

const joint = `host: { kind: tee }
loads: { pull: {}, cure: {}, pressure: {} }
cases: { cured: { cure: 1 }, pulled: { cure: 1, pull: 1 } }
`;

const deliveryOf = async (section: string) => (await readBrief(joint + section)).delivery;

async function problemsOf(section: string): Promise<readonly InputProblem[]> {
  try {
    await readBrief(joint + section, { file: 'joint.yaml' });
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
  return [];
}

describe('the section delivery', () => {
  it('may be left out: the defaults of flow, with the cure load alone acting', async () => {
    const { during, ...delivery } = await deliveryOf('');
    expect(delivery).toEqual(defaultDelivery);
    expect(during.factors).toEqual({ cure: 1 });
    const plate = await readBrief('host: { kind: plate }\nloads: { farField: { sx: 1 } }');
    expect(plate.delivery.during.factors).toEqual({});
  });

  it('takes built-in agents, agents and a coolant of your own, and a case that acts', async () => {
    const delivery = await deliveryOf(`delivery:
  during: pulled
  supply: { reservoir: 500, vented: false }
  agents:
    - low-viscosity-epoxy
    - { name: our resin, viscosity: 80, gelTime: 900, volumeChange: -0.03, largestGap: 0.6 }
  damage: { shape: strip, aspect: 0.5 }
  cooling: { coolant: { name: glycol mix, viscosity: 4, density: 1070, heatCapacity: 3400 } }
`);
    expect(delivery.during).toEqual({ name: 'pulled', factors: { cure: 1, pull: 1 } });
    expect(delivery.supply).toEqual({ pressure: defaultDelivery.supply.pressure, reservoir: 500, vented: false });
    expect(delivery.agents[0]).toEqual(genericAgents['low-viscosity-epoxy']);
    // What is left out of an agent neither helps nor hinders it.
    expect(delivery.agents[1]).toMatchObject({ viscosityGrowth: 1, surfaceTension: 0, contactAngle: 90 });
    expect(delivery.damage).toEqual({ ...defaultDelivery.damage, shape: 'strip', aspect: 0.5 });
    expect(delivery.cooling.coolant.name).toBe('glycol mix');
    expect((await deliveryOf('delivery: { cooling: { pressureDrop: 0.5 } }')).cooling.coolant).toEqual(genericWater);
  });

  it('survives JSON, also with an unlimited reservoir', async () => {
    const delivery = await deliveryOf('');
    expect(JSON.parse(JSON.stringify(delivery))).toEqual(delivery);
  });

  it('is content that a result depends on', async () => {
    const change = await readBrief(`${joint}delivery: { length: 201 }`);
    expect(canonicalBrief(change)).not.toBe(canonicalBrief(await readBrief(joint)));
  });

  it.each([
    ['delivery: { length: 0 }', 'delivery.length', 4, /above 0 and at most 1000000 mm, received 0/],
    ['delivery:\n  supply: { pressure: -1 }', 'delivery.supply.pressure', 5, /at least 0/],
    ['delivery:\n  supply:\n    vented: maybe', 'delivery.supply.vented', 6, /true or false/],
    ['delivery: { supply: { reservoir: .inf } }', 'delivery.supply.reservoir', 4, /received Infinity/],
    ['delivery: { agents: [] }', 'delivery.agents', 4, /a list of 1 to 20 agents/],
    [
      'delivery: { agents: [thin-cyanoacrylat] }',
      'delivery.agents[0]',
      4,
      /one of thin-cyanoacrylate, .* or a mapping/,
    ],
    ['delivery: { agents: [{ name: a, viscosity: 1 }] }', 'delivery.agents[0].gelTime', 4, /received nothing; add it/],
    ['delivery:\n  damage:\n    areaFrom: 9\n    areaTo: 5', 'delivery.damage.areaTo', 7, /at least areaFrom, 9 mm2/],
    ['delivery: { damage: { shape: disk } }', 'delivery.damage.shape', 4, /did you mean 'disc'/],
    ['delivery: { cooling: { coolant: { name: oil } } }', 'delivery.cooling.coolant.viscosity', 4, /add it/],
    ['delivery: { sensor: { diametre: 1 } }', 'delivery.sensor.diametre', 4, /did you mean 'diameter'/],
    ['delivery: { during: pullled }', 'delivery.during', 4, /cured, pulled, received "pullled"; did you mean 'pulled'/],
  ])('refuses %j', async (section, path, line, says) => {
    const problems = await problemsOf(section);
    const problem = problems.find((one) => one.path === path);
    expect(problem, JSON.stringify(problems)).toBeDefined();
    expect([problem?.file, problem?.line]).toEqual(['joint.yaml', line]);
    expect(`expected ${problem?.expected}, received ${problem?.received}; ${problem?.remedy}`).toMatch(says);
  });
});
