import { cube } from '../power.js';
import { createSplinePoint, type PeriodicSpline, pointAt } from './periodic-spline.js';

/**
 * How nodes run along a spline: `t(s)`, with `s` in `[0, 2 pi)` from `start`. `speed` is `dt/ds` as a Fourier series, so that it is
 * smooth to every order: `speed[0] + sum of speed[k] cos(k s) + sine[k] sin(k s)`.
 */
export interface NodeSpeed {
  readonly start: number;
  readonly cosine: Float64Array;
  readonly sine: Float64Array;
}

/** Spacing of nodes, in lengths of the outline, where it is straight. */
const straightSpacing = 1 / 24;
/** Largest curvature times spacing. */
const bend = 0.6;
/** Largest spacing over the local thickness of channel or material, as in `nodesNeeded`; a circle's radius counts as half its thickness, so that `bend` says the same. */
const thin = 0.3;
/** Largest change of curvature within `around` spacings, times the spacing. */
const bendChange = 0.1;
const around = 2;
/** Places at which the spacing is found, and at which its course over `s` is smoothed. */
const places = 1024;
/** Waves per turn that smoothing leaves at 1/e. */
const waves = 24;
const series = 96;

/**
 * Crowds nodes where the spline is curved or comes close to itself and, closer still, where its curvature changes suddenly: there the hoop stress has a kink.
 * With `mirror`, nodes are symmetric about `start`.
 */
export function nodeSpeed(spline: PeriodicSpline, start: number, mirror: boolean): NodeSpeed {
  const density = wantedDensity(spline, start);
  if (mirror)
    for (let i = 0; i < places / 2; i++) {
      const image = places - 1 - i;
      density[i] = density[image] = (density[i]! + density[image]!) / 2;
    }
  const { cosine, sine } = waveParts(smoothed(logSpeedOf(density, spline.period)).map(Math.exp));
  const scale = spline.period / (2 * Math.PI * cosine[0]!);
  return { start, cosine: cosine.map((c) => scale * c), sine: sine.map((s) => (mirror ? 0 : scale * s)) };
}

/** Nodes per length at the middle of every one of `places` equal steps from `start`. */
function wantedDensity(spline: PeriodicSpline, start: number): Float64Array {
  const step = spline.period / places;
  const at = createSplinePoint();
  const curvature = Float64Array.from({ length: places }, (_, i) => {
    pointAt(spline, start + (i + 0.5) * step, at);
    const speed = Math.sqrt(at.dx * at.dx + at.dy * at.dy);
    return (at.dx * at.ddy - at.dy * at.ddx) / cube(speed);
  });
  const thickness = thicknesses(spline, start);
  const largest = Math.round(straightSpacing * places);
  return curvature.map((here, i) => {
    let low = here;
    let high = here;
    let reached = 0;
    // The largest spacing, in steps, that meets both limits.
    let spacing = 1;
    for (let tried = 1; tried <= largest; tried++) {
      for (; reached < around * tried; reached++) {
        for (const k of [i + reached + 1, i - reached - 1]) {
          const value = curvature[((k % places) + places) % places]!;
          low = Math.min(low, value);
          high = Math.max(high, value);
        }
      }
      const length = tried * step;
      if (Math.abs(here) * length > bend || length > thin * thickness[i]!) break;
      if ((high - low) * length > bendChange) break;
      spacing = tried;
    }
    return 1 / (spacing * step);
  });
}

/**
 * Diameter of the largest circle that touches the spline at the middle of each of `places` equal steps and meets no other part of it, least of both sides:
 * `|d|^2 / |n d|` for the vector `d` to another place. Next to the place itself that tends to twice the radius of curvature.
 */
function thicknesses(spline: PeriodicSpline, start: number): Float64Array {
  const step = spline.period / places;
  const points = Array.from({ length: places }, (_, i) => {
    const at = createSplinePoint();
    pointAt(spline, start + (i + 0.5) * step, at);
    return at;
  });
  return Float64Array.from(points, ({ x, y, dx, dy }) => {
    const speed = Math.hypot(dx, dy);
    let kernel = 0;
    for (const other of points) {
      const ex = other.x - x;
      const ey = other.y - y;
      const across = Math.abs(dx * ey - dy * ex);
      const squared = ex * ex + ey * ey;
      if (across > kernel * squared) kernel = across / squared;
    }
    return speed / kernel;
  });
}

/** `log dt/ds` at the middle of `places` equal steps of `s`, where `ds` is in proportion to `density dt`. */
function logSpeedOf(density: Float64Array, period: number): Float64Array {
  const step = period / places;
  const total = density.reduce((sum, value) => sum + value, 0) * step;
  let place = 0;
  let passed = 0;
  return Float64Array.from({ length: places }, (_, i) => {
    const wanted = ((i + 0.5) * total) / places;
    while (place < places - 1 && passed + density[place]! * step < wanted) passed += density[place++]! * step;
    return Math.log(total / (2 * Math.PI * density[place]!));
  });
}

/** Fades the waves of a periodic function out by a Gaussian. */
function smoothed(values: Float64Array): Float64Array {
  const { cosine, sine } = waveParts(values);
  for (let k = 0; k <= series; k++) {
    const fade = Math.exp(-((k / waves) ** 2));
    cosine[k]! *= fade;
    sine[k]! *= fade;
  }
  return Float64Array.from(values, (_, i) => {
    let sum = 0;
    for (let k = 0; k <= series; k++) {
      const angle = (k * (i + 0.5) * 2 * Math.PI) / places;
      sum += cosine[k]! * Math.cos(angle) + sine[k]! * Math.sin(angle);
    }
    return sum;
  });
}

/** Coefficients of the first waves of values at the middle of equal steps. */
function waveParts(values: Float64Array): { cosine: Float64Array; sine: Float64Array } {
  const count = values.length;
  const cosine = new Float64Array(series + 1);
  const sine = new Float64Array(series + 1);
  for (let k = 0; k <= series; k++) {
    const weight = (k === 0 ? 1 : 2) / count;
    for (let i = 0; i < count; i++) {
      const angle = (k * (i + 0.5) * 2 * Math.PI) / count;
      cosine[k]! += weight * values[i]! * Math.cos(angle);
      sine[k]! += weight * values[i]! * Math.sin(angle);
    }
  }
  return { cosine, sine };
}

/** Writes `t`, `dt/ds` and its derivative at `s`. */
export function alongAt({ start, cosine, sine }: NodeSpeed, s: number, out: Float64Array): void {
  let t = start + cosine[0]! * s;
  let rate = cosine[0]!;
  let change = 0;
  for (let k = 1; k < cosine.length; k++) {
    const c = Math.cos(k * s);
    const i = Math.sin(k * s);
    t += (cosine[k]! * i + sine[k]! * (1 - c)) / k;
    rate += cosine[k]! * c + sine[k]! * i;
    change += k * (sine[k]! * c - cosine[k]! * i);
  }
  out[0] = t;
  out[1] = rate;
  out[2] = change;
}
