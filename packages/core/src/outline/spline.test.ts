import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { derivativeError, isMirrored, placed, valuesAt } from '../../../../test/fixtures/outline-checks.js';
import { contourBorder } from '../host/index.js';
import { createFamily } from './create-family.js';
import type { Border, OutlineFamily, OutlineRoom } from './family.js';
import { createOutlineMeasure, measureOutline } from './measure.js';
import type { CurveNodes } from './nodes.js';
import { fitToBorder } from './test/fit.js';

const room: OutlineRoom = { mirror: true, xMin: -3, xMax: 3, yMin: 0.12, yMax: 3.6, edgeRadius: 0.12 };
const mirror = createFamily('spline', room);
const free = createFamily('spline', { ...room, mirror: false });
const fractions = (length: number, around: number) =>
  fc.array(fc.double({ min: 0.5 - around, max: 0.5 + around, noNaN: true }), { minLength: length, maxLength: length });

describe('spline family', () => {
  it('has 16 and 21 parameters', () => {
    expect(mirror.parameters.length).toBe(16);
    expect(free.parameters.length).toBe(21);
    expect(new Set(free.parameters.map((p) => p.name)).size).toBe(21);
  });

  it.each([
    ['mirror-symmetric', mirror],
    ['free', free],
  ])('gives the derivatives of its positions, %s', (_, family) => {
    fc.assert(
      fc.property(fractions(family.parameters.length, 0.15), (at) => {
        expect(derivativeError(placed(family, valuesAt(family, at), 256))).toBeLessThan(1e-8);
      }),
      { numRuns: 10, seed: 1 },
    );
  });

  it.each([
    ['mirror-symmetric', mirror],
    ['free', free],
  ])('is a circle of the given size without stretch and waves, %s', (_, family) => {
    const nodes = placed(
      family,
      family.parameters.map((p) => ({ y: 1.3, size: 0.7 })[p.name] ?? 0),
      64,
    );
    for (let j = 0; j < 64; j++) expect(Math.hypot(nodes.x[j]!, nodes.y[j]! - 1.3)).toBeCloseTo(0.7, 12);
  });

  it.each([-1.2, 0.4, 1.5])(
    'stretches a circle to an ellipse whose width over height is e^%d, however warped',
    (stretch) => {
      const nodes = placed(
        mirror,
        mirror.parameters.map((p) => ({ size: 0.7, stretch, sideWarp: 0.5, baseWarp: -0.4 })[p.name] ?? 0),
        64,
      );
      const a = 0.7 * Math.exp(stretch / 2);
      const b = 0.7 * Math.exp(-stretch / 2);
      for (let j = 0; j < 64; j++) expect((nodes.x[j]! / a) ** 2 + (nodes.y[j]! / b) ** 2).toBeCloseTo(1, 12);
    },
  );

  it('crowds nodes together where its warps say', () => {
    const at = (values: Record<string, number>) =>
      placed(
        mirror,
        mirror.parameters.map((p) => values[p.name] ?? (p.name === 'size' ? 1 : 0)),
        64,
      );
    // Spacing at the bottom, the side and the top of a circle.
    const spacing = (n: CurveNodes) => [0, 16, 31].map((j) => Math.hypot(n.dx[j]!, n.dy[j]!));
    const [bottom, side, top] = spacing(at({ sideWarp: 0.5 })) as [number, number, number];
    expect(side).toBeLessThan(bottom);
    expect(top).toBeCloseTo(bottom, 6);
    const [low, , high] = spacing(at({ baseWarp: 0.5 })) as [number, number, number];
    expect(low).toBeCloseTo(Math.exp(-0.5), 2);
    expect(high).toBeCloseTo(Math.exp(0.5), 2);
  });

  it('turns a slanted outline without any turn: stretch and slant make an ellipse along half their angle', () => {
    const angle = 0.7;
    const m = 1.2;
    const nodes = placed(
      free,
      free.parameters.map((p) => ({ size: 1, stretch: m * Math.cos(angle), slant: m * Math.sin(angle) })[p.name] ?? 0),
      64,
    );
    const c = Math.cos(angle / 2);
    const s = Math.sin(angle / 2);
    for (let j = 0; j < 64; j++) {
      const u = c * nodes.x[j]! + s * nodes.y[j]!;
      const v = c * nodes.y[j]! - s * nodes.x[j]!;
      expect((u / Math.exp(m / 2)) ** 2 + (v / Math.exp(-m / 2)) ** 2).toBeCloseTo(1, 12);
    }
  });

  it('is mirror-symmetric to the last bit', () => {
    fc.assert(
      fc.property(fractions(16, 0.5), (at) => {
        expect(isMirrored(placed(mirror, valuesAt(mirror, at), 64))).toBe(true);
      }),
      { numRuns: 20 },
    );
  });
});

