import { describe, expect, it } from 'vitest';
import { growthFactor, releasedEnergy } from './crack-growth.js';

/** Two loads on a crack of compliance 1: amplitudes of both modes, per load, whose squares are the energies. */
function release(opening: readonly number[], sliding: readonly number[]) {
  const form = (amplitudes: readonly number[]) =>
    Float64Array.from(amplitudes.flatMap((a) => amplitudes.map((b) => a * b)));
  return { loads: ['cure', 'pull'], opening: form(opening), sliding: form(sliding), gap: Float64Array.from(opening) };
}
const loads = (cure: number, pull: number) => ({ fixed: Float64Array.of(cure, 0), scaled: Float64Array.of(0, pull) });
const toughness = { modeI: 0.25, modeII: 1 };

describe('load factor at which a crack grows', () => {
  it('is the root of the toughness over the energy, of one mode', () => {
    expect(growthFactor(release([0, 0.1], [0, 0]), loads(0, 1), toughness)).toBeCloseTo(5, 12);
    expect(growthFactor(release([0, 0], [0, 0.1]), loads(0, 1), toughness)).toBeCloseTo(10, 12);
  });

  it('meets the linear criterion in both modes, with what is held', () => {
    const both = release([0.1, 0.05], [-0.2, 0.3]);
    const factor = growthFactor(both, loads(1, 1), toughness);
    const { modeI, modeII } = releasedEnergy(both, Float64Array.of(1, factor));
    expect(modeI / toughness.modeI + modeII / toughness.modeII).toBeCloseTo(1, 12);
    expect(modeI).toBeCloseTo((0.1 + 0.05 * factor) ** 2, 12);
  });

  it('counts mode I only where the crack opens', () => {
    const pressed = release([-0.1, 0.05], [0, 0.01]);
    expect(releasedEnergy(pressed, Float64Array.of(1, 1))).toMatchObject({ modeI: 0, closed: true });
    // One that only slides presses on nothing.
    expect(releasedEnergy(release([0, 0], [0, 0.1]), Float64Array.of(0, 1)).closed).toBe(false);
    // Opens at a factor of 2, from where on 0.05 (f - 2) and 0.01 f count.
    const factor = growthFactor(pressed, loads(1, 1), toughness);
    expect((0.05 * (factor - 2)) ** 2 / 0.25 + (0.01 * factor) ** 2).toBeCloseTo(1, 12);
    expect(factor).toBeGreaterThan(2);
    // One that closes under the load grows by sliding alone, or never.
    expect(growthFactor(release([0.1, -0.05], [0, 0.2]), loads(1, 1), toughness)).toBeCloseTo(5, 12);
    expect(growthFactor(release([0.1, -0.05], [0, 0]), loads(1, 1), toughness)).toBe(Number.POSITIVE_INFINITY);
  });

  it('is 0 where what is held makes it grow, and no number only for no number', () => {
    expect(growthFactor(release([0.6, 0.1], [0, 0]), loads(1, 1), toughness)).toBe(0);
    expect(growthFactor(release([0, 0], [0, 0]), loads(1, 1), toughness)).toBe(Number.POSITIVE_INFINITY);
  });
});
