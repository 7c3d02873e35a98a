import { readBrief, starterBrief } from '@lumenfront/core';
import { expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { hypervolume } from '../front/index.js';
import { createChannelEvaluator, findFront } from './index.js';

/** MPa: three times the peak of the starter's reference channel, from which its fronts are measured, and what they come to in mm2 MPa with as many evaluations as they like. */
const dearest = 134;
const whole = 2124;

it('gives nearly the whole front of the starter brief with 4,000 evaluations, from the cusp out to the largest channel', {
  tags: 'long',
}, async () => {
  const task = preparedTask(await readBrief(starterBrief));
  const { designs, evaluations } = await findFront(createChannelEvaluator(task), { seed: 1, evaluations: 4000 });
  expect(evaluations).toBeLessThanOrEqual(4000);
  expect(designs.at(-1)!.size).toBeGreaterThan(20.3);
  // In the upper cusp of the filler a small channel is stressed less than any larger one.
  expect(designs[0]!.size).toBeLessThan(1.2);
  expect(designs[0]!.cost).toBeLessThan(22);
  const points = designs.map(({ size, cost }) => [-size, cost]);
  expect(hypervolume(points, [0, dearest])).toBeGreaterThan(0.985 * whole);
});
