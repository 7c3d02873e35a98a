import { dilogarithm } from './dilogarithm.js';

/**
 * How the way from the supply to the front resists, per viscosity (mm^-3), as a passage takes up the volume `v` (mm3):
 * pressure drop = viscosity * flow rate * resistance.
 *
 * 'linear': `start + slope v`: a channel, or a crack that the front crosses straight.
 * 'disc': `start + rise ln(1 + v / mouthVolume)`: a crack that the front crosses in circles.
 */
export type Passage =
  | { readonly kind: 'linear'; readonly start: number; readonly slope: number }
  | { readonly kind: 'disc'; readonly start: number; readonly rise: number; readonly mouthVolume: number };

/** Per viscosity, mm^-3, once the passage holds `volume`. */
export function resistance(passage: Passage, volume: number): number {
  if (passage.kind === 'linear') return passage.start + passage.slope * volume;
  return passage.start + passage.rise * Math.log1p(volume / passage.mouthVolume);
}

/** Integral of the resistance over the volume from 0 to `volume`: time = viscosity * work / pressure. */
export function work(passage: Passage, volume: number): number {
  if (passage.kind === 'linear') return volume * (passage.start + (passage.slope * volume) / 2);
  const { start, rise, mouthVolume } = passage;
  const y = volume / mouthVolume;
  return start * volume + rise * mouthVolume * ((1 + y) * Math.log1p(y) - y);
}

/**
 * Integral of `resistance / (stop - v)` from 0 to `volume`: what compressed air adds, that would stop the front at the
 * volume `stop > volume`.
 */
export function workTowardsStop(passage: Passage, volume: number, stop: number): number {
  const closing = -Math.log1p(-volume / stop);
  if (passage.kind === 'linear') return (passage.start + passage.slope * stop) * closing - passage.slope * volume;
  // With t = (mouth + v)/(mouth + stop): ln(1 + v/mouth) = ln(1 + stop/mouth) + ln t, and int ln t/(1 - t) dt = Li2(1 - t).
  const { start, rise, mouthVolume } = passage;
  const whole = mouthVolume + stop;
  const bend = dilogarithm((stop - volume) / whole) - dilogarithm(stop / whole);
  return start * closing + rise * (Math.log(whole / mouthVolume) * closing + bend);
}
