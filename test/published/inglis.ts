import type { PlateHost } from '../../packages/core/src/host/index.js';
import { meshedStress } from '../../packages/core/src/stress/index.js';
import { ellipseNodes, referencePly } from '../fixtures/tee-reference.js';
import type { Publication } from './check.js';
import { plateEdge } from './plate-edge.js';

const fastPeak = (a: number, b: number, turn: number, loads: Parameters<typeof meshedStress>[1], count: number) =>
  plateEdge(loads, ellipseNodes(a, b, [0, 0], turn, count)).peak;

const plate: PlateHost = { kind: 'plate', material: referencePly };

function peakOf(a: number, b: number, turn: number, loads: Parameters<typeof meshedStress>[1]): number {
  const [name] = Object.keys(loads) as [string];
  return meshedStress(plate, loads, [], ellipseNodes(a, b, [0, 0], turn)).loads[name]!.peak;
}

/** Largest hoop stress round an ellipse under tension 1 at `angle` to its long axis (Inglis's closed form). */
function tiltedPeak(a: number, b: number, angle: number): number {
  const xi = Math.atanh(b / a);
  let peak = 0;
  for (let k = 0; k < 100_000; k++) {
    const eta = (2 * Math.PI * k) / 100_000;
    const top = Math.sinh(2 * xi) + Math.cos(2 * angle) - Math.exp(2 * xi) * Math.cos(2 * (angle - eta));
    peak = Math.max(peak, top / (Math.cosh(2 * xi) - Math.cos(2 * eta)));
  }
  return peak;
}

const upward = { farField: { sx: 0, sy: 1, txy: 0 } };
const turn = Math.PI / 6;

export const inglis: Publication = {
  title: 'Elliptical hole in an infinite plate',
  source: 'Inglis, Trans. Inst. Naval Archit. 55 (1913) 219-230',
  checks: [
    {
      quantity: 'fast: peak, 2:1, 1 + 2a/b, 32 nodes',
      published: 5,
      compute: () => fastPeak(1, 0.5, 0, upward, 32),
      tolerance: 1e-4,
    },
    {
      quantity: 'fast: peak, 4:1, 1 + 2a/b, 64 nodes',
      published: 9,
      compute: () => fastPeak(1, 0.25, 0, upward, 64),
      tolerance: 1e-4,
    },
    {
      quantity: 'fast: peak, 2:1, tension at 60 degrees to the long axis, 32 nodes',
      published: tiltedPeak(2, 1, Math.PI / 2 - turn),
      compute: () => fastPeak(1, 0.5, turn, upward, 32),
      tolerance: 1e-4,
    },
    {
      quantity: 'fast: peak, 2:1, pressure 1 inside, 2a/b - 1, 32 nodes',
      published: 3,
      compute: () => fastPeak(1, 0.5, 0.4, { pressure: { pressure: 1 } }, 32),
      tolerance: 1e-4,
    },
    { quantity: 'mesh: peak, 2:1, 1 + 2a/b', published: 5, compute: () => peakOf(1, 0.5, 0, upward), tolerance: 0.002 },
    {
      quantity: 'mesh: peak, 4:1, 1 + 2a/b',
      published: 9,
      compute: () => peakOf(1, 0.25, 0, upward),
      tolerance: 0.002,
    },
    {
      quantity: 'mesh: peak, 2:1, tension at 60 degrees to the long axis',
      published: tiltedPeak(2, 1, Math.PI / 2 - turn),
      compute: () => peakOf(1, 0.5, turn, upward),
      tolerance: 0.002,
    },
    {
      quantity: 'mesh: peak, 2:1, pressure 1 inside, 2a/b - 1',
      published: 3,
      compute: () => peakOf(1, 0.5, 0.4, { pressure: { pressure: 1 } }),
      tolerance: 0.002,
    },
  ],
};
