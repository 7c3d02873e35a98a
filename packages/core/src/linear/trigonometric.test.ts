import { describe, expect, it } from 'vitest';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { nodeParameter } from '../outline/index.js';
import { trigonometricRule } from './trigonometric.js';

/** `e^(iks)` at the nodes, interleaved. */
const wave = (count: number, k: number) =>
  Float64Array.from({ length: 2 * count }, (_, i) => {
    const s = nodeParameter(i >> 1, count);
    return i % 2 === 0 ? Math.cos(k * s) : Math.sin(k * s);
  });

describe('trigonometricRule', () => {
  it.each([8, 10, 64])('differentiates every wave below half the %i nodes exactly', (count) => {
    const out = new Float64Array(2 * count);
    for (let k = -count / 2 + 1; k < count / 2; k++) {
      const values = wave(count, k);
      trigonometricRule(count).differentiate(values, out);
      // i k (re + i im)
      const exact = values.map((_, i) => (i % 2 === 0 ? -k * values[i + 1]! : k * values[i - 1]!));
      expect(largestDifference(out, exact)).toBeLessThan(1e-13 * count ** 2);
    }
  });

  it.each([8, 10, 64])('interpolates those waves exactly, on nodes of %i and between', (count) => {
    const weights = new Float64Array(count);
    for (const steps of [-0.7, 0, 0.25, 1, 2.5, count / 2, count - 0.1]) {
      trigonometricRule(count).weightsAt(steps, weights);
      const s = nodeParameter(0, count) + (steps * 2 * Math.PI) / count;
      for (let k = 0; k < count / 2; k++) {
        const values = wave(count, k);
        const at = weights.reduce((sum, weight, j) => sum + weight * values[2 * j]!, 0);
        expect(Math.abs(at - Math.cos(k * s))).toBeLessThan(1e-12);
      }
    }
  });
});
