import { describe, expect, it } from 'vitest';
import { compareModels } from './agreement.js';

const fast = (peak: number) => ({ peak, at: [0, 0] as const, least: -10 });
const mesh = (peak: number, error = 0.0005, least = -10) => ({ ...fast(peak), least, error });

describe('comparing the models', () => {
  it('takes differences as shares of the largest hoop stress, and says where they are largest', () => {
    const agreement = compareModels(
      { loads: { pull: fast(100.6), cure: fast(20) }, cases: { both: fast(99) } },
      { loads: { pull: mesh(100), cure: mesh(20.3, 0.0005, -60) }, cases: { both: mesh(99.2) } },
    );
    expect(agreement.loads.pull).toBeCloseTo(0.006, 12);
    expect(agreement.loads.cure).toBeCloseTo(-0.3 / 60, 12);
    expect(agreement.worst).toMatchObject({ under: 'load pull', fast: 100.6, meshed: 100 });
    expect(agreement.holds).toBe(true);
  });

  it.each([
    ['within 1 %', 100.9, 0.0005, true],
    ['beyond 1 % and the own error of the mesh', 101.1, 0.0005, false],
    ['below the mesh by as much', 98.9, 0.0005, false],
    ['beyond 1 %, but not beyond the own error of the mesh', 101.1, 0.012, true],
    ['no number', Number.NaN, 0.0005, false],
  ])('holds or not: %s', (_, peak, error, holds) => {
    const agreement = compareModels(
      { loads: { pull: fast(100) }, cases: { pulled: fast(peak) } },
      { loads: { pull: mesh(100) }, cases: { pulled: mesh(100, error) } },
    );
    expect(agreement.holds).toBe(holds);
    expect(agreement.worst.under).toBe('case pulled');
  });
});
