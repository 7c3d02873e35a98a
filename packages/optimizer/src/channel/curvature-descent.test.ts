import {
  areaAgainstPeak,
  type ChannelTask,
  createEdgeProfiler,
  fitCurvature,
  outlineOf,
  reduceJoint,
  usualFatigueSlopes,
} from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { descendCurvature } from './curvature-descent.js';
import { createRefiner } from './refine.js';

const resin = {
  E1: 3500,
  E2: 3500,
  nu12: 0.35,
  nu23: 0.35,
  G12: 3500 / 2.7,
  alpha1: 60e-6,
  alpha2: 60e-6,
  transverseTension: 60,
  interlaminarShear: 40,
};

/** A sheet under biaxial tension 2 : 1. */
function sheet(scale = 1): ChannelTask {
  const joint = { kind: 'plate', material: resin } as const;
  const channel = {
    families: ['ellipse', 'spline'],
    wall: 0.1 * scale,
    edgeRadius: 0.05 * scale,
    mirror: true,
    largest: { width: 4 * scale, height: 4 * scale },
    reference: { family: 'ellipse', at: [0, 0], width: scale, height: scale },
  } as const;
  return {
    joint,
    channel,
    loads: { farField: { sx: 2, sy: 1, txy: 0 } },
    cases: [{ name: 'stretched', factors: { farField: 1 } }],
    strength: { edge: 'peak', startsAwayFromEdge: false, fatigue: usualFatigueSlopes },
    model: reduceJoint(joint, channel),
    objective: areaAgainstPeak,
  };
}

const room = { mirror: true, xMin: -2, xMax: 2, yMin: -2, yMax: 2, edgeRadius: 0.05 };
const circle = outlineOf({ family: 'ellipse', parameters: { y: 0, width: 1.6, height: 1.6 } }, room);

// Cherepanov, J. Appl. Math. Mech. 38 (1974) 913-931: under biaxial tension the least possible peak is sx + sy, around the whole edge of an
// ellipse with axes sx : sy.
describe('descendCurvature', () => {
  it('comes from a circle to the uniform hoop stress of Cherepanov, to 0.1 %, and says that it is the best nearby', () => {
    const profiler = createEdgeProfiler(sheet());
    const fit = fitCurvature(circle, 20, 0.05)!;
    const request = { ...fit, area: 2, edgeRadius: 0.05, radius: 0.05, slopes: 40, most: 5000 };
    const found = descendCurvature(profiler, request);
    const seen = profiler.profile(fit.outline, found.values, 2 * fit.nodes)!;
    expect(seen.cost).toBeLessThan(3.003);
    expect(seen.cost).toBeGreaterThan(2.9999);
    expect(seen.area).toBeGreaterThanOrEqual(2);
    expect(found.locallyOptimalWithin).toBeLessThan(1e-3);
    const short = descendCurvature(profiler, { ...request, most: 40 });
    expect(short.stop).toBe('budget spent');
    expect(short.evaluations).toBeLessThanOrEqual(40);
    // After two slopes it is not there yet, and says so.
    const early = descendCurvature(profiler, { ...request, slopes: 2 });
    expect(early.stop).toBe('slopes taken');
    expect(early.locallyOptimalWithin).toBeGreaterThan(0.003);
  });
});

describe('createRefiner', () => {
  it.each([2, 6])(
    'certifies what it foretells beside an outline, %d steps on its way, nearly as slopes of its own do',
    (slopes) => {
      const refine = createRefiner(sheet());
      const how = { radius: 0.05, slopesBeyond: 0, most: 1000 };
      const start = { family: 0, x: Float64Array.of(0, 1.6, 1.6) };
      const [at, ...foretold] = refine({
        ...how,
        start,
        pieces: 20,
        slopes,
        areas: [2],
        beside: [[0.02, 0.04]],
      }).reached;
      for (const { design, area, locallyOptimalWithin } of foretold) {
        const wish = { start: design, pieces: undefined, slopes: 0, areas: [area], beside: [[]] };
        const own = refine({ ...how, ...wish }).reached[0]!.locallyOptimalWithin;
        expect(locallyOptimalWithin).not.toBe(at!.locallyOptimalWithin);
        expect(locallyOptimalWithin / own).toBeGreaterThan(0.8);
        expect(locallyOptimalWithin / own).toBeLessThan(1.25);
      }
      expect(foretold).toHaveLength(2);
    },
  );

  it.each([1e-3, 1e3])('does the same at absurd scales: %d', (scale) => {
    const request = { pieces: 16, radius: 0.05, slopes: 6, slopesBeyond: 1, beside: [[0.01], [0.01]], most: 1000 };
    const start = (s: number) => ({ family: 0, x: Float64Array.of(0, 1.6 * s, 1.6 * s) });
    const reachedAt = (s: number) =>
      createRefiner(sheet(s))({ ...request, areas: [2 * s ** 2, 2.1 * s ** 2], start: start(s) }).reached;
    const one = reachedAt(1);
    // Each area, and what is foretold beside it; more area costs nothing here, so that it may be larger.
    const wanted = [2, 2 * 1.01, 2.1, 2.1 * 1.01];
    expect(one.map(({ violation }) => violation)).toEqual(wanted.map(() => 0));
    reachedAt(scale).forEach(({ cost, area }, k) => {
      expect(cost / one[k]!.cost).toBeCloseTo(1, 3);
      for (const reached of [one[k]!.area, area / scale ** 2]) expect(reached).toBeGreaterThan(wanted[k]! * (1 - 1e-4));
    });
  });
});
