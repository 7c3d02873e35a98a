/**
 * Trigonometric interpolation on `count` equal steps of a period, `count` even. Tables are made once per count.
 * Values are interleaved complex numbers `(re, im)`, one pair a node.
 */
export interface TrigonometricRule {
  readonly count: number;
  /** Derivative with respect to the parameter at every node, of the interpolating trigonometric polynomial. */
  differentiate(values: Float64Array, out: Float64Array): void;
  /** Weights of the values at `steps` node spacings after node 0 ; `weights[j]` is node j's. */
  weightsAt(steps: number, weights: Float64Array): void;
}

const rules = new Map<number, TrigonometricRule>();

export function trigonometricRule(count: number): TrigonometricRule {
  const known = rules.get(count);
  if (known !== undefined) return known;
  // Derivative at node i: sum over m of slope[m] values[i + m], slope odd in m (Trefethen, Spectral Methods in MATLAB, 2000, ch. 3).
  const slope = new Float64Array(count / 2);
  for (let m = 1; m < count / 2; m++) slope[m] = (0.5 * (m % 2 === 0 ? -1 : 1)) / Math.tan((m * Math.PI) / count);
  const cosine = Float64Array.from({ length: count }, (_, m) => Math.cos((m * Math.PI) / count));
  const sine = Float64Array.from({ length: count }, (_, m) => Math.sin((m * Math.PI) / count));
  const doubled = new Float64Array(4 * count);
  const rule: TrigonometricRule = {
    count,
    differentiate(values, out) {
      doubled.set(values);
      doubled.set(values, 2 * count);
      for (let i = 0; i < count; i++) {
        let re = 0;
        let im = 0;
        const here = 2 * i;
        const end = here + 2 * count;
        for (let m = 1; m < count / 2; m++) {
          const weight = slope[m]!;
          re += weight * (doubled[here + 2 * m]! - doubled[end - 2 * m]!);
          im += weight * (doubled[here + 2 * m + 1]! - doubled[end - 2 * m + 1]!);
        }
        out[here] = re;
        out[here + 1] = im;
      }
    },
    weightsAt(steps, weights) {
      // sin(N x/2) / (N tan(x/2)), x measured from node j; the sine is (-1)^j times one value, the cotangent a difference of angles.
      // Counted from the nearest node, neither loses digits close to a node.
      const whole = Math.round(steps);
      const rest = steps - whole;
      let node = ((whole % count) + count) % count;
      if (rest === 0) {
        weights.fill(0);
        weights[node] = 1;
        return;
      }
      const c = Math.cos((Math.PI * rest) / count);
      const s = Math.sin((Math.PI * rest) / count);
      let height = Math.sin(Math.PI * rest) / count;
      for (let m = 0; m < count; m++) {
        weights[node] = (height * (c * cosine[m]! + s * sine[m]!)) / (s * cosine[m]! - c * sine[m]!);
        height = -height;
        node = node + 1 === count ? 0 : node + 1;
      }
    },
  };
  rules.set(count, rule);
  return rule;
}
