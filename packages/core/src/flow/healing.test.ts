import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { elapsed, flowingTime } from './ageing.js';
import { genericAgents, type HealingAgent } from './agents.js';
import { dilogarithm } from './dilogarithm.js';
import type { Duct } from './duct-flow.js';
import { channelSuction, type Damage, damageSuction, fillTime, type Supply, trappedStop } from './fill-time.js';
import { type HealingTask, healDamage } from './healing.js';
import { healingWindow, largestDamage } from './window.js';

/** Round channel of radius 0.5 mm and length 200 mm. */
const radius = 0.5;
const duct: Duct = {
  area: Math.PI * radius ** 2,
  perimeter: 2 * Math.PI * radius,
  conductance: (Math.PI * radius ** 4) / 8,
  length: 200,
};
const channelVolume = duct.area * duct.length;
/** As good as without mass: what inlet, run-in and turbulence take has tests of its own. */
const agent: HealingAgent = { ...genericAgents['low-viscosity-epoxy'], surfaceTension: 0, density: 1e-9 };
const viscosity = agent.viscosity * 1e-9; // mPa s in MPa s
const supply: Supply = { pressure: 0.2, vented: true };
const deadEnd: Supply = { ...supply, vented: false };
const disc: Damage = { shape: 'disc', aspect: 1, area: 100, opening: 0.1 };
const strip: Damage = { shape: 'strip', aspect: 0.5, area: 100, opening: 0.1 };
const task: HealingTask = { duct, supply, agent, damage: disc, leastShare: 0.8 };

/** Midpoint sum of `1 / flow rate`, in the variable that the caller chooses. */
function quadrature(integrand: (at: number) => number, from: number, to: number, steps = 20_000): number {
  const step = (to - from) / steps;
  let sum = 0;
  for (let k = 0; k < steps; k++) sum += integrand(from + (k + 0.5) * step);
  return sum * step;
}

/** Time to fill from first principles: front by front, pressure drop along channel and damage, air by Boyle's law. */
function timeStepByStep(damage: Damage, { pressure, vented }: Supply, volume: number): number {
  const air = channelVolume + damage.area * damage.opening;
  const w = damage.opening;
  const perFlow = (v: number) => {
    if (v <= channelVolume) return (8 * viscosity * (v / duct.area)) / (Math.PI * radius ** 4);
    const channelDrop = (8 * viscosity * duct.length) / (Math.PI * radius ** 4);
    const inDamage = v - channelVolume;
    if (damage.shape === 'strip') {
      const mouth = Math.sqrt(damage.area / damage.aspect);
      return channelDrop + (12 * viscosity * (inDamage / (mouth * w))) / (mouth * w ** 3);
    }
    const front = Math.sqrt(radius ** 2 + inDamage / (Math.PI * w));
    return channelDrop + (6 * viscosity * Math.log(front / radius)) / (Math.PI * w ** 3);
  };
  const net = (v: number) => pressure - (vented ? 0 : 0.101325 * (air / (air - v) - 1));
  const slowness = (v: number) => perFlow(v) / net(v);
  return (
    quadrature(slowness, 0, Math.min(volume, channelVolume)) +
    (volume > channelVolume ? quadrature(slowness, channelVolume, volume) : 0)
  );
}

describe('priming', () => {
  it('of a vented channel takes viscosity L^2 A / (2 K p): 8 viscosity L^2 / (2 r^2 p) in a tube', () => {
    const closed = (4 * viscosity * duct.length ** 2) / (radius ** 2 * supply.pressure);
    expect(fillTime(duct, disc, supply, agent, channelVolume)).toBeCloseTo(closed, 10);
    expect(healDamage(task).primingTime).toBeCloseTo(closed, 10);
  });

  it('by capillary pressure alone follows Washburn, Phys. Rev. 17 (1921) 273: L^2 = gamma r cos(angle) t / (2 viscosity)', () => {
    const wetting = { ...agent, surfaceTension: 40, contactAngle: 20 };
    const gamma = 40e-6; // N/mm
    const washburn = (2 * viscosity * duct.length ** 2) / (gamma * radius * Math.cos(Math.PI / 9));
    const still = { ...supply, pressure: 0 };
    expect(fillTime(duct, disc, still, wetting, channelVolume) / washburn).toBeCloseTo(1, 12);
    // Under pressure as well, the two drive together.
    const both = 4 * viscosity * (duct.length / radius) ** 2;
    expect(
      (fillTime(duct, disc, supply, wetting, channelVolume) *
        (supply.pressure + (2 * gamma * Math.cos(Math.PI / 9)) / radius)) /
        both,
    ).toBeCloseTo(1, 12);
  });

  it('never ends where a meniscus that does not wet holds the pressure', () => {
    const beading = { ...agent, surfaceTension: 40, contactAngle: 120 };
    const holding = -channelSuction(duct, beading);
    expect(holding).toBeCloseTo((2 * 40e-6 * 0.5) / radius, 12);
    const primed = (pressure: number) => fillTime(duct, disc, { ...supply, pressure }, beading, channelVolume);
    expect(primed(0.99 * holding)).toBe(Number.POSITIVE_INFINITY);
    expect(primed(1.01 * holding)).toBeLessThan(Number.POSITIVE_INFINITY);
  });
});

