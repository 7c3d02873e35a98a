import { mappedNodes } from '../fixtures/mapped-hole.js';
import type { Publication } from './check.js';
import { plateEdge } from './plate-edge.js';

const even = { farField: { sx: 1, sy: 1, txy: 0 } };
const peakOf = (eps: number, n: number, count: number) => plateEdge(even, mappedNodes({ eps, n }, count)).peak;

/** `z = zeta + eps / zeta^n` under even tension 1: the largest hoop stress is `2 (1 + n |eps|) / (1 - n |eps|)`, at a corner. */
export const maps: Publication = {
  title: 'Rounded square and rounded triangle in an infinite plate under even tension',
  source:
    'Muskhelishvili, Some Basic Problems of the Mathematical Theory of Elasticity (1953), holes mapped from a circle by ' +
    'z = zeta + eps zeta^-n; peak 2 (1 + n |eps|)/(1 - n |eps|)',
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
  ],
};
