import { describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { readBrief } from '../brief/index.js';
import { channelRoom } from '../channel/index.js';
import { meshJoint } from '../host/index.js';
import { createCurveNodes, outlineOf } from '../outline/index.js';
import { channelCurves, createStressModel, meshedPlaces, type SolvedEdge } from '../stress/index.js';
import { crackCourse, kinkAngle } from './crack-course.js';
import type { FirstFailure } from './first-failure.js';
import { createStrengthModel } from './joint-strength.js';

describe('the angle by which a crack kinks', () => {
  // Erdogan & Sih, J. Basic Engng 85 (1963) 519-527: K1 sin a + K2 (3 cos a - 1) = 0; 70.5 degrees in pure shear, cos a = 1/3.
  it('is where the hoop tension around its tip is largest', () => {
    expect(kinkAngle(0, 1)).toBeCloseTo(Math.acos(1 / 3), 12);
    for (const [tension, shear] of [
      [3, 1],
      [1, -1],
      [0.2, 4],
    ] as const) {
      const angle = kinkAngle(tension, shear);
      expect(tension * Math.sin(angle)).toBeCloseTo(Math.abs(shear) * (3 * Math.cos(angle) - 1), 12);
    }
  });

  it('counts a closed crack as one in shear alone', () => {
    expect(kinkAngle(-5, 2)).toBe(kinkAngle(0, 1));
    expect(kinkAngle(5, 0)).toBe(0);
  });
});

const brief = await readBrief(`host: { kind: tee, bendRadius: 5 }
loads: { pull: {}, side: {}, cure: { deltaT: -80 } }
cases: { pulled: { pull: 1, cure: 1 }, sideways: { side: 1 } }
`);
const task = preparedTask(brief);
const { joint, model, loads, cases } = task;

describe('a crack that starts at an interface', () => {
  /** A round channel. */
  const edgeAt = (x: number, y: number, radius: number) => {
    const nodes = createCurveNodes(64);
    for (let j = 0; j < nodes.count; j++) {
      nodes.x[j] = x + radius * Math.cos((2 * Math.PI * j) / nodes.count);
      nodes.y[j] = y + radius * Math.sin((2 * Math.PI * j) / nodes.count);
    }
    return { each: [{ nodes }], several: false } as unknown as SolvedEdge;
  };
  const failure: FirstFailure = { place: 'base-interface', criterion: 'delamination', factor: 1, x: 0.5, y: 0 };
  const at = (n: number, s: number, normalAngle = -Math.PI / 2) => ({ stressAt: () => ({ n, t: 0, s, normalAngle }) });
  const course = (edge: SolvedEdge, ...stress: Parameters<typeof at>) =>
    crackCourse(joint, at(...stress), edge, 0, failure);
  // Shear xy > 0 pulls along x = y: what opens across that heads up and to the left, at 109.5 degrees.
  const aboveLeft = edgeAt(0.5 - 1.2 / 3, 1.2 * Math.sqrt(8 / 9), 0.1);
  const aboveRight = edgeAt(0.5 + 1.2 / 3, 1.2 * Math.sqrt(8 / 9), 0.1);

  it('kinks to the side of the channel, by the tip that opens', () => {
    expect(course(aboveLeft, 0, 1)).toEqual({ path: 'kinking', meets: true });
    expect(course(aboveRight, 0, 1)).toEqual({ path: 'kinking', meets: false });
    expect(course(aboveLeft, 0, -1)).toEqual({ path: 'kinking', meets: false });
    expect(course(aboveRight, 0, -1)).toEqual({ path: 'kinking', meets: true });
    // Told by the other normal it is the same crack.
    expect(course(aboveLeft, 0, 1, Math.PI / 2)).toEqual({ path: 'kinking', meets: true });
  });

  it('keeps closer to the interface the more it opens, and stays in it without shear', () => {
    const low = edgeAt(0.5 - Math.cos(kinkAngle(2, 1)), Math.sin(kinkAngle(2, 1)), 0.1);
    expect(course(low, 2, 1)!.meets).toBe(true);
    expect(course(low, 0, 1)!.meets).toBe(false);
    expect(course(low, 2, 0)).toEqual({ path: 'along', meets: false });
  });

  it('meets nothing beyond the filler', () => {
    const angle = kinkAngle(2, 1);
    const [near, beyondBend] = [1, 20].map((way) => edgeAt(0.5 - way * Math.cos(angle), way * Math.sin(angle), 0.3));
    expect(course(near!, 2, 1)!.meets).toBe(true);
    expect(course(beyondBend!, 2, 1)!.meets).toBe(false);
  });

  // Across the largest principal stress: xx pulls apart what lies above and below, xy > 0 what lies along x = -y.
  it('goes straight both ways where the filler splits, across the largest tension', () => {
    const inside: FirstFailure = { place: 'filler', criterion: 'splitting', factor: 1, x: 0, y: 1.2 };
    const split = (edge: SolvedEdge, n: number, t: number, s: number) => {
      const stress = { stressAt: () => ({ n, t, s, normalAngle: -Math.PI / 2 }) };
      return crackCourse(joint, stress, edge, 0, inside);
    };
    const [over, below, right] = [edgeAt(0, 1.9, 0.2), edgeAt(0, 0.6, 0.2), edgeAt(0.7, 1.2, 0.2)];
    expect([over, below, right].map((edge) => split(edge, 0, 1, 0))).toEqual(
      [true, true, false].map((meets) => ({ path: 'straight', meets })),
    );
    expect([over, below, right].map((edge) => split(edge, 1, 0, 0)!.meets)).toEqual([false, false, true]);
    const [upLeft, upRight, downRight] = [edgeAt(-0.4, 1.6, 0.1), edgeAt(0.4, 1.6, 0.1), edgeAt(0.4, 0.8, 0.1)];
    expect([upLeft, upRight, downRight].map((edge) => split(edge, 0, 0, 1)!.meets)).toEqual([true, false, true]);
  });

  it('stands at the edge that fails, and is none where nothing does', () => {
    expect(crackCourse(joint, at(1, 1), aboveLeft, 0, { ...failure, place: 'edge' })).toEqual({
      path: 'edge',
      meets: true,
    });
    expect(crackCourse(joint, at(1, 1), aboveLeft, 0, { ...failure, place: 'none' })).toBeUndefined();
    expect(crackCourse(joint, { stressAt: () => undefined }, aboveLeft, 0, failure)).toBeUndefined();
  });

  it('runs along plies that part, and says nothing of fibres that kink', () => {
    const inPlies = { ...failure, place: 'skin' };
    expect(crackCourse(joint, at(1, 1), aboveLeft, 0, inPlies)).toEqual({ path: 'along', meets: false });
    expect(crackCourse(joint, at(1, 1), aboveLeft, 0, { ...inPlies, criterion: 'kinking' })).toBeUndefined();
  });
});

it('takes the stress of the case where failure starts, on both sides, as the mesh has it', { tags: 'long' }, () => {
  const outline = outlineOf({ family: 'ellipse', parameters: { y: 1, width: 0.6, height: 0.4 } }, channelRoom(task));
  const nodes = createCurveNodes(128);
  outline.place(nodes);
  const strength = createStrengthModel(model, joint, loads, cases, brief.strength);
  strength.evaluate(createStressModel(model, loads, cases).evaluate(nodes, false), 'places');
  const meshed = meshJoint(joint, loads, channelCurves(nodes), 1);
  const points = model.places.points.filter(
    ({ place, x, y }, p) => p % 12 === 0 && place.endsWith('interface') && x > 0.2 && x < 3 && y < 3,
  );
  const told = points.flatMap(({ place, x, y }) =>
    [x, -x].map((at) => strength.stressAt(0, { place, criterion: 'delamination', factor: 0.7, x: at, y })!),
  );
  const places = points.flatMap((point) => [point, { ...point, x: -point.x }]);
  const { pull, cure } = meshedPlaces(
    joint,
    meshed,
    places.map((point, p) => ({ ...point, normalAngle: told[p]!.normalAngle })),
  );
  told.forEach(({ n, t, s }, p) => {
    [n, t, s].forEach((value, c) => {
      const meshedValue = 0.7 * pull![3 * p + c]! + cure![3 * p + c]!;
      expect(Math.abs(value - meshedValue) / Math.hypot(n, t, s)).toBeLessThan(0.01);
    });
  });
  expect(points.length).toBeGreaterThan(5);
});
