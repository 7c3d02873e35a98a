import type { PlateHost } from '../../packages/core/src/host/index.js';
import { meshedStress } from '../../packages/core/src/stress/index.js';
import { largestOf, mappedHoop, mappedNodes } from '../fixtures/mapped-hole.js';
import { referencePly } from '../fixtures/tee-reference.js';
import type { Publication } from './check.js';
import { plateEdge } from './plate-edge.js';

const even = { farField: { sx: 1, sy: 1, txy: 0 } };
const peakOf = (eps: number, n: number, count: number) => plateEdge(even, mappedNodes({ eps, n }, count)).peak;

const square = { eps: -1 / 6, n: 3 };
const plate: PlateHost = { kind: 'plate', material: referencePly };
/** Along a side, and askew with shear: the peak stands beside a corner, on it, and nothing is symmetric. */
const unevenFields = [
  ['tension along a side', { sx: 1, sy: 0, txy: 0 }],
  ['tension 0.3 and 0.9, shear 0.5', { sx: 0.3, sy: 0.9, txy: 0.5 }],
] as const;

/** `z = zeta + eps / zeta^n` under even tension 1: the largest hoop stress is `2 (1 + n |eps|) / (1 - n |eps|)`, at a corner. */
export const maps: Publication = {
  title: 'Rounded square and rounded triangle in an infinite plate under tension',
  source:
    'Muskhelishvili, Some Basic Problems of the Mathematical Theory of Elasticity (1953), holes mapped from a circle by ' +
    'z = zeta + eps zeta^-n; peak under even tension 2 (1 + n |eps|)/(1 - n |eps|)',
  checks: [
    {
      quantity: 'fast: peak, square of eps -1/9, 64 nodes',
      published: 4,
      compute: () => peakOf(-1 / 9, 3, 64),
      tolerance: 0.001,
    },
    {
      quantity: 'fast: peak, square of eps -1/6, 64 nodes',
      published: 6,
      compute: () => peakOf(-1 / 6, 3, 64),
      tolerance: 0.001,
    },
    {
      quantity: 'fast: peak, triangle of eps 1/3, 64 nodes',
      published: 10,
      compute: () => peakOf(1 / 3, 2, 64),
      tolerance: 0.001,
    },
    ...unevenFields.flatMap(([name, farField]) => [
      {
        quantity: `fast: peak, square of eps -1/6, ${name}, 64 nodes`,
        published: largestOf(mappedHoop(square, farField)),
        compute: () => plateEdge({ farField }, mappedNodes(square, 64)).peak,
        tolerance: 0.001,
      },
      {
        quantity: `mesh: peak, square of eps -1/6, ${name}`,
        published: largestOf(mappedHoop(square, farField)),
        compute: () => meshedStress(plate, { farField }, [], mappedNodes(square, 256)).loads.farField!.peak,
        tolerance: 0.002,
      },
    ]),
  ],
};