describe('time to fill', () => {
  it('a strip beside a wide channel is that of parallel plates: 6 viscosity reach^2 / (opening^2 p)', () => {
    const wide: Duct = { ...duct, conductance: 1e9 };
    const reach = Math.sqrt(strip.area * strip.aspect);
    const closed = (6 * viscosity * reach ** 2) / (strip.opening ** 2 * supply.pressure);
    expect(fillTime(wide, strip, supply, agent, channelVolume + 10) / closed).toBeCloseTo(1, 6);
  });

  it('a damage much wider than the channel is that of the channel alone: volume * drop per flow / p', () => {
    const open = { ...strip, opening: 5, area: 2 };
    const after =
      fillTime(duct, open, supply, agent, channelVolume + 10) - fillTime(duct, open, supply, agent, channelVolume);
    expect(after / ((8 * viscosity * duct.length * 10) / (Math.PI * radius ** 4 * supply.pressure))).toBeCloseTo(1, 3);
  });

  it('equals the flow integrated front by front, for both shapes, vented and in a dead end', () => {
    for (const damage of [disc, strip, { ...disc, area: 3000 }, { ...strip, area: 3000, aspect: 3 }])
      for (const air of [supply, deadEnd]) {
        const filled = air.vented ? 1 : 0.98 * trappedStop(1, air.pressure);
        const volume = (channelVolume + damage.area * damage.opening) * filled;
        const stepwise = timeStepByStep(damage, air, volume);
        expect(fillTime(duct, damage, air, agent, volume) / stepwise).toBeCloseTo(1, 5);
      }
  });

  it('in a dead end grows without bound towards the volume that Boyle allows, and is infinite beyond', () => {
    const air = channelVolume + disc.area * disc.opening;
    const stop = trappedStop(air, 0.2);
    expect(stop / air).toBeCloseTo(0.2 / 0.301325, 12);
    const time = (share: number) => fillTime(duct, disc, deadEnd, agent, share * stop);
    expect(time(0.999)).toBeGreaterThan(1.5 * time(0.9));
    expect(time(1.001)).toBe(Number.POSITIVE_INFINITY);
  });

  it('scales with viscosity and falls with pressure, and rises with volume', () => {
    const positive = fc.double({ min: 0.01, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        positive,
        positive,
        positive,
        fc.boolean(),
        fc.constantFrom(disc, strip),
        (a, b, p, vented, damage) => {
          const source = { ...supply, pressure: 10 * p, vented };
          const whole = (channelVolume + damage.area * damage.opening) * 0.4;
          const [less, more] = [Math.min(a, b) * whole, Math.max(a, b) * whole];
          const time = (volume: number, s = source, by = 1) =>
            fillTime(duct, damage, s, { ...agent, viscosity: by * agent.viscosity }, volume);
          expect(time(more)).toBeGreaterThanOrEqual(time(less));
          expect(time(more, source, 3)).toSatisfy(
            (t: number) => t === 3 * time(more) || Math.abs(t / 3 / time(more) - 1) < 1e-8,
          );
          expect(time(more, { ...source, pressure: 20 * p })).toBeLessThanOrEqual(time(more));
        },
      ),
      { seed: 6, numRuns: 200 },
    );
  });

  it('counts the capillary pressure of parallel faces in the damage: 2 gamma cos(angle) / opening', () => {
    expect(damageSuction({ opening: 0.05 }, { ...agent, surfaceTension: 30, contactAngle: 60 })).toBeCloseTo(
      (2 * 30e-6 * 0.5) / 0.05,
      15,
    );
  });
});

describe('dilogarithm', () => {
  it('has the values of Lewin, Polylogarithms and Associated Functions (1981)', () => {
    expect(dilogarithm(0)).toBe(0);
    expect(dilogarithm(1)).toBeCloseTo(Math.PI ** 2 / 6, 15);
    expect(dilogarithm(0.5)).toBeCloseTo(Math.PI ** 2 / 12 - Math.LN2 ** 2 / 2, 15);
    const golden = (Math.sqrt(5) - 1) / 2;
    expect(dilogarithm(golden)).toBeCloseTo(Math.PI ** 2 / 10 - Math.log(golden) ** 2, 15);
  });
});

