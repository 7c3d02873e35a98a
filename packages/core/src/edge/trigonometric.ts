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
      // sin(N x/2) / (N tan(x/2)), x measured from node j.
      const h = (2 * Math.PI) / count;
      for (let j = 0; j < count; j++) {
        const x = (steps - j) * h;
        weights[j] = x === 0 ? 1 : Math.sin((count * x) / 2) / (count * Math.tan(x / 2));
      }
    },
  };
  rules.set(count, rule);
  return rule;
}
