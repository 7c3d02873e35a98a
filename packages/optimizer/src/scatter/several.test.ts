import { type ChannelTask, type Curve, nodeParameter, readBrief, type ScatterWish } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { randomFrom } from '../random.js';
import { studyScatter } from './index.js';
import { createMadeChannels } from './made-channels.js';
import type { Deviation } from './perturb.js';
import { drawDeviations } from './scatter.js';

const still: ScatterWish = {
  distribution: 'normal',
  samples: 300,
  outline: 0,
  position: 0,
  turn: 0,
  strength: 0,
  cure: 0,
  quantile: 0.95,
};
const asDrawn: Deviation = { size: 0, waves: [0, 0, 0, 0, 0, 0], x: 0, y: 0, turn: 0 };

const plateOf = async (farField: string, channels: string): Promise<ChannelTask> =>
  preparedTask(
    await readBrief(
      `host: { kind: plate }\nloads: { farField: ${farField} }\nchannels: ${channels}\nchannel: { families: [ellipse] }\n`,
    ),
  );

/** An ellipse with half axes in mm about (x, 0), turned by `turn` degrees. */
function ellipse(a: number, b: number, x: number, turn = 0): Curve {
  const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  return {
    mirror: x === 0 && turn === 0,
    place(nodes) {
      for (let j = 0; j < nodes.count; j++) {
        const at = nodeParameter(j, nodes.count);
        const [u, v] = [Math.cos(at), Math.sin(at)];
        nodes.x[j] = x + c * a * u - s * b * v;
        nodes.y[j] = s * a * u + c * b * v;
        nodes.dx[j] = -c * a * v - s * b * u;
        nodes.dy[j] = -s * a * v + c * b * u;
        nodes.ddx[j] = -c * a * u + s * b * v;
        nodes.ddy[j] = -s * a * u - c * b * v;
      }
    },
  };
}

describe('several channels as they are made', () => {
  it('bear the larger of what each would bear by its own turn where they are far apart', async () => {
    // Inglis, Trans. Inst. Nav. Archit. 55 (1913) 219-241: half axes c cosh w, c sinh w, the major one at `beta` to the tension.
    const w = Math.atanh(0.5);
    const peakAt = (degrees: number) => {
      const beta = (degrees * Math.PI) / 180;
      let most = 0;
      for (let k = 0; k < 4000; k++) {
        const eta = (Math.PI * k) / 4000;
        const above = Math.sinh(2 * w) + Math.cos(2 * beta) - Math.exp(2 * w) * Math.cos(2 * (beta - eta));
        most = Math.max(most, above / (Math.cosh(2 * w) - Math.cos(2 * eta)));
      }
      return most;
    };
    const task = await plateOf('{ sx: 10 }', '{ number: 2 }');
    const scatter = { ...still, turn: 1 };
    const { nominal, peak } = studyScatter(task, ellipse(2, 1, 100, 45), scatter, {
      ...{ strength: { edge: 'peak' }, allow: 100, random: randomFrom(5) },
    });
    // The left one is the mirror image: both at 45 degrees to the tension, which turns of one sign change by opposite signs.
    const peaks = drawDeviations(scatter, scatter.samples, randomFrom(5), 2).map(
      ({ shapes: [right, left] }) => 10 * Math.max(peakAt(45 + right!.turn), peakAt(45 - left!.turn)),
    );
    expect(nominal.peak / (10 * peakAt(45))).toBeCloseTo(1, 3);
    expect(peak.mean / (peaks.reduce((sum, one) => sum + one, 0) / peaks.length)).toBeCloseTo(1, 3);
    expect(peak.most / Math.max(...peaks)).toBeCloseTo(1, 3);
    // The larger of two independent normal deviates: mean 1/sqrt(pi), standard deviation sqrt(1 - 1/pi) (order statistics, from memory); twice the error of so few samples.
    const sigma = (10 * (peakAt(45.1) - peakAt(44.9))) / 0.2;
    const [mean, deviation] = [1 / Math.sqrt(Math.PI), Math.sqrt(1 - 1 / Math.PI)];
    const error = (2 * deviation) / Math.sqrt(scatter.samples);
    expect(Math.abs((peak.mean - nominal.peak) / Math.abs(sigma) - mean)).toBeLessThan(error);
    expect(Math.abs(peak.deviation / Math.abs(sigma) - deviation)).toBeLessThan(error);
  });

  it('are as near to each other as they were made: Ling, J. Appl. Phys. 19 (1948) 77-82', async () => {
    const { solve } = createMadeChannels(await plateOf('{ sx: 10, sy: 10 }', '{ number: 2 }'));
    const peakAt = (diameters: number) => {
      // From 1.5 diameters apart, the right one up along a slant and the left one down by as much.
      const [x, y] = [diameters * Math.cos(0.5) - 1.5, diameters * Math.sin(0.5)];
      const edge = solve(ellipse(1, 1, 1.5), [
        { ...asDrawn, x, y },
        { ...asDrawn, x: -x, y: -y },
      ]);
      return edge!.worst / 10;
    };
    // As printed.
    for (const [diameters, peak] of [
      [1.5, 2.887],
      [2, 2.411],
      [3, 2.155],
    ] as const)
      expect(Math.abs(peakAt(diameters) - peak)).toBeLessThan(6e-4);
  });

  it('are none where one lies in the other or crosses it', async () => {
    const { solve, number } = createMadeChannels(await plateOf('{ sx: 10 }', '{ number: 3, pitch: 3 }'));
    const moved = (x: number, size = 0) => [asDrawn, { ...asDrawn, x, size }, asDrawn];
    expect(number).toBe(3);
    expect(solve(ellipse(1, 1, 0), moved(-0.9))).toBeDefined();
    expect(solve(ellipse(1, 1, 0), moved(-1.1))).toBeUndefined();
    expect(solve(ellipse(1, 1, 0), moved(-3, -0.5))).toBeUndefined();
  });
});
