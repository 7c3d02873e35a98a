import { type ChannelTask, createTask, readBrief, reduceJoint } from '@lumenfront/core';
import { beforeAll, describe, expect, it } from 'vitest';
import { createRefiner } from './refine.js';

const brief = `host: { kind: plate }
loads: { farField: { sx: 1, sy: 1 } }
cases: { stretched: { farField: 1 } }
channels: { number: 2, pitch: 2.4 }
channel: { families: [ellipse, spline], wall: 0.1, edgeRadius: 0.1, largest: { width: 2.2, height: 2.2 } }
`;

let task: ChannelTask;
beforeAll(async () => {
  const read = await readBrief(brief);
  task = createTask(read, reduceJoint(read.joint, read.channel));
});

// Cherepanov, J. Appl. Math. Mech. 38 (1974) 913-931: holes of equal strength exist for two and more as for one; under the same tension all round no shapes have a lower
// peak than twice the tension, and these have it all along their edges.
describe('refinement of two channels', () => {
  it('comes from circles 1.5 diameters apart, of 2.887 (Ling), to the uniform stress of Cherepanov, at their pitch and area', () => {
    const area = 2 * Math.PI * 0.8 ** 2;
    const { reached } = createRefiner(task)({
      start: { family: 0, x: Float64Array.of(1.2, 0, 1.6, 1.6, 0) },
      ...{ areas: [area], beside: [[]], pieces: 24, radius: 0.05, slopes: 30, slopesBeyond: 0, most: 5000 },
    });
    const [found] = reached;
    expect(found!.violation).toBeLessThan(1e-5);
    expect(found!.area / area).toBeGreaterThan(0.9999);
    expect(found!.cost).toBeGreaterThan(1.999);
    expect(found!.cost).toBeLessThan(2.02);
  });
});
