import { areaAgainstPeak, type ChannelTask, reduceJoint, taskFamilies, usualFatigueSlopes } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { createRefiner, type RefineRequest } from './refine.js';

const resin = {
  ...{ E1: 3500, E2: 3500, nu12: 0.35, nu23: 0.35, G12: 3500 / 2.7, alpha1: 60e-6, alpha2: 60e-6 },
  ...{ transverseTension: 60, interlaminarShear: 40 },
};
const joint = { kind: 'plate', material: resin } as const;

/** A plate under twice the tension along x, with room of 4 by 3 mm. */
function taskOf(mirror: boolean, edgeRadius = 0.2): ChannelTask {
  const channel = {
    families: ['ellipse'],
    ...{ wall: 0.1, edgeRadius, mirror, largest: { width: 4, height: 3 } },
    reference: { family: 'ellipse', at: [0, 0], width: 1, height: 1 },
  } as const;
  return {
    ...{ joint, channel, objective: areaAgainstPeak, model: reduceJoint(joint, channel) },
    loads: { farField: { sx: 2, sy: 1, txy: 0 } },
    cases: [{ name: 'stretched', factors: { farField: 1 } }],
    strength: { edge: 'peak', startsAwayFromEdge: false, fatigue: usualFatigueSlopes },
  };
}

const valuesOf = (task: ChannelTask, values: Readonly<Record<string, number>>) =>
  Float64Array.from(taskFamilies(task)[0]!.parameters, ({ name }) => values[name]!);
const request = (task: ChannelTask, rest: Partial<RefineRequest>): RefineRequest => ({
  start: { family: 0, x: valuesOf(task, { x: 0, y: 0, width: 1.2, height: 1, turn: 0 }) },
  ...{ areas: [1], beside: [[]], pieces: 16, radius: 0.1, slopes: 12, slopesBeyond: 6, most: 1e5 },
  ...rest,
});

describe('refining an outline in a plate under sx = 2 sy', () => {
  const task = taskOf(true);

  // Cherepanov, J. Appl. Math. Mech. 38 (1974) 913-931, from memory: axes as sx to sy.
  it('comes to the ellipse of uniform hoop, whose peak is sx + sy whatever its size', () => {
    const { reached } = createRefiner(task)(request(task, { areas: [1, 1.5], beside: [[0.05, -0.05], []] }));
    expect(reached).toHaveLength(4);
    for (const { cost, violation } of reached) {
      expect(cost / 3).toBeCloseTo(1, 2);
      expect(violation).toBeLessThan(1e-3);
    }
    // No size costs anything: least areas may be exceeded.
    for (const [k, least] of [1, 1.05, 0.95, 1.5].entries()) expect(reached[k]!.area).toBeGreaterThan(0.999 * least);
  });

  it('does not go on to larger areas where one does not fit', () => {
    const { reached } = createRefiner(task)(request(task, { areas: [14, 15, 16], beside: [[], [], []] }));
    expect(reached).toHaveLength(1);
    expect(reached[0]!.violation + Math.max(0, 1 - reached[0]!.area / 14)).toBeGreaterThan(1e-3);
  });

  it('never spends more than it may, and tells how far it came', () => {
    for (const most of [5, 60, 150]) {
      const { evaluations, reached } = createRefiner(task)(
        request(task, { areas: [1, 1.2], beside: [[0.02, -0.02, 0.04], [0.02]], most }),
      );
      expect(evaluations).toBeLessThanOrEqual(most + 8);
      expect(reached.length).toBeLessThanOrEqual(6);
    }
  });

  it('takes an outline by curvature as it is, and nothing else without a fit', () => {
    const refine = createRefiner(task);
    const { design } = refine(request(task, {})).reached[0]!;
    const again = refine(request(task, { start: design, pieces: undefined, slopes: 1 }));
    expect(again.reached[0]!.design.form).toEqual(design.form);
    expect(() => refine(request(task, { pieces: undefined }))).toThrow('no form');
  });

  it('cannot fit an outline that is smaller than the edge radius, and says so', () => {
    const blunt = taskOf(true, 1.2);
    const start = { family: 0, x: valuesOf(blunt, { y: 0, width: 0.2, height: 0.2 }) };
    expect(createRefiner(blunt)(request(blunt, { start }))).toEqual({ reached: [], stop: 'no fit', evaluations: 0 });
    const grown = createRefiner(blunt)(request(blunt, { start, largest: true }));
    expect(grown.reached).toEqual([]);
  });
});

it('begins from mirror-symmetric outlines where a task asks for any, too', () => {
  const [any, symmetric] = [taskOf(false), taskOf(true)];
  const start = { family: 0, x: valuesOf(symmetric, { y: 0, width: 1.2, height: 1 }), mirrored: true };
  const { reached } = createRefiner(any)(request(any, { start }));
  expect(reached[0]!.design.form.mirror).toBe(true);
  expect(reached[0]!.cost / 3).toBeCloseTo(1, 2);
  const own = createRefiner(any)(request(any, { slopes: 2 }));
  expect(own.reached[0]!.design.form.mirror).toBe(false);
});
