import { describe, expect, it } from 'vitest';
import { coolDuct, genericWater } from './cooling.js';
import type { Duct } from './duct-flow.js';

const tube: Duct = {
  area: Math.PI * 0.25,
  perimeter: Math.PI,
  conductance: Math.PI / 128,
  length: 500,
};
const driven = (pressureDrop: number, flowLimit?: number) =>
  coolDuct(tube, { coolant: genericWater, pressureDrop, ...(flowLimit === undefined ? {} : { flowLimit }) });

describe('cool', () => {
  it('is Hagen and Poiseuille in a slow tube of 1 mm, in SI: Q = pi d^4 dp / (128 mu L)', () => {
    const { flowRate, velocity, regime, heatCapacityRate, wettedPerimeter, wettedArea } = driven(1e-6);
    const si = (Math.PI * 1e-3 ** 4 * 1) / (128 * 1e-3 * 0.5); // m3/s
    expect(flowRate / (si * 1e9)).toBeCloseTo(1, 4);
    const metrePerSecond = (flowRate * 1e-9) / ((Math.PI / 4) * 1e-6);
    expect(velocity).toBeCloseTo(metrePerSecond * 1e3, 9);
    expect(regime.reynolds).toBeCloseTo((998 * metrePerSecond * 1e-3) / 1e-3, 9);
    expect(regime.kind).toBe('laminar');
    expect(heatCapacityRate).toBeCloseTo(flowRate * 1e-9 * 998 * 4180, 12);
    expect(wettedPerimeter).toBe(Math.PI);
    expect(wettedArea).toBeCloseTo(500 * Math.PI, 9);
  });

  it('loses (1 + K)/2 density velocity^2 more than Hagen and Poiseuille, and half a head at the inlet, once it has run in', () => {
    const { flowRate, velocity } = driven(0.02);
    const lost = 0.02 - (128 * 1e-9 * 500 * flowRate) / Math.PI;
    expect(lost / (998e-12 * velocity ** 2)).toBeCloseTo((1.5 + 1.25) / 2, 1);
  });

  it('gives no more than the pump, at the pressure that this takes', () => {
    const free = driven(0.02);
    const limited = driven(0.02, free.flowRate / 2);
    expect([free.limitedBy, limited.limitedBy, driven(0.02, 2 * free.flowRate).limitedBy]).toEqual([
      'pressure',
      'flow',
      'pressure',
    ]);
    expect(limited.flowRate).toBe(free.flowRate / 2);
    expect(driven(limited.pressureDrop).flowRate / limited.flowRate).toBeCloseTo(1, 9);
  });

  it('has a run-in length of about 0.06 Re diameters in a fast tube and 0.6 in a slow one (White; Shah & London)', () => {
    const fast = driven(0.03);
    expect(fast.runIn / fast.regime.reynolds).toBeCloseTo(0.056, 3);
    expect(driven(1e-7).runIn).toBeCloseTo(0.6, 2);
  });

  it('takes up all that a long wall gives, and h A per kelvin of a short one', () => {
    const slow = driven(1e-6);
    expect(slow.wall!.rate / slow.heatCapacityRate).toBeCloseTo(1, 6);
    const short = coolDuct({ ...tube, length: 1 }, { coolant: genericWater, pressureDrop: 0.01 });
    expect(short.wall!.rate / (short.wall!.coefficient * Math.PI * 1e-6)).toBeCloseTo(1, 1);
    const { conductivity: _, ...unknown } = genericWater;
    expect(coolDuct(tube, { coolant: unknown, pressureDrop: 0.01 }).wall).toBeUndefined();
  });
});
