import type { PlateHost } from '../../packages/core/src/host/index.js';
import { meshedStress } from '../../packages/core/src/stress/index.js';
import { ellipseNodes, referencePly } from '../fixtures/tee-reference.js';
import { once, type Publication } from './check.js';
import { plateEdge } from './plate-edge.js';

const plate: PlateHost = { kind: 'plate', material: referencePly };
const hole = (sx: number, sy: number, txy: number) =>
  once(() => {
    const loads = { farField: { sx, sy, txy } };
    return meshedStress(plate, loads, [], ellipseNodes(0.5, 0.5, [0.3, -0.2])).loads.farField!;
  });
const tension = hole(1, 0, 0);
const shear = hole(0, 0, 1);
const fast = (sx: number, sy: number, txy: number) =>
  once(() => plateEdge({ farField: { sx, sy, txy } }, ellipseNodes(0.5, 0.5, [0.3, -0.2], 0, 32)));
const fastTension = fast(1, 0, 0);
const fastShear = fast(0, 0, 1);

export const kirsch: Publication = {
  title: 'Circular hole in an infinite plate',
  source: 'Kirsch, VDI-Zeitschrift 42 (1898) 797-807',
  checks: [
    { quantity: 'fast: peak under tension 1', published: 3, compute: () => fastTension().peak, tolerance: 1e-9 },
    { quantity: 'fast: least under tension 1', published: -1, compute: () => fastTension().least, tolerance: 1e-9 },
    { quantity: 'fast: peak under shear 1', published: 4, compute: () => fastShear().peak, tolerance: 1e-9 },
    { quantity: 'mesh: peak under tension 1', published: 3, compute: () => tension().peak, tolerance: 0.001 },
    { quantity: 'mesh: least under tension 1', published: -1, compute: () => tension().least, tolerance: 0.002 },
    { quantity: 'mesh: peak under shear 1', published: 4, compute: () => shear().peak, tolerance: 0.001 },
  ],
};
