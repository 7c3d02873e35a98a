import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { agentCaution, agentQuantities, genericAgents, type HealingAgent } from './agents.js';
import { completeDelivery } from './delivery.js';

const agent: HealingAgent = { ...genericAgents['low-viscosity-epoxy'] };

describe('healing agents', () => {
  it('have built-in kinds that lie in their ranges and are marked as typical, from memory', () => {
    for (const generic of Object.values(genericAgents)) {
      expect(() => completeDelivery({ agents: [generic] })).not.toThrow();
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
      for (const value of [Number.NaN, Number.NEGATIVE_INFINITY, 1e99, undefined, '3']) {
        // What an agent gives back may be unknown.
        if (value === undefined && /Strength$|^fatigueSlope$|^toughnessShare$/.test(key)) continue;
        expect(() => completeDelivery({ agents: [{ ...agent, [key]: value } as HealingAgent] })).toThrow(InputError);
      }
    expect(() => completeDelivery({ agents: [{ ...agent, viscosity: 0, contactAngle: 200 }] })).toThrow(
      'delivery.agents[0].viscosity: expected a number above 0 and at most 10000000 mPa s, received 0; change it to a number in this range\n' +
        'delivery.agents[0].contactAngle: expected a number at least 0 and at most 180 deg, received 200',
    );
  });
});
