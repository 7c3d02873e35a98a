import { describe, expect, it } from 'vitest';
import { genericAgents, type HealingAgent } from './agents.js';
import { type Duct, drivenFlow, ductFlow, pressureLoss } from './duct-flow.js';
import { type Damage, fillTime, type Supply } from './fill-time.js';
import { apparentFriction } from './friction.js';
import { flowRegime } from './regime.js';

/** Round tube of 1 mm, 180 mm long. */
const tube: Duct = { area: Math.PI / 4, perimeter: Math.PI, conductance: Math.PI / 128, length: 180 };
const water = { viscosity: 1e-9, density: 998e-12 };

describe('friction', () => {
  it('is 16/Re in a long tube that is slow, and grows with the Reynolds number over any length', () => {
    expect(apparentFriction(1, 16, 1e6)).toBeCloseTo(16, 5);
    for (const diameters of [0.1, 1, 10, 100, 1e4]) {
      let before = 0;
      for (let reynolds = 1; reynolds < 1e6; reynolds *= 1.05) {
        const friction = apparentFriction(reynolds, 16, diameters);
        expect(friction).toBeGreaterThanOrEqual(before * (1 - 1e-12));
        before = friction;
      }
    }
  });

  it("falls to the flat plate's of a laminar boundary layer in a short tube: 3.44/sqrt(x) (Shapiro, Siegel & Kline 1954)", () => {
    const x = 1e-5;
    expect((apparentFriction(1000, 16, 1000 * x) * Math.sqrt(x)) / 3.44).toBeCloseTo(1, 2);
  });

  it('is that of the tube in a duct whose laminar-equivalent diameter is the same (Jones 1976)', () => {
    // A slit has 24 instead of 16: its flow at 15,000 is as turbulent as that of a tube at 10,000.
    expect(apparentFriction(15_000, 24, 1e9) / 15_000).toBeCloseTo(apparentFriction(10_000, 16, 1e9) / 10_000, 8);
  });
});

describe('flow through a duct', () => {
  it('is Hagen and Poiseuille where it is slow', () => {
    const slow = ductFlow(tube, water, 1e-9);
    expect(slow / ((Math.PI * 1e-9) / (128 * 1e-9 * 180))).toBeCloseTo(1, 5);
  });

  it('takes the pressure that drives it, whatever that is, and no more than the supply has for its velocity', () => {
    for (let pressure = 1e-6; pressure < 100; pressure *= 2.7) {
      const flow = ductFlow(tube, water, pressure);
      expect(pressureLoss(tube, water, tube.length, flow) / pressure).toBeCloseTo(1, 10);
      expect((water.density * (flow / tube.area) ** 2) / 2).toBeLessThan(pressure);
    }
    expect(ductFlow(tube, water, 0)).toBe(0);
  });

  it('is that of an orifice where the duct has no length: heads alone', () => {
    const heads = (1.5 * water.density) / (2 * tube.area ** 2);
    const flow = drivenFlow((q) => pressureLoss(tube, water, 0, q), 0.1, Number.POSITIVE_INFINITY, heads);
    expect(flow).toBeCloseTo(Math.sqrt(0.1 / heads), 8);
  });

  it('is named by its Reynolds number', () => {
    const kind = (reynolds: number) => flowRegime(tube, water, (reynolds * 1e-9 * Math.PI) / (4 * 998e-12)).kind;
    expect([2299, 2301, 3999, 4001].map(kind)).toEqual(['laminar', 'transition', 'transition', 'turbulent']);
  });
});

const thin: HealingAgent = { ...genericAgents['thin-cyanoacrylate'], surfaceTension: 0 };
const disc: Damage = { shape: 'disc', aspect: 1, area: 400, opening: 0.1 };
const vented: Supply = { pressure: 0.2, vented: true };
const channelVolume = tube.area * tube.length;
const volume = channelVolume + 40;

/** Front by front on the wall's clock, with many small steps and losses written out anew; flow by bisection. */
function marched(agent: HealingAgent, supply: Supply, until: number, steps = 20_000): number {
  const density = agent.density * 1e-12;
  const air = channelVolume + disc.area * disc.opening;
  const mouth = 2 * Math.PI * 0.5 * disc.opening;
  let time = 0;
  const step = (held: number, volumeStep: number) => {
    const viscosity = agent.viscosity * 1e-9 * agent.viscosityGrowth ** (time / agent.gelTime);
    const length = Math.min(held / tube.area, tube.length);
    const filling = held - channelVolume;
    const gap = filling > 0 ? (3 * viscosity * Math.log1p(filling / (tube.area * disc.opening))) / (Math.PI * 1e-3) : 0;
    const net = supply.pressure - (supply.vented ? 0 : 0.101325 * (air / (air - held) - 1));
    const loss = (flow: number) => {
      const velocity = flow / tube.area;
      const head = (density * velocity ** 2) / 2;
      const reynolds = (density * velocity) / viscosity;
      const opening = filling > 0 ? (1.5 * density * (flow / mouth) ** 2) / 2 : 0;
      return head * (1.5 + (4 * apparentFriction(reynolds, 16, length) * length) / reynolds) + gap * flow + opening;
    };
    let [low, high] = [0, supply.flowLimit ?? 1e6];
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (loss(middle) > net) high = middle;
      else low = middle;
    }
    time += volumeStep / low;
  };
  for (let k = 0; k < steps; k++) {
    const at = (k + 0.5) / steps;
    step(until * at ** 2, (2 * until * at) / steps);
  }
  return time;
}

describe('time to fill with inlet, run-in, turbulence, mouth and a supply that gives no more', () => {
  it.each([
    ['vented', vented],
    ['dead end', { ...vented, vented: false, pressure: 0.8 }],
    ['no more than 300 mm3/s', { ...vented, flowLimit: 300 }],
  ] as const)('equals the flow marched front by front: %s', (_name, supply) => {
    const until = supply.vented ? volume : 0.8 * volume;
    expect(fillTime(tube, disc, supply, thin, until) / marched(thin, supply, until)).toBeCloseTo(1, 2);
  });

  it('is much longer than laminar developed flow would take where flow is fast', () => {
    const laminar = fillTime(tube, disc, vented, { ...thin, density: 1e-9 }, volume);
    expect(fillTime(tube, disc, vented, thin, volume) / laminar).toBeGreaterThan(1.3);
  });

  it('is the volume over the flow where the supply gives little', () => {
    const slow = { ...vented, flowLimit: 1 };
    expect(fillTime(tube, disc, slow, thin, volume) / volume).toBeCloseTo(1, 3);
  });
});
