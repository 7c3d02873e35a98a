import { type ChannelTask, readBrief, type ScatterWish } from '@lumenfront/core';
import { beforeAll, describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import type { PickedChannel } from '../channel/index.js';
import { findScatterFront, type ScatteredChannel, withRoomForScatter } from './index.js';

const still: ScatterWish = {
  distribution: 'normal',
  samples: 40,
  outline: 0,
  position: 0,
  turn: 0,
  strength: 0,
  cure: 0,
  quantile: 0.95,
};

const flat = (width: number, height: number, y = 0): PickedChannel => ({
  family: 'ellipse',
  parameters: { y, width, height },
  area: (Math.PI / 4) * width * height,
  // Inglis (1913), in a sheet under a tension of 10 MPa across.
  peak: 10 * (1 + (2 * height) / width),
});

describe('a front on the quantile of the peak', () => {
  let task: ChannelTask;
  beforeAll(async () => {
    const brief = await readBrief(`host: { kind: plate }
loads: { farField: { sx: 10 } }
channel: { families: [ellipse], largest: { width: 4, height: 2 }, edgeRadius: 0.1 }
`);
    task = preparedTask(brief);
  });
  const given = [flat(1, 0.4), flat(2, 0.8), flat(2.5, 1.2), flat(3.2, 1.6), flat(4, 2)];
  const find = (scatter: Partial<ScatterWish>, evaluations = 1500, seed = 1) =>
    findScatterFront(task, given, { ...still, ...scatter }, { seed, evaluations });
  /** Whether a design of a front has at least this area at no higher quantile. */
  const reaches = (designs: readonly ScatteredChannel[], { area, quantilePeak }: ScatteredChannel) =>
    designs.some((one) => one.area >= area && one.quantilePeak <= quantilePeak);

  it('compares by the peak as drawn where nothing scatters', () => {
    const { designs, given: drawn } = find({});
    for (const { quantilePeak, peak } of [...designs, ...drawn]) expect(quantilePeak).toBe(peak);
    // Of the given ones, those that no larger one of lower peak makes needless.
    expect(drawn.map(({ parameters }) => parameters.width)).toEqual([2, 2.5, 4]);
    for (const one of drawn)
      expect(one.peak / flat(one.parameters.width!, one.parameters.height!).peak).toBeCloseTo(1, 4);
  });

  it('is nowhere worse than the given designs under the same samples, better than some, and in order', {
    tags: 'long',
  }, () => {
    for (const scatter of [{ outline: 0.004 }, { turn: 8, distribution: 'uniform' as const, quantile: 0.8 }]) {
      const { designs, given: drawn } = find(scatter, 4000);
      for (const one of drawn) expect(reaches(designs, one)).toBe(true);
      expect(designs.some(({ origin }) => origin === 'polished')).toBe(true);
      designs.slice(1).forEach((one, i) => {
        expect(one.area).toBeGreaterThan(designs[i]!.area);
        expect(one.quantilePeak).toBeGreaterThan(designs[i]!.quantilePeak);
      });
      for (const { quantilePeak, peak, judged } of drawn) {
        expect(quantilePeak).toBeGreaterThan(peak);
        expect(judged).toBe(40);
      }
    }
  });

  it('keeps the drawn outlines within what the task asks for', () => {
    for (const { parameters } of find({ turn: 5 }).designs) {
      expect(parameters.width).toBeLessThanOrEqual(4);
      expect(parameters.height).toBeLessThanOrEqual(2);
      // Least radius of curvature of a flat ellipse.
      expect(parameters.height! ** 2 / (2 * parameters.width!)).toBeGreaterThan(0.0999);
    }
  });

  it('finds that a turning ellipse had better be less slender than one that does not turn', () => {
    const best = ({ designs }: { readonly designs: readonly ScatteredChannel[] }) =>
      designs.find(({ area }) => area >= flat(2, 0.8).area)!.parameters;
    const slenderness = (parameters: Readonly<Record<string, number>>) => parameters.width! / parameters.height!;
    expect(slenderness(best(find({ turn: 20 })))).toBeLessThan(slenderness(best(find({}))));
  });

  it('gives the same for the same seed, another for another, and spends what it was allowed', () => {
    const scatter = { outline: 0.02, samples: 20 };
    const once = find(scatter, 600, 3);
    expect(find(scatter, 600, 3)).toEqual(once);
    expect(find(scatter, 600, 4).given).not.toEqual(once.given);
    const { evaluations } = find(scatter, 0, 3);
    expect(once.evaluations).toBeGreaterThan(evaluations);
    expect(once.evaluations).toBeLessThan(evaluations + 600 + 20 * 30 + 12 * 128);
  });

  it('refuses designs of another brief', () => {
    const refused = (design: PickedChannel) => () =>
      findScatterFront(task, [design], still, { seed: 1, evaluations: 10 });
    expect(refused({ ...flat(1, 1), parameters: { x: 0, y: 0, width: 1, height: 1, turn: 0 } })).toThrow(
      /channel.mirror/,
    );
    expect(refused({ ...flat(1, 1), parameters: { y: 0, width: 9, height: 1 } })).toThrow(/parameters.width/);
    expect(refused({ ...flat(1, 1), family: 'kidney' })).toThrow(/kidney/);
  });
});

describe('a front in a tee', { tags: 'long' }, () => {
  it('leaves out a channel that lies where too many of the made ones leave the joint', async () => {
    const brief = await readBrief(`host: { kind: tee, bendRadius: 5 }
loads: { pull: {}, cure: {} }
cases: { pulled: { pull: 0.2, cure: 1 } }
channel: { families: [ellipse], wall: 0.15, edgeRadius: 0.15 }
`);
    const scatter = { ...still, samples: 20, position: 0.12, cure: 0.1 };
    const near: PickedChannel = {
      family: 'ellipse',
      parameters: { y: 0.4, width: 1, height: 0.45 },
      area: 0.35,
      peak: 40,
    };
    const deep: PickedChannel = {
      family: 'ellipse',
      parameters: { y: 1.2, width: 0.8, height: 0.5 },
      area: 0.31,
      peak: 60,
    };
    const { designs, given } = findScatterFront(withRoomForScatter(brief, scatter), [near, deep], scatter, {
      seed: 1,
      evaluations: 0,
    });
    const lost = given.find(({ parameters }) => parameters.y === 0.4)!;
    expect(lost.judged).toBeLessThan(19);
    expect(lost.quantilePeak).toBe(Number.POSITIVE_INFINITY);
    expect(designs.map(({ parameters }) => parameters.y)).toEqual([1.2]);
  });
});