describe('what splines reach', () => {
  /** A slot with corners rounded with half its height, as signed distance. */
  const slot = (width: number, height: number, y0: number): Border => ({
    distance: (x, y) => height / 2 - Math.hypot(Math.max(Math.abs(x) - (width - height) / 2, 0), y - y0),
  });
  const slotArea = (width: number, height: number) => (width - height) * height + (Math.PI / 4) * height ** 2;

  function fitted(family: OutlineFamily, target: Border) {
    const first: Record<string, number> = { y: 1, size: 0.8, stretch: 0.5 };
    const values = fitToBorder(
      family,
      target,
      family.parameters.map((p) => first[p.name] ?? 0),
    );
    const nodes = placed(family, values, 512);
    const m = createOutlineMeasure();
    measureOutline(nodes, target, m);
    return { measure: m, away: Math.max(...Array.from(nodes.x, (x, j) => Math.abs(target.distance(x, nodes.y[j]!)))) };
  }

  it.each([
    ['mirror-symmetric', mirror],
    ['free', free],
  ])('a slot four times wider than high, within 1 %% of its size: %s', (_, family) => {
    const { measure, away } = fitted(family, slot(4, 1, 0.8));
    expect(away).toBeLessThan(0.04);
    expect(measure.area / slotArea(4, 1)).toBeCloseTo(1, 2);
    expect(measure.simple).toBe(true);
  });

  it.each([
    [0.12, 0.3],
    [0.3, 0.2],
    [0.5, 0.12],
  ])(
    'the filler moved in by %d with tips of %d, within 1 %% of its size: it reaches into all three cusps',
    (wall, radius) => {
      const { measure, away } = fitted(mirror, contourBorder(5, wall, radius));
      expect(away).toBeLessThan(0.01 * measure.width);
      expect(measure.simple).toBe(true);
    },
  );

  it.each([
    ['flat', 2.4, 0.7, 0],
    ['upright', 0.6, 1.6, 0],
    ['turned', 2.2, 0.8, 0.6],
    ['round', 1, 1, 0],
  ])('imitates a %s ellipse to less than a thousandth of its size', (_, width, height, turn) => {
    for (const family of turn === 0 ? [mirror, free] : [free]) {
      const nodes = placed(family, valuesAt(family, new Array(family.parameters.length).fill(0.5)), 512);
      for (let j = 0; j < nodes.count; j++) {
        // From the bottom, counter-clockwise.
        const v = ((j + (family.mirror ? 0.5 : 0)) * 2 * Math.PI) / nodes.count;
        const [px, py] = [(width / 2) * Math.sin(v), (-height / 2) * Math.cos(v)];
        nodes.x[j] = (family.mirror ? 0 : 0.3) + px * Math.cos(turn) - py * Math.sin(turn);
        nodes.y[j] = 1.4 + px * Math.sin(turn) + py * Math.cos(turn);
      }
      const found = placed(family, family.imitate!(nodes), 512);
      for (let j = 0; j < found.count; j++) {
        const x = found.x[j]! - (family.mirror ? 0 : 0.3);
        const y = found.y[j]! - 1.4;
        const along = (x * Math.cos(turn) + y * Math.sin(turn)) / (width / 2);
        const across = (y * Math.cos(turn) - x * Math.sin(turn)) / (height / 2);
        expect(Math.abs(Math.hypot(along, across) - 1)).toBeLessThan(1e-3);
      }
    }
  });
});
