import { cube } from '../power.js';
import { growthAt } from './ageing.js';
import type { HealingAgent } from './agents.js';
import { type Duct, drivenFlow, inletHeads, type Liquid, pressureLoss } from './duct-flow.js';
import { type Passage, resistance, work, workTowardsStop } from './passage.js';
import { atmosphere, liquidOf, millinewtonPerMetre } from './units.js';

/**
 * A delamination of uniform opening, filled from the channel.
 *
 * 'disc': it crosses the channel and fills outward in circles from the channel's mouth.
 * 'strip': it lies along the channel and fills straight away from a mouth that is as long as the strip.
 */
export interface Damage {
  readonly shape: 'disc' | 'strip';
  /** Of a strip: reach away from the channel over the length of its mouth along the channel. */
  readonly aspect: number;
  /** mm2 */
  readonly area: number;
  /** Distance of its faces, mm. */
  readonly opening: number;
}

/** What feeds a channel. */
export interface Supply {
  /** Gauge pressure at the inlet, MPa; 0 leaves capillary pressure alone. */
  readonly pressure: number;
  /** Liquid at hand, mm3; left out: as much as it takes. */
  readonly reservoir?: number;
  /** What it gives at most, mm3/s; left out: as much as its pressure drives. */
  readonly flowLimit?: number;
  /** The air ahead of the front escapes; otherwise it is trapped and compressed. */
  readonly vented: boolean;
}

/** Volume at hand, mm3; Infinity without limit. */
export function volumeAtHand({ reservoir }: Supply): number {
  return reservoir ?? Number.POSITIVE_INFINITY;
}

/** mm3/s; Infinity without limit. */
export function mostFlow({ flowLimit }: Supply): number {
  return flowLimit ?? Number.POSITIVE_INFINITY;
}

/** Pressure with which a meniscus draws the agent into the channel, MPa: `surface tension * cos(angle) * perimeter / area`. */
export function channelSuction(duct: Pick<Duct, 'area' | 'perimeter'>, agent: HealingAgent): number {
  return (wetting(agent) * duct.perimeter) / duct.area;
}

/** The same between the faces of a damage: `2 * surface tension * cos(angle) / opening`. */
export function damageSuction(damage: Pick<Damage, 'opening'>, agent: HealingAgent): number {
  return (2 * wetting(agent)) / damage.opening;
}

function wetting({ surfaceTension, contactAngle }: HealingAgent): number {
  return surfaceTension * millinewtonPerMetre * Math.cos((contactAngle * Math.PI) / 180);
}

/**
 * Time in s until channel and damage together hold `volume` mm3 of agent, counted from the moment it enters the channel, on the clock
 * of an agent that keeps its fresh viscosity (`ageing.ts`); Infinity if that never happens. `volume` is at most theirs.
 *
 * Quasi-steady flow, agent incompressible, pressure uniform across a section, gravity left out. Laminar developed flow comes first, in
 * closed form: the front in the channel follows `dV/dt = pressure / (viscosity * V / (area * conductance))`, so that a vented channel
 * primes in `viscosity * length^2 * area / (2 conductance * pressure)`; with capillary pressure in a round tube this is
 * Washburn, Phys. Rev. 17 (1921) 273-283. In the damage the channel stays in series; parallel faces take
 * `Q = width * opening^3 * pressure / (12 viscosity * length)`. Trapped air is isothermal (Boyle) from one atmosphere, over all
 * of the channel and the damage. All integrals are closed; see `passage.ts`. What inlet, run-in, turbulence, the mouth of the damage and a
 * supply that gives no more add to it is summed up front by front.
 */
export function fillTime(duct: Duct, damage: Damage, supply: Supply, agent: HealingAgent, volume: number): number {
  const channelVolume = duct.area * duct.length;
  const air = channelVolume + damage.area * damage.opening;
  const channel: Stage = {
    duct,
    supply,
    passage: { kind: 'linear', start: 0, slope: 1 / (duct.area * duct.conductance) },
    before: 0,
    pressure: supply.pressure + channelSuction(duct, agent),
    air,
    mouth: 0,
  };
  const primed = passTime(channel, Math.min(volume, channelVolume), 0, agent);
  const inDamage = volume - channelVolume;
  if (!(inDamage > 0)) return primed;
  const filling: Stage = {
    duct,
    supply,
    passage: damagePassage(duct, damage),
    before: channelVolume,
    pressure: supply.pressure + damageSuction(damage, agent),
    air,
    mouth: 1 / mouthArea(duct, damage) ** 2,
  };
  return passTime(filling, inDamage, primed, agent);
}

/** One part of the way, which the front passes after `before` mm3 have gone in, under `pressure` less that of the air ahead. */
interface Stage {
  readonly duct: Duct;
  readonly supply: Supply;
  readonly passage: Passage;
  readonly before: number;
  readonly pressure: number;
  readonly air: number;
  /** One over the square of the area through which a full channel opens into it, mm^-4; 0 in the channel itself. */
  readonly mouth: number;
}

