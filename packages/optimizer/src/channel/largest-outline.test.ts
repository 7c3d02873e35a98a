import { areaAgainstPeak, createEdgeProfiler, outlineOf, reduceJoint, usualFatigueSlopes } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { largestOutline } from './largest-outline.js';

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
const joint = { kind: 'plate', material: resin } as const;
const edgeRadius = 0.4;
const channel = {
  families: ['spline'],
  wall: 0.1,
  edgeRadius,
  mirror: true,
  largest: { width: 4, height: 3 },
  reference: { family: 'ellipse', at: [0, 0], width: 1, height: 1 },
} as const;
const profiler = createEdgeProfiler({
  joint,
  channel,
  loads: { farField: { sx: 2, sy: 1, txy: 0 } },
  cases: [{ name: 'stretched', factors: { farField: 1 } }],
  strength: { edge: 'peak', startsAwayFromEdge: false, fatigue: usualFatigueSlopes },
  model: reduceJoint(joint, channel),
  objective: areaAgainstPeak,
});
const room = { mirror: true, xMin: -2, xMax: 2, yMin: -1.5, yMax: 1.5, edgeRadius };

describe('largestOutline', () => {
  it('grows from a small ellipse into the rounded rectangle that fills the box', () => {
    const curve = outlineOf({ family: 'ellipse', parameters: { y: 0.2, width: 1, height: 1.2 } }, room);
    const wish = { pieces: 24, edgeRadius, most: 400 };
    const { fit, area, evaluations } = largestOutline(profiler, { curve, fitted: false }, wish)!;
    expect(evaluations).toBeLessThanOrEqual(400);
    const whole = 4 * 3 - (4 - Math.PI) * edgeRadius ** 2;
    expect(area).toBeGreaterThan(0.99 * whole);
    expect(area).toBeLessThan(whole);
    const seen = profiler.bySize.profile(fit.outline, fit.values, 4 * fit.nodes)!;
    expect(Math.min(...seen.room)).toBeGreaterThan(-1e-4);
    expect(Math.max(...fit.values.slice(2).map(Math.abs))).toBeLessThanOrEqual(1 / edgeRadius);
    // Slopes of one over the area are those of its differences.
    const { functions } = profiler.bySize.slopes(fit.outline, fit.values, fit.nodes);
    const step = 1e-5;
    const at = (by: number) =>
      profiler.bySize.profile(
        fit.outline,
        fit.values.map((value, k) => (k === 1 ? value + by : value)),
        fit.nodes,
      )!.cost;
    expect(functions[1]!).toBeCloseTo((at(step) - at(-step)) / (2 * step), 6);
  });
});
