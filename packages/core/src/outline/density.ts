import { nodeParameter } from './nodes.js';

/**
 * How nodes run along an outline: share of the arc length against the share of the nodes, `d share / d u = exp(p(u)) / mean`, `p(u)` the sum
 * of `even[k-1] cos(k u) + odd[k-1] sin(k u)` over `u` in `[0, 2 pi)`; analytic, so that stresses converge spectrally. Mirror-symmetric
 * outlines have no odd part.
 */
export interface NodeSpacing {
  readonly even: Float64Array;
  readonly odd: Float64Array;
}

/** Shares of the arc length at the nodes of a whole turn, with two derivatives by the curve parameter. */
export interface SpacedNodes {
  readonly share: Float64Array;
  readonly slope: Float64Array;
  readonly bend: Float64Array;
}

/** Samples of a turn, and waves of the spacing that are integrated: `exp` of a few waves of ordinary size has no more. */
const samples = 512;
const waves = 160;

const cosine = Float64Array.from({ length: 2 * samples }, (_, i) => Math.cos((i * Math.PI) / samples));
/** The samples are a power of 2. */
const round = 2 * samples - 1;
/** Cosine and sine of `k` times the middle of sample `m`. */
const cosineAt = (k: number, m: number): number => cosine[(k * (2 * m + 1)) & round]!;
const sineAt = (k: number, m: number): number => cosine[(k * (2 * m + 1) + (3 * samples) / 2) & round]!;
/** Waves below this share of the mean are lost in rounding. */
const nothing = 1e-17;

/** Shares at the nodes of a whole turn; of a mirror-symmetric outline those of its first half. */
export function spacedNodes({ even, odd }: NodeSpacing, count: number): SpacedNodes {
  const mirror = odd.length === 0;
  const seen = mirror ? samples / 2 : samples;
  const speed = new Float64Array(seen);
  let mean = 0;
  for (let m = 0; m < seen; m++) {
    let exponent = 0;
    for (let k = 1; k <= even.length; k++)
      exponent += even[k - 1]! * cosineAt(k, m) + (mirror ? 0 : odd[k - 1]! * sineAt(k, m));
    speed[m] = Math.exp(exponent);
    mean += speed[m]! / seen;
  }
  const a = new Float64Array(waves + 1);
  const b = new Float64Array(waves + 1);
  let highest = 0;
  for (let k = 1; k <= waves; k++) {
    let [cosines, sines] = [0, 0];
    for (let m = 0; m < seen; m++) cosines += speed[m]! * cosineAt(k, m);
    if (!mirror) for (let m = 0; m < seen; m++) sines += speed[m]! * sineAt(k, m);
    a[k] = (2 * cosines) / (seen * mean);
    b[k] = (2 * sines) / (seen * mean);
    if (Math.abs(a[k]!) + Math.abs(b[k]!) > nothing) highest = k;
  }
  const rows = mirror ? count / 2 : count;
  const out: SpacedNodes = {
    share: new Float64Array(rows),
    slope: new Float64Array(rows),
    bend: new Float64Array(rows),
  };
  for (let j = 0; j < rows; j++) {
    const u = nodeParameter(j, count) + Math.PI / 2;
    let share = u;
    let slope = 1;
    let bend = 0;
    // cos k u and sin k u by their recurrence.
    const [c1, s1] = [Math.cos(u), Math.sin(u)];
    let [c, s] = [1, 0];
    for (let k = 1; k <= highest; k++) {
      const before = c;
      c = c * c1 - s * s1;
      s = s * c1 + before * s1;
      share += (a[k]! * s + b[k]! * (1 - c)) / k;
      slope += a[k]! * c + b[k]! * s;
      bend += k * (b[k]! * c - a[k]! * s);
    }
    out.share[j] = share / (2 * Math.PI);
    out.slope[j] = slope / (2 * Math.PI);
    out.bend[j] = bend / (2 * Math.PI);
  }
  return out;
}

/** Waves of the spacing that are kept of a wanted density. */
const keptWaves = 16;

/** The spacing whose nodes are as dense as `density` says, given at the middles of equal steps around the whole outline. */
export function spacingOf(density: Float64Array, mirror: boolean): NodeSpacing {
  const shares = quantiles(density, samples);
  const steps = density.length;
  const even = new Float64Array(keptWaves);
  const odd = new Float64Array(mirror ? 0 : keptWaves);
  for (let m = 0; m < samples; m++) {
    const at = shares[m]! * steps - 0.5;
    const below = Math.floor(at);
    const share = at - below;
    const here = (1 - share) * density[(below + steps) % steps]! + share * density[(below + 1) % steps]!;
    for (let k = 1; k <= keptWaves; k++) {
      even[k - 1]! -= (2 * Math.log(here) * cosineAt(k, m)) / samples;
      if (!mirror) odd[k - 1]! -= (2 * Math.log(here) * sineAt(k, m)) / samples;
    }
  }
  return { even, odd };
}

/** Where, in shares of its range, a density has passed `(k + 1/2) / count` of its whole, for `k` from 0; `offset` in place of 1/2. */
export function quantiles(density: Float64Array, count: number, offset = 0.5): Float64Array {
  const steps = density.length;
  const whole = density.reduce((a, b) => a + b);
  const out = new Float64Array(count);
  let passed = 0;
  let step = 0;
  for (let k = 0; k < count; k++) {
    const wanted = ((k + offset) / count) * whole;
    while (step < steps - 1 && passed + density[step]! < wanted) passed += density[step++]!;
    out[k] = (step + (wanted - passed) / density[step]!) / steps;
  }
  return out;
}

/** A periodic sequence smoothed by a Gaussian of `width` steps. */
export function smoothedRing(values: Float64Array, width: number): Float64Array {
  const reach = Math.ceil(3 * width);
  const weights = Float64Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-0.5 * ((i - reach) / width) ** 2));
  const sum = weights.reduce((a, b) => a + b);
  const { length } = values;
  return values.map((_, j) => {
    let mean = 0;
    for (let i = -reach; i <= reach; i++)
      mean += (weights[i + reach]! * values[(j + i + length * reach) % length]!) / sum;
    return mean;
  });
}
