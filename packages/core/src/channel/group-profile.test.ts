import { describe, expect, it } from 'vitest';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { readBrief } from '../brief/index.js';
import { fitCurvature, mirrorLines, outlineOf } from '../outline/index.js';
import { channelRoom, createEdgeProfiler, type EdgeProfile, hasSlopes } from './index.js';
import { sideBySide } from './task.js';

const plate = (channels: string) => `host: { kind: plate }
loads: { farField: { sx: 2, sy: 1 }, pressure: { pressure: 0.5 } }
cases: { stretched: { farField: 1, pressure: 1 }, pressed: { farField: 0.5, pressure: 3 } }
channels: ${channels}
channel: { families: [ellipse, spline], largest: { width: 2.5, height: 2 }, wall: 0.1, edgeRadius: 0.05 }
`;
const tee = (channels: string) => `host: { kind: tee, bendRadius: 5 }
loads: { pull: { force: 100 }, side: { force: 5 }, cure: { deltaT: -155 } }
cases: { cured: { cure: 1 }, pulled: { pull: 0.2255, cure: 1, side: 1 } }
channels: ${channels}
channel: { families: [ellipse, spline], wall: 0.12, edgeRadius: 0.12 }
`;
const bend = `host: { kind: tee, bendRadius: 5, pocket: { made: cut, plies: [3, 4], width: 1.6 } }
loads: { pull: { force: 30 }, side: { force: 5 }, cure: { deltaT: -60 } }
cases: { cured: { cure: 1 }, pulled: { pull: 1, cure: 1, side: 1 } }
channels: { number: 2 }
channel: { families: [ellipse, spline], wall: 0.06, edgeRadius: 0.06 }
`;

describe('slopes of a profile of several channels', () => {
  it.each([
    ['two in a plate', plate('{ number: 2 }'), { x: 1, y: 0.1, width: 1.4, height: 1.1, turn: 10 }],
    ['two at a pitch', plate('{ number: 2, pitch: 2 }'), { x: 1, y: 0.1, width: 1.4, height: 1.1, turn: 10 }],
    ['three in a plate', plate('{ number: 3, pitch: 2 }'), { y: 0.1, width: 1.4, height: 1.1 }],
    ['four in a plate', plate('{ number: 4, pitch: 2 }'), { x: 1, y: 0.1, width: 1.4, height: 1.1, turn: 10 }],
    [
      'two in a tee, the left one otherwise',
      tee('{ number: 2 }'),
      { x: 0.5, y: 1.1, width: 0.6, height: 0.5, turn: 20 },
    ],
    ['three in a tee', tee('{ number: 3, pitch: 0.7 }'), { y: 1.1, width: 0.4, height: 0.5 }],
  ])('are those of central differences: %s', (_, text, parameters) => compareSlopes(text, parameters));

  it('are those of central differences: two in the bend of a tee', { tags: 'long' }, () =>
    compareSlopes(bend, { x: 0.25, y: 0.75, width: 0.2, height: 0.17, turn: 20 }),
  );

  async function compareSlopes(
    text: string,
    parameters: Readonly<Record<string, number>> & { readonly width: number },
  ) {
    const task = preparedTask(await readBrief(text));
    const profiler = createEdgeProfiler(task);
    const ellipse = outlineOf({ family: 'ellipse', parameters }, channelRoom(task));
    const lines = mirrorLines(sideBySide(task.channel));
    const { outline, values } = fitCurvature(ellipse, 12, task.channel.edgeRadius, lines)!;
    const count = 96;
    const size = values.length;
    const slopes = profiler.slopes(outline, values, count);
    const step = 3e-4 * Math.min(1, parameters.width / 0.4);
    const here = profiler.profile(outline, values, count)!;
    const across = (k: number, by: number): EdgeProfile =>
      profiler.profile(outline, values.with(k, values[k]! + by * step), count)!;
    for (let k = 0; k < size; k += 2) {
      const [a, b, c, d] = [1, -1, 2, -2].map((by) => across(k, by));
      const difference = (of: (profile: EdgeProfile) => Float64Array) =>
        of(a!).map((value, i) => (8 * (value - of(b!)[i]!) - of(c!)[i]! + of(d!)[i]!) / (12 * step));
      const column = (rows: Float64Array) => rows.filter((_, at) => at % size === k);
      const error = (rows: Float64Array, of: (profile: EdgeProfile) => Float64Array) => {
        const taken = difference(of);
        const scale = Math.max(...[...taken, of(here)[0]!].map(Math.abs));
        // The least of several distances, and the outermost of several nodes, has kinks.
        const rate = (one: EdgeProfile, other: EdgeProfile, i: number) => (of(one)[i]! - of(other)[i]!) / step;
        const smooth = Array.from(taken, (_, i) => Math.abs(rate(a!, b!, i) / 2 - rate(c!, d!, i) / 4) < 1e-5 * scale);
        expect(smooth.filter(Boolean).length / smooth.length).toBeGreaterThan(0.97);
        const kept = (all: Float64Array) => all.filter((_, i) => smooth[i]);
        return largestDifference(kept(column(rows)), kept(taken)) / scale;
      };
      expect(error(slopes.functions, ({ functions }) => functions)).toBeLessThan(1e-5);
      expect(error(slopes.room, ({ room }) => room)).toBeLessThan(1e-5);
      expect(error(slopes.area, ({ area }) => Float64Array.of(area))).toBeLessThan(1e-6);
    }
  }

  it('are not known of their strength', async () => {
    const task = preparedTask(await readBrief(plate('{ number: 2 }')));
    expect(hasSlopes(task)).toBe(true);
    expect(hasSlopes({ ...task, strength: { ...task.strength, leastRetained: 0.5 } })).toBe(false);
  });
});
