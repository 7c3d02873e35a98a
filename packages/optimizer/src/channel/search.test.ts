import {
  areaAgainstPeak,
  type ChannelObjective,
  type ChannelTask,
  createTask,
  type FamilyName,
  reduceJoint,
  usualFatigueSlopes,
} from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { createChannelEvaluator, findFront, pickLargest } from './index.js';

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
function sheet(
  families: readonly FamilyName[],
  edgeRadius = 0.05,
  objective: ChannelObjective = areaAgainstPeak,
): ChannelTask {
  const joint = { kind: 'plate', material: resin } as const;
  const channel = {
    families,
    wall: 0.1,
    edgeRadius,
    mirror: true,
    largest: { width: 4, height: 4 },
    reference: { family: 'ellipse', at: [0, 0], width: 1, height: 1 },
  } as const;
  const brief = {
    joint,
    channel,
    loads: { farField: { sx: 2, sy: 1, txy: 0 } },
    cases: [{ name: 'stretched', factors: { farField: 1 } }],
    strength: { edge: 'peak', startsAwayFromEdge: false, fatigue: usualFatigueSlopes },
    search: { objective },
  } as const;
  return createTask(brief, reduceJoint(joint, channel));
}

describe('findFront', () => {
  it('gives a front by growing area, within the budget, the same for the same seed', async () => {
    const task = sheet(['ellipse', 'spline']);
    const options = { seed: 5, evaluations: 1200 };
    const front = await findFront(createChannelEvaluator(task), options);
    expect(front.evaluations).toBeLessThanOrEqual(1200);
    for (let i = 1; i < front.designs.length; i++) {
      expect(front.designs[i]!.size).toBeGreaterThan(front.designs[i - 1]!.size);
      expect(front.designs[i]!.cost).toBeGreaterThan(front.designs[i - 1]!.cost);
    }
    expect(await findFront(createChannelEvaluator(task), options)).toEqual(front);
    expect((await findFront(createChannelEvaluator(task), { ...options, seed: 6 })).designs).not.toEqual(front.designs);
  });

  it('brings its front down by outlines of free curvature, with certificates, where the budget is worth it', {
    tags: 'long',
  }, async () => {
    const evaluator = createChannelEvaluator(sheet(['ellipse', 'spline']));
    const { designs, families, runs, evaluations } = await findFront(evaluator, { seed: 2, evaluations: 3500 });
    expect(evaluations).toBeLessThanOrEqual(3500);
    expect(runs.some(({ method }) => method === 'refinement')).toBe(true);
    expect(['nothing more gained', 'budget spent']).toContain(runs.at(-1)!.stop);
    const refined = families.spline!.filter(({ locallyOptimalWithin }) => locallyOptimalWithin !== undefined);
    expect(refined.length).toBeGreaterThan(3);
    for (const { parameters, cost } of refined) {
      expect(Object.hasOwn(parameters, 'curvature1')).toBe(true);
      // No peak is below that of Cherepanov's ellipse.
      expect(cost).toBeGreaterThan(3 - 1e-3);
    }
    expect(Math.min(...designs.map(({ cost }) => cost))).toBeLessThan(3.003);
  });

  it('stops when it is told to', async () => {
    const task = sheet(['ellipse']);
    const signal = { aborted: false };
    const onProgress = ({ evaluations }: { evaluations: number }) => {
      if (evaluations >= 200) signal.aborted = true;
    };
    const { evaluations } = await findFront(createChannelEvaluator(task), {
      seed: 1,
      evaluations: 5000,
      signal,
      onProgress,
    });
    expect(evaluations).toBeLessThan(1000);
  });

  it('says what came nearest where nothing keeps the limits', async () => {
    // An edge radius of 1.9 mm leaves a circle of 3.8 mm in a box of 4 mm: one that 100 splines do not hit.
    const task = sheet(['spline'], 1.9);
    const { designs, nearest } = await findFront(createChannelEvaluator(task), { seed: 1, evaluations: 100 });
    expect(designs).toEqual([]);
    expect(nearest!.violation).toBeGreaterThan(0);
    expect(['room', 'edgeRadius', 'crossing']).toContain(nearest!.constraint);
  });
});

// Cherepanov, J. Appl. Math. Mech. 38 (1974) 913-931: under biaxial tension the least possible peak is sx + sy, around the whole edge of an
// ellipse with axes sx : sy.
describe('pickLargest under biaxial tension 2 : 1', () => {
  it.each(['ellipse', 'spline'] as const)(
    'comes to uniform hoop stress with the %s',
    { tags: 'long' },
    async (family) => {
      const task = sheet([family]);
      const { best } = await pickLargest(createChannelEvaluator(task), {
        seed: 3,
        evaluations: 4000,
        allow: 3.015,
      });
      expect(best!.peak).toBeLessThanOrEqual(3.015);
      // The largest ellipse of that kind in the box: 4 mm by 2 mm.
      expect(best!.area).toBeGreaterThan(0.97 * 2 * Math.PI);
    },
  );

  it('is never smaller than what the front holds, and says how near it came', async () => {
    const task = sheet(['ellipse']);
    const options = { seed: 2, evaluations: 1500 };
    const front = await findFront(createChannelEvaluator(task), options);
    const allow = 3.5;
    const { best } = await pickLargest(createChannelEvaluator(task), { ...options, allow });
    const inFront = Math.max(...front.designs.filter(({ cost }) => cost <= allow).map(({ size }) => size));
    expect(best!.area).toBeGreaterThan(0.995 * inFront);
    const none = await pickLargest(createChannelEvaluator(task), { ...options, allow: 2.5 });
    expect(none.best).toBeUndefined();
    expect(none.leastPeak).toBeGreaterThan(2.999);
    expect(none.leastPeak).toBeLessThan(3.05);
  });

  it('refuses a task that trades anything else', async () => {
    const task = sheet(['ellipse'], 0.05, { size: 'conductance', cost: 'loadFactor' });
    const options = { seed: 1, evaluations: 100, allow: 3 };
    await expect(pickLargest(createChannelEvaluator(task), options)).rejects.toThrow(/conductance against loadFactor/);
  });
});
