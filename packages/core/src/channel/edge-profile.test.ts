import { describe, expect, it } from 'vitest';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { readBrief } from '../brief/index.js';
import { fitCurvature, outlineOf } from '../outline/index.js';
import { channelRoom, createEdgeProfiler, type EdgeProfile } from './index.js';

const tee = (mirror: boolean) => `host: { kind: tee, bendRadius: 5 }
loads: { pull: { force: 100 }, ${mirror ? '' : 'side: { force: 5 }, '}cure: { deltaT: -155 } }
cases: { cured: { cure: 1 }, pulled: { pull: 0.2255, cure: 1${mirror ? '' : ', side: 1'} } }
channel: { families: [ellipse, spline], wall: 0.12, edgeRadius: 0.12, mirror: ${mirror} }
`;
const plate = `host: { kind: plate }
loads: { farField: { sx: 2, sy: 1 }, pressure: { pressure: 0.5 } }
cases: { stretched: { farField: 1, pressure: 1 } }
channel: { families: [ellipse, spline], largest: { width: 4, height: 4 }, edgeRadius: 0.05, mirror: true }
`;

describe('slopes of a profile', () => {
  it.each([
    ['in the filler of a joint', tee(true), { y: 1.1, width: 1.8, height: 1 }],
    ['in the filler, without symmetry', tee(false), { x: 0.2, y: 1.1, width: 1.6, height: 1, turn: 20 }],
    ['in a plate, its pressure without a rate', plate, { y: 0.1, width: 1.6, height: 1.2 }],
  ])('are those of central differences %s', async (_, text, parameters) => {
    const brief = await readBrief(text);
    const task = preparedTask(brief);
    const profiler = createEdgeProfiler(task);
    const ellipse = outlineOf({ family: 'ellipse', parameters }, channelRoom(task));
    const { outline, values } = fitCurvature(ellipse, 16, task.channel.edgeRadius)!;
    const count = 128;
    const size = values.length;
    const slopes = profiler.slopes(outline, values, count);
    const step = 3e-4;
    const here = profiler.profile(outline, values, count)!;
    const across = (k: number, by: number): EdgeProfile =>
      profiler.profile(outline, values.with(k, values[k]! + by * step), count)!;
    for (let k = 0; k < size; k++) {
      const [a, b, c, d] = [1, -1, 2, -2].map((by) => across(k, by));
      const difference = (of: (profile: EdgeProfile) => Float64Array) =>
        of(a!).map((value, i) => (8 * (value - of(b!)[i]!) - of(c!)[i]! + of(d!)[i]!) / (12 * step));
      const column = (rows: Float64Array) => rows.filter((_, at) => at % size === k);
      const error = (rows: Float64Array, of: (profile: EdgeProfile) => Float64Array) => {
        const taken = difference(of);
        // A shift in an endless plate changes nothing: there the error is held against the values.
        return largestDifference(column(rows), taken) / Math.max(...[...taken, of(here)[0]!].map(Math.abs));
      };
      expect(error(slopes.functions, ({ functions }) => functions)).toBeLessThan(1e-5);
      expect(error(slopes.room, ({ room }) => room)).toBeLessThan(1e-5);
      expect(error(slopes.area, ({ area }) => Float64Array.of(area))).toBeLessThan(1e-6);
    }
  });
});
