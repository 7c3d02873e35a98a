import { type PlateHost, reducePlate } from '../../packages/core/src/host/index.js';
import { createStressModel, meshedStress } from '../../packages/core/src/stress/index.js';
import { ellipseNodes, referencePly } from '../fixtures/tee-reference.js';
import { type Check, once, type Publication } from './check.js';

const plate: PlateHost = { kind: 'plate', material: referencePly };

/** Stresses far away, x along the line of the centres. */
const far = {
  'all-round': { sx: 1, sy: 1, txy: 0 },
  across: { sx: 0, sy: 1, txy: 0 },
  along: { sx: 1, sy: 0, txy: 0 },
} as const;

/** Circles of radius 1: of an odd number the middle one. */
const given = (number: number, pitch: number, count: number) =>
  ellipseNodes(1, 1, [number % 2 === 1 ? 0 : pitch / 2, 0], 0, count);

const peak = (number: number, diameters: number, stress: keyof typeof far, published: number): Check => ({
  quantity: `fast: largest of ${number} holes, ${stress}, ${diameters} diameters apart`,
  published,
  tolerance: 1e-4,
  compute: () => {
    const channels = { number, pitch: 2 * diameters };
    const model = createStressModel(reducePlate(plate), { farField: far[stress] }, [], { channels });
    return model.evaluate(given(number, channels.pitch, 96), false).loads[0]!.peak;
  },
});

const meshed = once(() =>
  meshedStress(plate, { farField: far.across }, [], given(3, 3, 256), {
    channels: { number: 3, pitch: 3 },
    coarseness: 1.5,
  }),
);

export const holeGroup: Publication = {
  title: 'Three to five equal circular holes in a row in an infinite plate',
  source:
    'a Laurent series about every hole, fitted to free edges (residual 1e-13): written for this table by other means than the model; for two holes it gives the values of Ling, and with ' +
    'more of them it tends to those of the endless row',
  checks: [
    peak(3, 1.5, 'across', 3.45542),
    peak(3, 1.5, 'along', 2.58123),
    peak(3, 1.5, 'all-round', 3.16906),
    peak(3, 3, 'across', 3.02593),
    peak(4, 1.5, 'across', 3.55246),
    peak(4, 2, 'along', 2.63304),
    peak(4, 2, 'all-round', 2.62962),
    peak(5, 1.5, 'across', 3.62373),
    peak(5, 3, 'along', 2.76449),
    {
      quantity: 'mesh: largest of 3 holes, across, 1.5 diameters apart',
      published: 3.45542,
      tolerance: 2e-3,
      compute: () => meshed().loads.farField!.peak,
    },
  ],
};
