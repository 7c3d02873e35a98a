import { type PlateHost, reducePlate } from '../../packages/core/src/host/index.js';
import { createStressModel, meshedStress, type StressOptions } from '../../packages/core/src/stress/index.js';
import { ellipseNodes, referencePly } from '../fixtures/tee-reference.js';
import { type Check, once, type Publication } from './check.js';

const plate: PlateHost = { kind: 'plate', material: referencePly };
const pair: StressOptions = { channels: { number: 2 } };

/** Stresses far away, x along the line of the centres. */
const far = {
  'all-round': { sx: 1, sy: 1, txy: 0 },
  across: { sx: 0, sy: 1, txy: 0 },
  along: { sx: 1, sy: 0, txy: 0 },
} as const;
type Far = keyof typeof far;

/** The right one of two circles of radius 1, so many diameters from centre to centre. */
const right = (distance: number, count: number) => ellipseNodes(1, 1, [distance, 0], 0, count);

function fast(distance: number, stress: Far) {
  const model = createStressModel(reducePlate(plate), { farField: far[stress] }, [], pair);
  const { loads, hoop, nodes } = model.evaluate(right(distance, 96), false);
  // The top lies half way between two nodes; hoop stress is smooth there.
  const top = nodes.count / 2 - 1;
  const [a, b, c, d] = [-1, 0, 1, 2].map((k) => hoop[0]![top + k]!) as [number, number, number, number];
  return { peak: loads[0]!.peak, atTop: (9 * (b + c) - a - d) / 16 };
}

const meshed = once(
  () => meshedStress(plate, { farField: far.across }, [], right(1.5, 256), { channels: { number: 2 } }).loads,
);

const peak = (distance: number, stress: 'all-round' | 'across', published: number): Check => ({
  quantity: `fast: peak, ${stress}, ${distance} diameters apart`,
  published,
  tolerance: 5e-4,
  compute: () => fast(distance, stress).peak,
});
const top = (distance: number, published: number): Check => ({
  quantity: `fast: at the top, along, ${distance} diameters apart`,
  published,
  tolerance: 5e-4,
  compute: () => fast(distance, 'along').atTop,
});

export const ling: Publication = {
  title: 'Two equal circular holes in an infinite plate',
  source:
    'Ling, J. Appl. Phys. 19 (1948) 77-82: tension all round, across the line of the centres, and along it at the top of a hole, which is not the largest; ' +
    'values from memory, confirmed here by a Laurent solution',
  checks: [
    peak(1.5, 'all-round', 2.887),
    peak(1.5, 'across', 3.264),
    top(1.5, 2.623),
    {
      quantity: 'fast: largest, along, 1.5 diameters apart (Laurent solution)',
      published: 2.64999,
      tolerance: 1e-4,
      compute: () => fast(1.5, 'along').peak,
    },
    peak(2, 'all-round', 2.411),
    peak(2, 'across', 3.066),
    top(2, 2.703),
    peak(3, 'all-round', 2.155),
    peak(3, 'across', 3.02),
    top(3, 2.825),
    peak(5, 'all-round', 2.049),
    peak(5, 'across', 3.004),
    top(5, 2.927),
    peak(8, 'all-round', 2.018),
    peak(8, 'across', 3.001),
    top(8, 2.97),
    {
      quantity: 'mesh: peak, across, 1.5 diameters apart',
      published: 3.264,
      tolerance: 2e-3,
      compute: () => meshed().farField!.peak,
    },
  ],
};