describe('viscosity that grows up to gel', () => {
  const growing = { ...agent, viscosityGrowth: 20 };

  it('gives the same as the front integrated under mu(t) = mu0 growth^(t / gel)', () => {
    const constant = fillTime(duct, disc, supply, agent, channelVolume);
    // int dt / mu(t) up to the wall-clock time, from first principles
    const wall = elapsed(constant, growing);
    expect(quadrature((t) => 20 ** (-t / growing.gelTime), 0, wall)).toBeCloseTo(constant, 6);
    expect(wall).toBeGreaterThan(constant);
  });

  it('leaves less flow before gel than constant viscosity, the same as growth falls to 1', () => {
    expect(flowingTime(agent)).toBe(agent.gelTime);
    expect(flowingTime({ ...agent, viscosityGrowth: 1 + 1e-9 })).toBeCloseTo(agent.gelTime, 4);
    expect(flowingTime(growing)).toBeCloseTo((agent.gelTime * (1 - 1 / 20)) / Math.log(20), 9);
    expect(elapsed(flowingTime(growing), growing)).toBeCloseTo(agent.gelTime, 8);
    expect(elapsed(agent.gelTime, growing)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('heal', () => {
  const fails = (change: Partial<HealingTask>) => {
    const healing = healDamage({ ...task, ...change });
    expect(healing.healed).toBe(healing.reasons.length === 0);
    return healing.reasons;
  };

  it('fills what nothing prevents', () => {
    const healing = healDamage(task);
    expect(healing.reasons).toEqual([]);
    expect(healing.healed).toBe(true);
    expect(healing.primingTime).toBeLessThan(healing.fillTime);
    expect(healing.share).toBeCloseTo(0.95, 12);
    expect(healing.volumeNeeded).toBeCloseTo(channelVolume + (0.8 / 0.95) * 10, 10);
    expect(healing.volumeAvailable).toBe(Number.POSITIVE_INFINITY);
    expect(healing.pressureLimit).toBe(Number.POSITIVE_INFINITY);
  });

  it('names what prevents it', () => {
    expect(fails({ agent: { ...agent, gelTime: 0.9 * healDamage(task).fillTime } })).toEqual(['gel']);
    expect(fails({ supply: deadEnd })).toEqual(['trapped air']);
    expect(fails({ supply: { ...deadEnd, pressure: 9 } })).toEqual(['trapped air']);
    expect(fails({ supply: { ...supply, reservoir: channelVolume + 8 } })).toEqual(['volume']);
    expect(fails({ supply: { ...supply, reservoir: channelVolume + 8.5 } })).toEqual([]);
    expect(fails({ agent: { ...agent, volumeChange: -0.3 } })).toEqual(['shrinkage']);
    expect(fails({ agent: { ...agent, largestGap: 0.09 } })).toEqual(['gap']);
    expect(fails({ supply: { ...supply, pressure: 0 } })).toEqual(['entry']);
  });

  it('cuts the pressure to what the edge bears and says so where that is what fails', () => {
    const edge = { stressPerPressure: 3, allowedStress: 0.3 };
    const cut = healDamage({ ...task, edge });
    expect(cut.pressureLimit).toBeCloseTo(0.1, 14);
    expect(cut.pressure).toBe(cut.pressureLimit);
    expect(cut.fillTime).toBeCloseTo(2 * healDamage(task).fillTime, 8);
    const hurried = { ...agent, gelTime: 1.5 * healDamage(task).fillTime };
    expect(fails({ agent: hurried })).toEqual([]);
    expect(fails({ agent: hurried, edge })).toEqual(['gel', 'pressure']);
    // An edge that pressure does not pull open bears any pressure.
    expect(healDamage({ ...task, edge: { stressPerPressure: -1, allowedStress: 0.3 } }).pressureLimit).toBe(
      Number.POSITIVE_INFINITY,
    );
  });

  it('counts what has arrived at gel as the share, and expansion on top of it', () => {
    const slow = healDamage({ ...task, agent: { ...agent, gelTime: 0.9 * healDamage(task).fillTime } });
    expect(slow.share).toBeGreaterThan(0);
    expect(slow.share).toBeLessThan(0.8);
    expect(healDamage({ ...task, agent: { ...agent, gelTime: 1e-3 } }).share).toBe(0);
    const foam = healDamage({ ...task, agent: { ...agent, volumeChange: 9, gelTime: slow.gelTime } });
    expect(foam.share).toBe(1);
    expect(foam.volumeNeeded - channelVolume).toBeCloseTo((0.8 * 10) / 10, 12);
  });

  it('gives flow rate and Reynolds number of the primed channel: 4 Q density / (perimeter viscosity)', () => {
    const thin = { ...agent, viscosity: 30, density: 1060 };
    const { flowRate, regime } = healDamage({ ...task, agent: thin });
    const laminar = (Math.PI * radius ** 4 * 0.2) / (8 * 30e-9 * 200); // mm3/s
    expect(flowRate / laminar).toBeGreaterThan(0.99);
    expect(flowRate / laminar).toBeLessThan(1);
    // kg/m3 * mm/s * mm / mPa s = 1e-3 * SI
    const velocity = flowRate / duct.area;
    expect(regime.reynolds).toBeCloseTo((1060 * velocity * 1e-3 * 2 * radius * 1e-3) / 30e-3, 6);
    expect(regime.kind).toBe('laminar');
    expect(healDamage({ ...task, agent: { ...thin, viscosity: 1 } }).regime.kind).toBe('turbulent');
  });
});

describe('healingWindow', () => {
  const healedAt = (area: number, change: Partial<HealingTask>) =>
    healDamage({ ...task, ...change, damage: { ...(change.damage ?? disc), area } }).healed;

  it('ends where heal changes its answer, by gel, by volume or by the range', () => {
    const cases = [
      { change: {}, limit: 'gel' },
      { change: { supply: { ...supply, reservoir: channelVolume + 20 } }, limit: 'volume' },
      { change: { damage: strip }, limit: 'gel' },
      { change: { agent: { ...agent, viscosityGrowth: 50 } }, limit: 'gel' },
    ] as const;
    for (const { change, limit } of cases) {
      const window = healingWindow({ ...task, ...change }, 1, 1e7);
      if ('obstacle' in window) throw new Error(window.obstacle);
      expect(window).toMatchObject({ limitBelow: 'range', areaFrom: 1, limitAbove: limit });
      expect(window.volumeTo).toBeCloseTo(window.areaTo * 0.1, 6);
      expect(healedAt(0.9999 * window.areaTo, change)).toBe(true);
      expect(healedAt(1.0001 * window.areaTo, change)).toBe(false);
    }
    expect(healingWindow(task, 1, 10)).toMatchObject({ areaFrom: 1, areaTo: 10, limitAbove: 'range' });
  });

  it('in a dead end begins above the damage that the air of the channel keeps closed', () => {
    const change = { supply: { ...deadEnd, pressure: 3 }, agent: { ...agent, gelTime: 30 } };
    const window = healingWindow({ ...task, ...change }, 1, 1e7);
    if ('obstacle' in window) throw new Error(window.obstacle);
    expect(window).toMatchObject({ limitBelow: 'trapped air', limitAbove: 'gel' });
    expect(healedAt(0.999 * window.areaFrom, change)).toBe(false);
    expect(healedAt(1.001 * window.areaFrom, change)).toBe(true);
    expect(healedAt(0.999 * window.areaTo, change)).toBe(true);
    expect(healedAt(1.001 * window.areaTo, change)).toBe(false);
  });

  it('says what stands in the way of every damage', () => {
    const obstacle = (change: Partial<HealingTask>) => healingWindow({ ...task, ...change }, 1, 1e4);
    expect(obstacle({ agent: { ...agent, gelTime: 1e-3 } })).toEqual({ obstacle: 'gel' });
    expect(obstacle({ agent: { ...agent, volumeChange: -0.3 } })).toEqual({ obstacle: 'shrinkage' });
    expect(obstacle({ agent: { ...agent, largestGap: 0.09 } })).toEqual({ obstacle: 'gap' });
    expect(obstacle({ supply: { ...supply, pressure: 0 } })).toEqual({ obstacle: 'entry' });
    expect(obstacle({ supply: { ...supply, reservoir: 100 } })).toEqual({ obstacle: 'volume' });
    expect(obstacle({ supply: { ...deadEnd, pressure: 0.05 } })).toEqual({ obstacle: 'trapped air' });
  });

  it('reaches further for a larger channel', () => {
    const wider = {
      ...duct,
      area: 2 * duct.area,
      perimeter: Math.SQRT2 * duct.perimeter,
      conductance: 4 * duct.conductance,
    };
    const reach = (of: Duct) => {
      const window = largestDamage({ ...task, duct: of });
      return 'obstacle' in window ? 0 : window.areaTo;
    };
    expect(reach(wider)).toBeGreaterThan(reach(duct));
  });
});
