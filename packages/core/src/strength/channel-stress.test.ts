import { expect, it } from 'vitest';
import { reducedTee } from '../../../../test/fixtures/reduced.js';
import { ellipseNodes, referenceJoint } from '../../../../test/fixtures/tee-reference.js';
import type { Loads } from '../host/index.js';
import { actingLoads, createStressModel } from '../stress/index.js';
import { createChannelStress } from './channel-stress.js';

const loads: Loads = { pull: { force: 20 }, side: { force: 5 }, cure: { deltaT: -60 }, pressure: { pressure: 0.5 } };

it.each([
  [
    'mirror-symmetric',
    ellipseNodes(0.8, 0.45, [0, 1.1], 0, 96),
    { pull: loads.pull!, cure: loads.cure!, pressure: loads.pressure! },
  ],
  ['turned', ellipseNodes(0.7, 0.4, [0.3, 1.1], 0.4, 96), loads],
] as const)(
  'beside the edge of a channel in a tee nothing but its pressure acts across it, and along it the hoop stress: %s',
  (_, nodes, loads) => {
    const model = reducedTee(referenceJoint, 0.12, 0.12);
    const solved = createStressModel(model, loads, []).evaluate(nodes, !('side' in loads));
    const acting = actingLoads(model, loads);
    const stress = createChannelStress(model, acting);
    stress.take(solved);
    solved.hoop.forEach((hoop, l) => {
      const pressure = acting[l]!.name === 'pressure' ? 0.5 : 0;
      const most = Math.max(...hoop.map(Math.abs));
      for (let j = 0; j < nodes.count / 2; j += 5) {
        const speed = Math.hypot(nodes.dx[j]!, nodes.dy[j]!);
        const [nx, ny] = [nodes.dy[j]! / speed, -nodes.dx[j]! / speed];
        const off = 1e-7;
        const { xx, yy, xy } = stress.at(nodes.x[j]! + off * nx, nodes.y[j]! + off * ny)[l]!;
        expect(Math.abs((xx + pressure) * nx + xy * ny) / most).toBeLessThan(1e-5);
        expect(Math.abs(xy * nx + (yy + pressure) * ny) / most).toBeLessThan(1e-5);
        expect(Math.abs(xx + yy + pressure - hoop[j]!) / most).toBeLessThan(1e-5);
      }
    });
  },
);
