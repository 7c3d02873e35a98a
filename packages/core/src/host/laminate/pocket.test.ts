import { describe, expect, it } from 'vitest';
import { drapedLaminate, slottedLaminate } from '../../../../../test/fixtures/laminates.js';
import { InputError } from '../../errors.js';
import { controlContour } from './contour.js';
import { lensForm } from './pocket.js';

/** Of the touching down of the plies: Bernoulli's beam, `delta (4 e^3 - 3 e^4)`, as `pocket.ts` derives it. */
const rise = (x: number, flat: number, halfLength: number) => {
  const e = Math.min(1, Math.max(0, 1 - Math.max(0, Math.abs(x) - flat) / (halfLength - flat)));
  return e ** 3 * (4 - 3 * e);
};

describe.each([
  ['both-flat', 0, 0.25, 0.25],
  ['both-flat', 0.4, 0.25, 0.25],
  ['bottom-flat', 0, 0.5, 0],
  ['bottom-flat', 0.4, 0.5, 0],
] as const)('a lens, %s, level over %d mm', (faces, flat, up, down) => {
  const thickness = 1.5;
  const level = 0.75;
  const halfLength = 2;
  const form = lensForm({ up, down, level, halfLength, flat }, thickness, faces);
  const xs = [-1.9, -1.2, -0.5, -0.1, 0, 0.3, 0.8, 1.7, 2.2];

  it('has the borders of a beam that comes down', () => {
    for (const x of xs) {
      expect(form.upper.at(x)).toBeCloseTo(level + up * rise(x, flat, halfLength), 12);
      expect(form.lower.at(x)).toBeCloseTo(level - down * rise(x, flat, halfLength), 12);
    }
  });

  it('bends plies from its borders to the faces that stay flat, at the angle of their slope', () => {
    for (const x of xs) {
      expect(form.place(x, level, true)).toBeCloseTo(form.upper.at(x), 12);
      expect(form.place(x, level, false)).toBeCloseTo(form.lower.at(x), 12);
      // Both faces stay flat, or the upper one goes up with the plies.
      expect(form.place(x, thickness, true)).toBeCloseTo(
        faces === 'both-flat' ? thickness : thickness + form.upper.at(x) - level,
        12,
      );
      expect(form.place(x, 0, false)).toBeCloseTo(0, 12);
      const step = 1e-6;
      for (const [at, above] of [
        [1.2, true],
        [0.3, false],
      ] as const) {
        const slope = (form.place(x + step, at, above) - form.place(x - step, at, above)) / (2 * step);
        expect(Math.tan(form.angle(x, form.place(x, at, above)))).toBeCloseTo(slope, 6);
      }
    }
  });

  it('is as far from a place inside as its nearest border, and from one outside not nearer than that', () => {
    for (const x of xs)
      for (const y of [level - 0.6, level - 0.1, level + 0.05, level + 0.2, level + 0.6]) {
        let least = Number.POSITIVE_INFINITY;
        for (let k = -2000; k <= 2000; k++) {
          const at = (k * halfLength) / 2000;
          for (const of of [form.upper, form.lower]) least = Math.min(least, Math.hypot(at - x, of.at(at) - y));
        }
        const inside = Math.abs(x) < halfLength && y > form.lower.at(x) && y < form.upper.at(x);
        const found = form.distance(x, y);
        if (inside) expect(found).toBeCloseTo(least, 3);
        else expect(found).toBeLessThanOrEqual(1e-3 - least);
      }
  });
});

describe('the room of a pocket', () => {
  const refused = (joint: Parameters<typeof controlContour>[0], wish: Parameters<typeof controlContour>[1]) => {
    try {
      controlContour(joint, wish);
    } catch (error) {
      if (error instanceof InputError) return error.problems[0]!.path;
      throw error;
    }
    return 'accepted';
  };

  it('must have room for wall and edge radius, and be no slit', () => {
    const lens = drapedLaminate(1);
    expect(refused(lens, { wall: 0.05, edgeRadius: 0.06 })).toBe('accepted');
    expect(refused(slottedLaminate(1), { wall: 0.05, edgeRadius: 0.06 })).toBe('accepted');
    for (const [wall, edgeRadius, path] of [
      [0, 0.05, 'channel.edgeRadius'],
      [0.2, 0.1, 'channel.wall'],
      [0.1, 0.2, 'channel.edgeRadius'],
      [0.05, -1, 'channel.edgeRadius'],
      [Number.NaN, 0.1, 'channel.wall'],
    ] as const)
      expect(refused(lens, { wall, edgeRadius })).toBe(path);
    const slit = { ...slottedLaminate(1), pocket: { made: 'cut', first: 2, count: 1, halfWidth: 40 } as const };
    expect(refused(slit, { wall: 0.02, edgeRadius: 0.02, largest: { width: 60, height: 1 } })).toBe(
      'channel.largest.width',
    );
  });
});
