import type { HealingAgent } from './agents.js';
import { type Passage, work, workTowardsStop } from './passage.js';
import { atmosphere, millinewtonPerMetre, millipascalSecond } from './units.js';

/** A channel as a duct: what `Conductance` says of its outline, and its length. mm, mm2, mm4. */
export interface Duct {
  readonly area: number;
  readonly perimeter: number;
  readonly flowFactor: number;
  /** From the supply to the damage, mm. */
  readonly length: number;
}

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

export interface Supply {
  /** Gauge pressure at the inlet, MPa; 0 leaves capillary pressure alone. */
  readonly pressure: number;
  /** Liquid at hand, mm3; left out: as much as it takes. */
  readonly reservoir?: number;
  /** The air ahead of the front escapes; otherwise it is trapped and compressed. */
  readonly vented: boolean;
}

/** Volume at hand, mm3; Infinity without limit. */
export function volumeAtHand({ reservoir }: Supply): number {
  return reservoir ?? Number.POSITIVE_INFINITY;
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
 * Time in s until channel and damage together hold `volume` mm3 of agent, counted from the moment it enters the channel,
 * at the viscosity of the fresh agent; Infinity if that never happens. `volume` is at most theirs.
 *
 * Quasi-steady laminar flow, agent incompressible, pressure uniform across a section, gravity and the run-in length left
 * out. The front in the channel follows `dV/dt = pressure / (viscosity * V / (area * flowFactor))`, so that a vented channel
 * primes in `viscosity * length^2 * area / (2 flowFactor * pressure)`; with capillary pressure in a round tube this is
 * Washburn, Phys. Rev. 17 (1921) 273-283. In the damage the channel stays in series; parallel faces take
 * `Q = width * opening^3 * pressure / (12 viscosity * length)`. Trapped air is isothermal (Boyle) from one atmosphere, over all
 * of the channel and the damage. All integrals are closed; see `passage.ts`.
 */
export function fillTime(duct: Duct, damage: Damage, supply: Supply, agent: HealingAgent, volume: number): number {
  const channelVolume = duct.area * duct.length;
  const inChannel = Math.min(volume, channelVolume);
  const air = channelVolume + damage.area * damage.opening;
  const channel: Passage = { kind: 'linear', start: 0, slope: 1 / (duct.area * duct.flowFactor) };
  const time = passageTime(channel, 0, inChannel, supply.pressure + channelSuction(duct, agent), air, supply);
  const inDamage = volume - channelVolume;
  if (!(inDamage > 0)) return time * agent.viscosity * millipascalSecond;
  const pressure = supply.pressure + damageSuction(damage, agent);
  const more = passageTime(damagePassage(duct, damage), channelVolume, inDamage, pressure, air, supply);
  return (time + more) * agent.viscosity * millipascalSecond;
}

/** The volume of agent at which trapped air of `air` mm3 holds the front up against `pressure`, mm3. */
export function trappedStop(air: number, pressure: number): number {
  return (air * pressure) / (pressure + atmosphere);
}

/** Time over viscosity for one passage to take up `volume`, after `before` mm3 have gone in. */
function passageTime(
  passage: Passage,
  before: number,
  volume: number,
  pressure: number,
  air: number,
  supply: Supply,
): number {
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
  const start = duct.length / duct.flowFactor;
  if (shape === 'strip') return { kind: 'linear', start, slope: (12 * aspect) / (area * opening ** 4) };
  return { kind: 'disc', start, rise: 3 / (Math.PI * opening ** 3), mouthVolume: duct.area * opening };
}
