import { describe, expect, it } from 'vitest';
import { addEntry, createCyclicBand, solveCyclicBand } from './cyclic-band.js';

describe('solveCyclicBand', () => {
  it.each([8, 9, 16, 31])('solves a ring of %i rows to rounding', (order) => {
    const band = createCyclicBand(order);
    const value = (i: number, away: number) => (away === 0 ? 9 + Math.sin(i) : Math.cos(3 * i + away));
    const full = Array.from({ length: order }, () => new Float64Array(order));
    for (let i = 0; i < order; i++)
      for (let away = 0; away <= 3; away++) {
        const j = (i + away) % order;
        addEntry(band, i, j, value(i, away));
        full[i]![j]! += value(i, away);
        if (away > 0) full[j]![i]! += value(i, away);
      }
    const solutions = [1, 2].map((k) => Float64Array.from({ length: order }, (_, i) => Math.sin(k * i * i)));
    const sides = solutions.map((x) =>
      Float64Array.from(full, (row) => row.reduce((sum, entry, j) => sum + entry * x[j]!, 0)),
    );
    solveCyclicBand(band, sides);
    sides.forEach((side, k) => {
      side.forEach((v, i) => {
        expect(v).toBeCloseTo(solutions[k]![i]!, 12);
      });
    });
  });
});