/** Fronts at which what is not laminar and developed is looked at; twice as many change a time by less than 0.1 %. */
const fronts = 32;

/** Time at which a stage that began at `start` has taken up `volume`. */
function passTime(stage: Stage, volume: number, start: number, agent: HealingAgent): number {
  const fresh = liquidOf(agent);
  const whole = laminarTime(stage, volume);
  if (!(start + whole < Number.POSITIVE_INFINITY)) return Number.POSITIVE_INFINITY;
  let late = 0;
  // Crowded where the front is fastest.
  for (let k = 0; k < fronts; k++) {
    const at = (k + 0.5) / fronts;
    const held = volume * cube(at);
    const step = (3 * volume * at * at) / fronts;
    const laminarSlowness = (fresh.viscosity * resistance(stage.passage, held)) / netPressure(stage, held);
    const sofar = start + fresh.viscosity * laminarTime(stage, held) + late;
    const lag = (from: number) => {
      const growth = growthAt(from, agent);
      if (!(growth < Number.POSITIVE_INFINITY)) return 0;
      const aged = { ...fresh, viscosity: fresh.viscosity * growth };
      const flow = Math.min(flowAt(stage, held, aged), mostFlow(stage.supply));
      return Math.max(0, step * (1 / (flow * growth) - laminarSlowness));
    };
    const first = lag(sofar);
    late += agent.viscosityGrowth > 1 ? lag(sofar + first / 2) : first;
  }
  return start + fresh.viscosity * whole + late;
}

/** Flow once a stage holds `held`, mm3/s. */
function flowAt(stage: Stage, held: number, liquid: Liquid): number {
  const { duct } = stage;
  const length = stage.mouth === 0 ? held / duct.area : duct.length;
  const viscous = resistance(stage.passage, held);
  const inDamage = (viscous - length / duct.conductance) * liquid.viscosity;
  const opening = (inletHeads * liquid.density * stage.mouth) / 2;
  const pressure = netPressure(stage, held);
  return drivenFlow(
    (flow) => pressureLoss(duct, liquid, length, flow) + flow * (inDamage + opening * flow),
    pressure,
    pressure / (liquid.viscosity * viscous),
    (inletHeads * liquid.density) / (2 * duct.area ** 2) + opening,
  );
}

/** Driving pressure less that of the air that is compressed ahead of the front. */
function netPressure({ pressure, before, air, supply }: Stage, held: number): number {
  const squeezed = before + held;
  return supply.vented ? pressure : pressure - (atmosphere * squeezed) / (air - squeezed);
}

/** The volume of agent at which trapped air of `air` mm3 holds the front up against `pressure`, mm3. */
export function trappedStop(air: number, pressure: number): number {
  return (air * pressure) / (pressure + atmosphere);
}

/** Of laminar developed flow: time over viscosity for a stage to take up `volume`. */
function laminarTime({ passage, before, pressure, air, supply }: Stage, volume: number): number {
  if (!(pressure > 0)) return Number.POSITIVE_INFINITY;
  if (supply.vented) return work(passage, volume) / pressure;
  // 1/(pressure - air pressure) = [1 + (air - stop)/(stop - v)] / (pressure + atmosphere), v counted from the supply
  const stop = trappedStop(air, pressure);
  if (!(before + volume < stop)) return Number.POSITIVE_INFINITY;
  const squeezed = (air - stop) * workTowardsStop(passage, volume, stop - before);
  return (work(passage, volume) + squeezed) / (pressure + atmosphere);
}

/**
 * Derived here. Strip with mouth b, reach x: `v = b x w`, resistance `12 x / (b w^3)`. Disc between radii r0 and r:
 * `v = pi w (r^2 - r0^2)`, resistance `int 12 dr / (2 pi r w^3) = 6 ln(r / r0) / (pi w^3)`, r0 that of a circle of the
 * channel's area.
 */
function damagePassage(duct: Duct, { shape, aspect, area, opening }: Damage): Passage {
  const start = duct.length / duct.conductance;
  if (shape === 'strip') return { kind: 'linear', start, slope: (12 * aspect) / (area * opening ** 2 * opening ** 2) };
  return { kind: 'disc', start, rise: 3 / (Math.PI * cube(opening)), mouthVolume: duct.area * opening };
}

/** Through which the agent leaves the channel: around a circle of the channel's area, or along the strip. */
function mouthArea(duct: Duct, { shape, aspect, area, opening }: Damage): number {
  const mouth = shape === 'strip' ? Math.sqrt(area / aspect) : 2 * Math.sqrt(Math.PI * duct.area);
  return mouth * opening;
}
