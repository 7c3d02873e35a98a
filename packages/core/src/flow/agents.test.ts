import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { agentCaution, agentQuantities, checkAgent, genericAgents, type HealingAgent } from './agents.js';

const agent: HealingAgent = { ...genericAgents['low-viscosity-epoxy'] };

describe('healing agents', () => {
  it('have built-in kinds that lie in their ranges and are marked as typical, from memory', () => {
    for (const [key, generic] of Object.entries(genericAgents)) {
      expect(() => checkAgent(generic, key)).not.toThrow();
      expect(generic.caution).toBe(agentCaution);
    }
  });

  it('order as their names say: viscosity, and shrinkage against expansion', () => {
    const {
      'thin-cyanoacrylate': thin,
      'low-viscosity-epoxy': epoxy,
      'expanding-polyurethane-foam': foam,
    } = genericAgents;
    expect(thin.viscosity).toBeLessThan(epoxy.viscosity);
    expect(thin.gelTime).toBeLessThan(epoxy.gelTime);
    expect(thin.volumeChange).toBeLessThan(0);
    expect(foam.volumeChange).toBeGreaterThan(0);
  });

  it('are refused for every number that is NaN, missing or out of range, all at once', () => {
    for (const key of Object.keys(agentQuantities))
      for (const value of [Number.NaN, Number.NEGATIVE_INFINITY, 1e99, undefined, '3'])
        expect(() => checkAgent({ ...agent, [key]: value } as HealingAgent, 'agents[0]')).toThrow(InputError);
    expect(() => checkAgent({ ...agent, viscosity: 0, contactAngle: 200 }, 'delivery.agents[0]')).toThrow(
      'delivery.agents[0].viscosity: expected a number above 0 and at most 10000000 mPa s, received 0; change it to a number in this range\n' +
        'delivery.agents[0].contactAngle: expected a number at least 0 and at most 180 deg, received 200',
    );
  });
});
