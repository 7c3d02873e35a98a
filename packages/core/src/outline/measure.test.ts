import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placed, valuesAt } from '../../../../test/fixtures/outline-checks.js';
import { teeFamilies, teeFillerBorder } from '../host/index.js';
import { createFamily, familyNames } from './create-family.js';
import type { Border, OutlineRoom } from './family.js';
import { createOutlineMeasure, highestOf, lowestOf, measureOutline, type OutlineMeasure } from './measure.js';
import { nodesNeeded } from './node-rule.js';
import { type CurveNodes, createCurveNodes, nodeParameter } from './nodes.js';

const room: OutlineRoom = { mirror: true, xMin: -30, xMax: 30, yMin: -30, yMax: 30, edgeRadius: 0 };
const nowhere: Border = { distance: () => Number.POSITIVE_INFINITY };
const ellipse = createFamily('ellipse', room);
const turned = createFamily('ellipse', { ...room, mirror: false });

function measured(nodes: CurveNodes, border: Border = nowhere): OutlineMeasure {
  const out = createOutlineMeasure();
  measureOutline(nodes, border, out);
  return out;
}

/** An outline from its position as a function of s; derivatives by fourth-order differences (1e-10 here). */
function outline(count: number, at: (s: number) => [number, number]): CurveNodes {
  const nodes = createCurveNodes(count);
  const e = 2e-3;
  for (let j = 0; j < count; j++) {
    const s = nodeParameter(j, count);
    const [m2, m1, p0, p1, p2] = [at(s - 2 * e), at(s - e), at(s), at(s + e), at(s + 2 * e)];
    const first = (k: 0 | 1) => (m2[k] - 8 * m1[k] + 8 * p1[k] - p2[k]) / (12 * e);
    const second = (k: 0 | 1) => (-m2[k] + 16 * m1[k] - 30 * p0[k] + 16 * p1[k] - p2[k]) / (12 * e * e);
    nodes.x[j] = p0[0];
    nodes.y[j] = p0[1];
    nodes.dx[j] = first(0);
    nodes.dy[j] = first(1);
    nodes.ddx[j] = second(0);
    nodes.ddy[j] = second(1);
  }
  return nodes;
}

