import { describe, expect, it } from 'vitest';
import { placed, rateError, valuesAt } from '../../../../test/fixtures/outline-checks.js';
import { InputError } from '../errors.js';
import { teeFamilies } from '../host/index.js';
import { createFamily, familyNames } from './create-family.js';
import type { OutlineRoom } from './family.js';
import { createOutlineMeasure, highestOf, lowestOf, measureOutline } from './measure.js';

const room: OutlineRoom = {
  mirror: true,
  xMin: -3.2,
  xMax: 3.2,
  yMin: 0.12,
  yMax: 3.6,
  edgeRadius: 0.12,
  families: teeFamilies(5),
};

describe('createFamily', () => {
  it('knows three families of all rooms, and those that a room has of its own', () => {
    expect(familyNames).toEqual(['ellipse', 'teardrop', 'spline']);
    expect(() => createFamily('inset', { ...room, families: {} })).toThrow(InputError);
    expect(createFamily('inset', room).name).toBe('inset');
  });

  it.each(['ellipse', 'spline'] as const)('gives a %s that stands on a level, or about one, without y', (name) => {
    const free = createFamily(name, { ...room, mirror: false });
    for (const [stands, level] of [
      [{ on: 0.3 }, (low: number, _high: number) => low - 0.3],
      [{ about: 1.1 }, (low: number, high: number) => (low + high) / 2 - 1.1],
    ] as const) {
      const family = createFamily(name, { ...room, mirror: false, stands });
      expect(family.parameters).toEqual(free.parameters.filter((parameter) => parameter.name !== 'y'));
      // Slopes are of the free outline.
      expect(family.rates).toBeUndefined();
      const values = valuesAt(
        family,
        family.parameters.map((_, i) => [0.5, 0.4, 0.6, 0.45, 0.55][i % 5]!),
      );
      const nodes = placed(family, values, 64);
      expect(level(lowestOf(nodes), highestOf(nodes))).toBeCloseTo(0, 12);
      const again = family.imitate?.(nodes);
      if (again !== undefined) expect(again).toHaveLength(family.parameters.length);
    }
    expect(createFamily(name, { ...room, mirror: false, stands: { on: 0.3 } }).imitate === undefined).toBe(
      free.imitate === undefined,
    );
  });

  it.each([...familyNames, 'inset'].flatMap((name) => [true, false].map((mirror) => ({ name, mirror }))))(
    'gives $name (mirror: $mirror) named parameters with units, bounds and a meaning, and a simple outline amid them',
    ({ name, mirror }) => {
      const family = createFamily(name, { ...room, mirror });
      expect(family.name).toBe(name);
      expect(family.mirror).toBe(mirror);
      const names = family.parameters.map((p) => p.name);
      expect(new Set(names).size).toBe(names.length);
      expect(names.includes('turn') && mirror).toBe(false);
      for (const { unit, lower, upper, meaning } of family.parameters) {
        expect(['mm', 'deg', '1']).toContain(unit);
        expect(lower).toBeLessThan(upper);
        expect(meaning).toMatch(/^[A-Z].*\.$/);
      }
      const m = createOutlineMeasure();
      const middle = family.parameters.map(() => 0.5);
      measureOutline(placed(family, valuesAt(family, middle), 64), { distance: () => Number.POSITIVE_INFINITY }, m);
      expect(m.simple).toBe(true);
      expect(m.area).toBeGreaterThan(0);
    },
  );

  it.each(familyNames.flatMap((name) => [true, false].map((mirror) => ({ name, mirror }))))(
    'gives $name (mirror: $mirror) the rates of central differences, where it gives any',
    ({ name, mirror }) => {
      const family = createFamily(name, { ...room, mirror });
      if (family.rates === undefined) return;
      for (const fractions of [
        [0.5, 0.4, 0.6, 0.45, 0.55],
        [0.3, 0.6, 0.45, 0.7, 0.4, 0.5, 0.55],
        [0.5, 0.5, 0.5],
      ]) {
        const values = valuesAt(
          family,
          family.parameters.map((_, i) => fractions[i % fractions.length]!),
        );
        expect(rateError(family, values, 48)).toBeLessThan(1e-7);
      }
    },
  );

  it('refuses an unknown name, naming those it knows', () => {
    expect(() => createFamily('circle', room)).toThrow(
      /channel\.families: expected one of ellipse, .*received "circle"/,
    );
    expect(() => createFamily('toString', room)).toThrow(InputError);
  });

  it.each([
    { ...room, edgeRadius: 2 },
    { ...room, edgeRadius: Number.NaN },
    { ...room, edgeRadius: -1 },
    { ...room, xMin: 1, xMax: -1 },
    { ...room, yMax: Number.POSITIVE_INFINITY },
  ])('refuses a room without room: %j', (small) => {
    expect(() => createFamily('ellipse', small)).toThrow(InputError);
  });
});
