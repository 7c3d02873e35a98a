import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { derivativeError, isMirrored, placed, valuesAt } from '../../../../../test/fixtures/outline-checks.js';
import { InputError } from '../../errors.js';
import {
  createFamily,
  createOutlineMeasure,
  measureOutline,
  nodesNeeded,
  type OutlineRoom,
} from '../../outline/index.js';
import { contourBorder } from './border.js';
import { teeFamilies } from './inset.js';
import { inscribedRadius } from './rounded-filler.js';

const room: OutlineRoom = {
  mirror: true,
  xMin: -3.2,
  xMax: 3.2,
  yMin: 0.1,
  yMax: 3.6,
  edgeRadius: 0.12,
  families: teeFamilies(5),
};
const family = createFamily('inset', room);
const fractions = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 });

describe('inset family', () => {
  it.each([
    [0.12, 0.12],
    [0.12, 0.3],
    [0.3, 0.2],
    [0.5, 0.15],
  ])(
    'follows the filler moved in by %d with tips of %d within a hundredth of the size, never beyond it',
    (wall, radius) => {
      const border = contourBorder(5, wall, radius);
      const nodes = placed(family, [wall, wall, radius, radius], 512);
      const m = createOutlineMeasure();
      measureOutline(nodes, border, m);
      const away = Array.from(nodes.x, (x, j) => border.distance(x, nodes.y[j]!));
      expect(Math.max(...away)).toBeLessThan(0.01 * m.width);
      expect(m.wall).toBeGreaterThan(-2e-4);
    },
  );

  it('keeps its walls and tip radii', () => {
    fc.assert(
      fc.property(fractions, (at) => {
        const [sideWall, baseWall, side, top] = valuesAt(family, at) as [number, number, number, number];
        const nodes = placed(family, [sideWall, baseWall, side, top], 512);
        const least = (distance: (x: number, y: number) => number) =>
          Math.min(...Array.from(nodes.x, (x, j) => distance(x, nodes.y[j]!)));
        expect(least((_, y) => y)).toBeCloseTo(baseWall, 4);
        const m = createOutlineMeasure();
        measureOutline(nodes, { distance: () => Number.POSITIVE_INFINITY }, m);
        const room = 0.9 * inscribedRadius(5, sideWall, baseWall);
        const radius = Math.min(side, top, room);
        expect(m.simple).toBe(true);
        expect(m.edgeRadius / radius).toBeGreaterThan(0.97);
        expect(m.edgeRadius / radius).toBeLessThan(1.03);
        if (Math.max(side, top) < 0.5 * room)
          expect(Math.abs(least((x, y) => Math.hypot(Math.abs(x) - 5, y - 5) - 5) - sideWall)).toBeLessThan(0.005);
      }),
      { numRuns: 60, seed: 3 },
    );
  });

  it('is one curve, whatever the number of nodes', () => {
    const values = [0.2, 0.15, 0.2, 0.15];
    const fine = placed(family, values, 960);
    // Nodes at the same curve parameter: node j of 64 is node 15 j + 7 of 960.
    const error = (count: number) => {
      const coarse = placed(family, values, count);
      const ratio = 960 / count;
      const differences = Array.from(coarse.x, (x, j) =>
        Math.hypot(x - fine.x[ratio * j + (ratio - 1) / 2]!, coarse.y[j]! - fine.y[ratio * j + (ratio - 1) / 2]!),
      );
      return Math.max(...differences);
    };
    // Below and above the node count at which the quadrature takes more rows than nodes.
    for (const count of [64, 192, 320]) expect(error(count)).toBeLessThan(1e-6);
  });

  it('gives the derivatives of its positions and is mirror-symmetric to the last bit', () => {
    const nodes = placed(family, [0.2, 0.15, 0.2, 0.15], 512);
    expect(derivativeError(nodes)).toBeLessThan(1e-5);
    expect(isMirrored(nodes)).toBe(true);
  });

  it('needs more nodes for sharper tips', () => {
    const needed = (radius: number) => nodesNeeded(placed(family, [0.2, 0.2, radius, radius], 64));
    expect(needed(0.12)).toBeGreaterThan(needed(0.2));
    expect(needed(0.2)).toBeGreaterThan(needed(0.5));
    expect(needed(0.12)).toBeLessThanOrEqual(224);
  });

  it('scales with the filler', () => {
    const large = createFamily('inset', {
      ...room,
      xMin: -3200,
      xMax: 3200,
      yMin: 100,
      yMax: 3600,
      edgeRadius: 120,
      families: teeFamilies(5000),
    });
    const one = placed(family, [0.2, 0.15, 0.2, 0.15], 64);
    const big = placed(large, [200, 150, 200, 150], 64);
    for (let j = 0; j < 64; j++) {
      expect(big.x[j]! / 1000).toBeCloseTo(one.x[j]!, 11);
      expect(big.ddy[j]! / 1000).toBeCloseTo(one.ddy[j]!, 9);
    }
  });

  it('is shifted and turned where nothing must be mirror-symmetric', () => {
    const free = createFamily('inset', { ...room, mirror: false });
    expect(free.parameters.map((p) => p.name)).toEqual(['x', ...family.parameters.map((p) => p.name), 'turn']);
    const upright = placed(family, [0.2, 0.15, 0.2, 0.15], 64);
    const turned = placed(free, [0.3, 0.2, 0.15, 0.2, 0.15, 10], 64);
    for (let j = 0; j < 64; j++)
      expect(Math.hypot(turned.x[j]! - 0.3, turned.y[j]! - 1.25)).toBeCloseTo(
        Math.hypot(upright.x[j]!, upright.y[j]! - 1.25),
        12,
      );
  });

  it('is not offered without a filler, nor where the least radius leaves no room', () => {
    const { families: _, ...plate } = room;
    expect(() => createFamily('inset', plate)).toThrow(InputError);
    expect(() => createFamily('inset', { ...room, edgeRadius: 1.1 })).toThrow(/inset/);
  });
});