describe('measureOutline', () => {
  it('measures an ellipse of semi-axes 2 and 1', () => {
    const m = measured(placed(ellipse, [0.5, 4, 2], 64));
    expect(m.area).toBeCloseTo(2 * Math.PI, 12);
    // 4 a E(m = 0.75), E = 1.211056028 (Abramowitz & Stegun, Handbook of Mathematical Functions, 1964, table 17.1)
    expect(m.perimeter).toBeCloseTo(8 * 1.211056028, 8);
    expect(m.centroidX).toBeCloseTo(0, 12);
    expect(m.centroidY).toBeCloseTo(0.5, 12);
    // b^2 / a at the ends of the long axis
    expect(m.edgeRadius).toBeCloseTo(0.5, 4);
    expect(m.width).toBeCloseTo(4, 5);
    expect(m.height).toBeCloseTo(2, 5);
    expect(m.wall).toBe(Number.POSITIVE_INFINITY);
    expect(m.simple).toBe(true);
  });

  it('converges spectrally in area and perimeter', () => {
    const error = (count: number) =>
      Math.abs(measured(placed(ellipse, [0, 4, 2], count)).perimeter / 8 - 1.211056027568459);
    // The speed's Fourier coefficients fall by (a - b)/(a + b) = 1/3 per two nodes, times k^-1.5 (branch points).
    expect(error(16) / error(8) / (3 ** -4 * 2 ** -1.5)).toBeCloseTo(1, 0);
    expect(error(32) / error(16) / (3 ** -8 * 2 ** -1.5)).toBeCloseTo(1, 0);
    expect(error(64)).toBeLessThan(1e-13);
  });

  it.each([24, 32, 48, 64])('finds the least radius between %i nodes within 1 % where the node rule holds', (count) => {
    // Slender enough that curvature times spacing is 0.6 at the tip: half-height b, spacing b h, radius b^2 / a.
    const h = (2 * Math.PI) / count;
    const a = 1;
    const b = (a * h) / 0.6;
    const exact = b ** 2 / a;
    const flat = measured(placed(ellipse, [0, 2 * a, 2 * b], count));
    expect(Math.abs(flat.edgeRadius / exact - 1)).toBeLessThan(0.01);
    const free = measured(placed(turned, [0, 0, 2 * a, 2 * b, 25], count));
    expect(Math.abs(free.edgeRadius / exact - 1)).toBeLessThan(0.01);
  });

  it.each([...familyNames, 'inset'].flatMap((name) => [true, false].map((mirror) => ({ name, mirror }))))(
    'finds least radius and wall of random outlines between the nodes that the rule asks for: $name, mirror $mirror',
    ({ name, mirror }) => {
      const filler: OutlineRoom = {
        mirror,
        xMin: -3.2,
        xMax: 3.2,
        yMin: 0.12,
        yMax: 3.6,
        edgeRadius: 0.12,
        families: teeFamilies(5),
      };
      const family = createFamily(name, filler);
      const border = teeFillerBorder(5);
      const fractions = fc.array(fc.double({ min: 0.35, max: 0.65, noNaN: true }), {
        minLength: family.parameters.length,
        maxLength: family.parameters.length,
      });
      fc.assert(
        fc.property(fractions, (at) => {
          const values = valuesAt(family, at);
          const count = nodesNeeded(placed(family, values, 64));
          // Sharper tips than the rule's most nodes resolve are far below any edge radius asked for.
          fc.pre(count < 512);
          const dense = measured(placed(family, values, 4096), border);
          const m = measured(placed(family, values, count), border);
          expect(Math.abs(m.edgeRadius / dense.edgeRadius - 1)).toBeLessThan(0.01);
          expect(Math.abs(m.wall - dense.wall)).toBeLessThan(1e-3);
          expect(m.simple).toBe(dense.simple);
        }),
        { numRuns: 60, seed: 5 },
      );
    },
  );

  it('counts concave parts by the size of their curvature', () => {
    // r = 1 - 0.5 cos 2s: curvature at the waist (r = 0.5, r'' = 2): (r^2 - r r'') / r^3 = -6
    const m = measured(
      outline(128, (s) => [(1 - 0.5 * Math.cos(2 * s)) * Math.cos(s), (1 - 0.5 * Math.cos(2 * s)) * Math.sin(s)]),
    );
    expect(m.edgeRadius).toBeCloseTo(1 / 6, 4);
    expect(m.simple).toBe(true);
    // 1/2 int r^2 ds = pi (1 + 1/8)
    expect(m.area).toBeCloseTo(Math.PI * 1.125, 8);
  });

  it('finds the wall of a circle in the filler between nodes', () => {
    const border = teeFillerBorder(5);
    for (const [y, radius] of [
      [1.25, 0.5],
      [1.25, 1.1],
      [0.7, 0.5],
      [2.5, 0.3],
    ] as const) {
      const exact = Math.min(y, Math.hypot(5, 5 - y) - 5) - radius;
      for (const count of [32, 48, 64])
        expect(measured(placed(ellipse, [y, 2 * radius, 2 * radius], count), border).wall).toBeCloseTo(exact, 5);
    }
  });

  it('gives a negative wall to an outline that leaves its room', () => {
    expect(measured(placed(ellipse, [0.4, 1, 1], 48), teeFillerBorder(5)).wall).toBeCloseTo(-0.1, 5);
    expect(measured(placed(turned, [20, 0.5, 0.5, 0.5, 0], 48), teeFillerBorder(5)).wall).toBeLessThan(-10);
  });

  it('does not depend on which node is the first', () => {
    const count = 48;
    // Bean-shaped and slanted: its sharpest bend, its thinnest wall and its ends lie between nodes.
    const nodes = outline(count, (s) => [
      2 * Math.cos(s + 0.3) + 0.3 * Math.cos(2 * s),
      5 + Math.sin(s) + 0.4 * Math.cos(2 * s + 1),
    ]);
    const border: Border = { distance: (x, y) => Math.hypot(x - 1, y - 9) };
    const first = measured(nodes, border);
    for (let from = 1; from < count; from++) {
      const rolled = createCurveNodes(count);
      for (const key of ['x', 'y', 'dx', 'dy', 'ddx', 'ddy'] as const)
        for (let j = 0; j < count; j++) rolled[key][j] = nodes[key][(j + from) % count]!;
      const other = measured(rolled, border);
      for (const key of ['edgeRadius', 'wall', 'width', 'height', 'area', 'perimeter'] as const)
        expect(other[key] / first[key], `${key}, from node ${from}`).toBeCloseTo(1, 12);
      expect([lowestOf(rolled), highestOf(rolled)]).toEqual([lowestOf(nodes), highestOf(nodes)]);
    }
  });

  it('is invariant under scale and turning', () => {
    const one = measured(placed(turned, [0.2, 1.1, 3, 0.8, 0], 64));
    fc.assert(
      fc.property(fc.constantFrom(1e-3, 1, 1e3), fc.double({ min: -90, max: 90, noNaN: true }), (scale, turn) => {
        const m = measured(placed(turned, [0.2 * scale, 1.1 * scale, 3 * scale, 0.8 * scale, turn], 64));
        expect(m.area / scale ** 2 / one.area).toBeCloseTo(1, 11);
        expect(m.perimeter / scale / one.perimeter).toBeCloseTo(1, 11);
        expect(m.edgeRadius / scale / one.edgeRadius).toBeCloseTo(1, 10);
        expect(m.centroidX / scale).toBeCloseTo(0.2, 10);
        expect(m.centroidY / scale).toBeCloseTo(1.1, 10);
        expect(m.simple).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  describe('simple or not', () => {
    it('tells a figure of eight, which turns not at all', () => {
      expect(measured(outline(64, (s) => [Math.cos(s), Math.sin(2 * s)])).simple).toBe(false);
    });
    it('tells a limaçon with an inner loop, which turns twice', () => {
      const r = (s: number) => 0.5 + Math.cos(s);
      expect(measured(outline(64, (s) => [r(s) * Math.cos(s), r(s) * Math.sin(s)])).simple).toBe(false);
    });
    it('tells a bent band whose ends overlap, though it turns once', () => {
      expect(measured(bentBand(2.9)).simple).toBe(true);
      expect(measured(bentBand(3.3)).simple).toBe(false);
    });
    it('refuses a clockwise outline', () => {
      expect(measured(outline(64, (s) => [Math.cos(s), -Math.sin(s)])).simple).toBe(false);
    });
    it('gives NaN everywhere to an outline with NaN in it', () => {
      const m = measured(placed(ellipse, [0, Number.NaN, 1], 32), teeFillerBorder(5));
      expect(m.simple).toBe(false);
      for (const value of [m.area, m.perimeter, m.edgeRadius, m.wall, m.width]) expect(value).toBeNaN();
    });
  });
});

/** A ring-shaped band of middle radius 1 that reaches over the angles -reach to reach; its ends overlap beyond about pi. */
function bentBand(reach: number): CurveNodes {
  return outline(256, (s) => {
    const angle = reach * Math.sin(s);
    const radius = 1 + 0.2 * Math.cos(s);
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
}

it('tells how low and high an outline reaches between its nodes, wherever they begin', () => {
  for (const from of [0, 1, Math.PI / 2, 2.5, 4, 1.5 * Math.PI]) {
    const nodes = outline(32, (s) => [2 * Math.cos(s + from), 3 + Math.sin(s + from)]);
    // A parabola through the nearest node: s^4 / 8 off, s half a spacing; the node itself s^2 / 2, that is 5e-3.
    expect(Math.abs(lowestOf(nodes) - 2)).toBeLessThan(1.2e-5);
    expect(Math.abs(highestOf(nodes) - 4)).toBeLessThan(1.2e-5);
  }
});

it.each([7, 6, 33, Number.NaN])('no outline has %d nodes', (count) => {
  expect(() => createCurveNodes(count)).toThrow(`an even number >= 8, received ${count}`);
});

it('measures right beside a border whose distance measures outlines itself', () => {
  const nodes = placed(ellipse, [0.5, 4, 2], 96);
  const other = placed(ellipse, [0, 1, 3], 64);
  const plain: Border = { distance: (x, y) => 3 - Math.hypot(x, y - 1) };
  const measuring: Border = {
    distance(x, y) {
      measured(other, plain);
      return plain.distance(x, y);
    },
  };
  expect(measured(nodes, measuring)).toEqual(measured(nodes, plain));
});
