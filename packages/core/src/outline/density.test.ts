import { describe, expect, it } from 'vitest';
import { type NodeSpacing, spacedNodes } from './density.js';
import { nodeParameter } from './nodes.js';

const count = 32;
const spacing = (even: number[], odd: number[] = []): NodeSpacing => ({
  even: Float64Array.from(even),
  odd: Float64Array.from(odd),
});

/** The exponent of a spacing, and its slope. */
const exponent = ({ even, odd }: NodeSpacing, u: number): number =>
  even.reduce((sum, a, k) => sum + a * Math.cos((k + 1) * u), 0) +
  odd.reduce((sum, b, k) => sum + b * Math.sin((k + 1) * u), 0);
const exponentSlope = ({ even, odd }: NodeSpacing, u: number): number =>
  even.reduce((sum, a, k) => sum - (k + 1) * a * Math.sin((k + 1) * u), 0) +
  odd.reduce((sum, b, k) => sum + (k + 1) * b * Math.cos((k + 1) * u), 0);

/** Of `exp` of the exponent from 0 to `to`, by the trapezoidal rule. */
function integral(of: NodeSpacing, to: number, steps = 20_000): number {
  let sum = (Math.exp(exponent(of, 0)) + Math.exp(exponent(of, to))) / 2;
  for (let i = 1; i < steps; i++) sum += Math.exp(exponent(of, (to * i) / steps));
  return (sum * to) / steps;
}

describe('nodes along an outline', () => {
  it.each([
    ['evenly', spacing([0, 0]), count / 2],
    ['alike on both sides', spacing([0.4, -0.3, 0.1]), count / 2],
    ['denser on one side', spacing([0.3, -0.2, 0.05], [0.5, 0.15, -0.1]), count],
  ])('run by the exponential of their waves, %s: shares, slopes and bends', (_, of, rows) => {
    const { share, slope, bend } = spacedNodes(of, count);
    expect([share, slope, bend].map(({ length }) => length)).toEqual([rows, rows, rows]);
    const whole = integral(of, 2 * Math.PI);
    share.forEach((value, j) => {
      const u = nodeParameter(j, count) + Math.PI / 2;
      expect(value).toBeCloseTo(integral(of, u) / whole, 7);
      expect(slope[j]).toBeCloseTo(Math.exp(exponent(of, u)) / whole, 12);
      expect(bend[j]).toBeCloseTo((exponentSlope(of, u) * Math.exp(exponent(of, u))) / whole, 11);
    });
  });
});
