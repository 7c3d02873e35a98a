import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { agentCaution, genericAgents } from './agents.js';
import { deliver } from './deliver.js';
import { completeDelivery, type DeliverySection, defaultDelivery } from './delivery.js';
import { healDamage } from './healing.js';
import { ellipse } from './test/curves.js';

describe('completeDelivery', () => {
  it('fills in the default for what is left out and takes built-in agents by name', () => {
    expect(completeDelivery({})).toEqual(defaultDelivery);
    const own = { ...genericAgents['low-viscosity-epoxy'], name: 'our resin', viscosity: 80 };
    const delivery = completeDelivery({
      supply: { pressure: 0.3 },
      agents: ['thin-cyanoacrylate', own],
      damage: { opening: 0.1 },
    });
    expect(delivery.supply).toEqual({ ...defaultDelivery.supply, pressure: 0.3 });
    expect(delivery.agents).toEqual([genericAgents['thin-cyanoacrylate'], own]);
    expect(delivery.damage).toEqual({ ...defaultDelivery.damage, opening: 0.1 });
  });

  it('refuses what is out of range, NaN, unknown or the wrong way round, with its path', () => {
    const refusal = (section: DeliverySection) => {
      try {
        completeDelivery(section);
      } catch (error) {
        if (error instanceof InputError) return error.problems.map((problem) => problem.path);
        throw error;
      }
      return [];
    };
    expect(refusal({ length: Number.NaN, supply: { reservoir: 0 } })).toEqual([
      'delivery.length',
      'delivery.supply.reservoir',
    ]);
    expect(refusal({ agents: ['glue' as 'thin-cyanoacrylate'] })).toEqual(['delivery.agents[0]']);
    expect(refusal({ damage: { areaFrom: 10, areaTo: 5 } })).toEqual(['delivery.damage.areaTo']);
    expect(refusal({ cooling: { pressureDrop: -1 }, sensor: { diameter: -1 } })).toEqual([
      'delivery.cooling.pressureDrop',
      'delivery.sensor.diameter',
    ]);
    expect(() => completeDelivery({ supply: { reservoir: -1 } })).toThrow(
      'delivery.supply.reservoir: expected a number above 0 and at most 1000000000 mm3, received -1; change it',
    );
  });
});

describe('deliver', () => {
  const outline = ellipse(256, 0.9, 0.5, 0, 1.25);
  const delivery = completeDelivery({ sensor: { diameter: 0.25 } });

  it('reports flow, cooling, sensor and every agent with its caution', () => {
    const { flow, cooling, sensor, healing } = deliver(outline, delivery);
    expect(flow.area).toBeCloseTo(Math.PI * 0.45, 10);
    expect(cooling.wettedPerimeter).toBe(flow.perimeter);
    // The largest circle in an ellipse has its minor semi-axis.
    expect(sensor.largest.radius / 0.5).toBeCloseTo(1, 3);
    expect(sensor.fits).toBe(true);
    expect(sensor.flowShare).toBeGreaterThan(0.3);
    expect(sensor.flowShare).toBeLessThan(0.9);
    expect(healing.map(({ agent }) => agent)).toEqual(delivery.agents.map(({ name }) => name));
    for (const { caution } of healing) expect(caution).toBe(agentCaution);
  });

  it('agrees with itself: window, reach and both ends of the range', () => {
    for (const { window, reach, smallestDamage, largestDamage } of deliver(outline, delivery).healing) {
      if ('obstacle' in window || 'obstacle' in reach) {
        expect(smallestDamage.healed || largestDamage.healed).toBe(false);
        continue;
      }
      expect(smallestDamage.healed).toBe(window.limitBelow === 'range');
      expect(largestDamage.healed).toBe(window.limitAbove === 'range');
      expect(window.areaTo / Math.min(reach.areaTo, delivery.damage.areaTo)).toBeCloseTo(1, 10);
    }
  });

  it('carries the limit of the edge to every agent', () => {
    const edge = { stressPerPressure: 4, allowedStress: 0.2 };
    const [first] = deliver(outline, delivery, edge).healing;
    expect(first?.largestDamage.pressure).toBeCloseTo(0.05, 14);
    expect(first?.largestDamage).toEqual(
      healDamage({
        duct: { ...deliver(outline, delivery).flow, length: delivery.length },
        supply: delivery.supply,
        agent: delivery.agents[0]!,
        damage: { shape: 'disc', aspect: 1, opening: 0.05, area: 2500 },
        leastShare: 0.8,
        edge,
      }),
    );
  });

  it('says where a sensor does not fit, and 1 for the flow where none is asked for', () => {
    const sensor = (diameter: number) => deliver(outline, completeDelivery({ sensor: { diameter } })).sensor;
    expect(sensor(1.01)).toMatchObject({ fits: false, flowShare: 0 });
    expect(sensor(0)).toMatchObject({ fits: true, flowShare: 1 });
  });
});

describe('two channels', () => {
  const delivery = completeDelivery({ length: 100 });
  const outline = ellipse(256, 1, 0.5);
  const one = deliver(outline, delivery);

  it('in parallel carry twice what one does and fill as one of twice its area', () => {
    const both = deliver(outline, delivery, undefined, 'parallel');
    expect(both.flow.area).toBeCloseTo(2 * one.flow.area, 12);
    expect(both.flow.conductance).toBeCloseTo(2 * one.flow.conductance, 12);
    expect(both.flow.hydraulicDiameter).toBe(one.flow.hydraulicDiameter);
    expect(both.cooling.flowRate / one.cooling.flowRate).toBeCloseTo(2, 9);
    expect(both.cooling.velocity / one.cooling.velocity).toBeCloseTo(1, 9);
    expect(both.cooling.regime.reynolds / one.cooling.regime.reynolds).toBeCloseTo(1, 9);
    expect(both.cooling.wall!.rate / one.cooling.wall!.rate).toBeCloseTo(2, 9);
    // The front goes as fast in each.
    const primed = ({ healing }: typeof one) => healing[0]!.smallestDamage.primingTime;
    expect(primed(both) / primed(one)).toBeCloseTo(1, 9);
    expect(both.sensor).toEqual(one.sensor);
  });

  it('in series carry what one of twice the length does; the agent comes through one', () => {
    const series = deliver(outline, delivery, undefined, 'series');
    const twice = deliver(outline, completeDelivery({ length: 200 }));
    expect(series.cooling).toEqual(twice.cooling);
    expect(series.flow).toEqual(one.flow);
    expect(series.healing).toEqual(one.healing);
    const five = deliver(outline, delivery, undefined, 'series', 5);
    expect(five.cooling).toEqual(deliver(outline, completeDelivery({ length: 500 })).cooling);
  });
});
