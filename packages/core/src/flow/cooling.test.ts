import { describe, expect, it } from 'vitest';
import { cool, water } from './cooling.js';
import type { Duct } from './fill-time.js';

const tube: Duct = {
  area: Math.PI * 0.25,
  perimeter: Math.PI,
  flowFactor: Math.PI / 128,
  length: 500,
};

describe('cool', () => {
  it('is Hagen and Poiseuille in a tube of 1 mm, in SI: Q = pi d^4 dp / (128 mu L)', () => {
    const { flowRate, velocity, regime, heatCapacityRate, wettedPerimeter, wettedArea } = cool(tube, water, 0.01);
    const si = (Math.PI * 1e-3 ** 4 * 1e4) / (128 * 1e-3 * 0.5); // m3/s
    expect(flowRate).toBeCloseTo(si * 1e9, 9);
    const metrePerSecond = si / ((Math.PI / 4) * 1e-6);
    expect(velocity).toBeCloseTo(metrePerSecond * 1e3, 9);
    expect(regime.reynolds).toBeCloseTo((998 * metrePerSecond * 1e-3) / 1e-3, 9);
    expect(regime.laminar).toBe(true);
    expect(heatCapacityRate).toBeCloseTo(si * 998 * 4180, 12);
    expect(wettedPerimeter).toBe(Math.PI);
    expect(wettedArea).toBeCloseTo(500 * Math.PI, 9);
  });

  it('says where flow need not be laminar any more', () => {
    // Re = 998 * 0.625 m/s * 1e-3 m / 1e-3 Pa s = 623.75 at 0.01 MPa
    expect(cool(tube, water, 0.0368).regime.laminar).toBe(true);
    expect(cool(tube, water, 0.0369).regime.laminar).toBe(false);
  });

  it('has a run-in length of about 0.06 Re diameters in a fast tube and 0.6 in a slow one (White; Shah & London)', () => {
    const fast = cool(tube, water, 0.03);
    expect(fast.runIn / fast.regime.reynolds).toBeCloseTo(0.056, 3);
    expect(cool(tube, water, 1e-7).runIn).toBeCloseTo(0.6, 2);
  });
});
