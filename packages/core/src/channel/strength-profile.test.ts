import { Matrix, solve } from 'ml-matrix';
import { beforeAll, describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { readBrief } from '../brief/index.js';
import { type CurvatureOutline, fitCurvature, outlineOf } from '../outline/index.js';
import { type ChannelTask, channelRoom, createEdgeProfiler, type EdgeProfile, scoreAt, scoreSize } from './index.js';
import { createChannelScorer } from './scorer.js';

const briefOf = (mirror: boolean) => `host: { kind: tee, bendRadius: 5 }
loads: { pull: { force: 100 }, ${mirror ? '' : 'side: { force: 5 }, '}cure: { deltaT: -60 } }
cases: { cured: { cure: 1 }, pulled: { pull: 0.2, cure: 1 }, ${mirror ? 'cold: { pull: 0.3 }' : 'leant: { side: 1, pull: 0.1, cure: 1 }'} }
channel: { families: [ellipse, spline], wall: 0.12, edgeRadius: 0.12, mirror: ${mirror} }
`;
const tasks = new Map<boolean, ChannelTask>();
beforeAll(async () => {
  for (const mirror of [true, false]) tasks.set(mirror, preparedTask(await readBrief(briefOf(mirror))));
});

/** Near the bends, where stresses at the interface are read from the field around the channel, and small in the middle of the filler. */
const wide = { y: 0.85, width: 2.6, height: 1.2 };
const small = { y: 1.1, width: 0.4, height: 0.5 };

function profiled(task: ChannelTask, parameters: Record<string, number>, pieces = 12) {
  const free = task.channel.mirror ? {} : { x: 0.05, turn: 5 };
  const ellipse = outlineOf({ family: 'ellipse', parameters: { ...parameters, ...free } }, channelRoom(task));
  const { outline, values } = fitCurvature(ellipse, pieces, task.channel.edgeRadius)!;
  const profiler = createEdgeProfiler(task);
  const count = 128;
  const profile = (at: Float64Array): EdgeProfile => profiler.profile(outline, at, count)!;
  return { outline, values, profile, slopes: () => profiler.slopes(outline, values, count) };
}

/** Changes of the values that keep an outline closed: from single ones, what opens it is taken away. */
function closedChanges(outline: CurvatureOutline, values: Float64Array, wanted: readonly number[]): Float64Array[] {
  const rates = new Float64Array(outline.closures * values.length);
  outline.closure(values, new Float64Array(outline.closures), rates);
  const C = Matrix.from1DArray(outline.closures, values.length, rates);
  return wanted.map((k) => {
    const change = new Float64Array(values.length);
    change[k] = 1;
    const taken = C.transpose().mmul(solve(C.mmul(C.transpose()), C.mmul(Matrix.columnVector([...change]))));
    return change.map((value, i) => value - taken.get(i, 0));
  });
}

/** Largest error of the slopes of the rows that count, against central differences, over the largest slope. */
function errorOf(
  task: ChannelTask,
  parameters: Record<string, number>,
  part: 'functions' | 'limits',
  least: (profile: EdgeProfile) => number,
) {
  const { outline, values, profile, slopes } = profiled(task, parameters);
  const rates = slopes()[part];
  const here = profile(values);
  const size = values.length;
  const step = 3e-5;
  const counts = [...here[part].keys()].filter((i) => here[part][i]! >= least(here));
  const largest = rates.reduce((a, b) => Math.max(a, Math.abs(b)), 0);
  let error = 0;
  // Place, length and some of the coefficients.
  for (const change of closedChanges(outline, values, [0, outline.lengthAt, 6, 9])) {
    const [a, b] = [1, -1].map((by) => profile(values.map((v, k) => v + by * step * change[k]!))[part]);
    for (const i of counts) {
      const difference = (a![i]! - b![i]!) / (2 * step);
      const exact = change.reduce((sum, by, k) => sum + by * rates[i * size + k]!, 0);
      error = Math.max(error, Math.abs(exact - difference) / largest);
    }
  }
  return { error, rows: counts.length };
}

describe.each([true, false])('slopes of strength row by row, mirror-symmetric: %s', (mirror) => {
  it.each([
    ['loadFactor', wide],
    ['loadFactor', small],
    ['strengthRetained', wide],
  ] as const)('are those of central differences for %s as the cost, of %o', (cost, parameters) => {
    const task = { ...tasks.get(mirror)!, objective: { size: 'area', cost } as const };
    const { error, rows } = errorOf(task, parameters, 'functions', ({ cost }) => 0.8 * cost);
    expect(rows).toBeGreaterThan(4);
    expect(error).toBeLessThan(1e-5);
  });

  it.each([
    [{ leastRetained: 0.9 }, wide],
    [{ startsAwayFromEdge: true }, small],
    [{ startsAwayFromEdge: true }, wide],
  ])('are those of central differences for limits: %o of %o', (asked, parameters) => {
    const task = tasks.get(mirror)!;
    const { error, rows } = errorOf(
      { ...task, strength: { ...task.strength, ...asked } },
      parameters,
      'limits',
      () => -0.2,
    );
    expect(rows).toBeGreaterThan(4);
    expect(error).toBeLessThan(1e-5);
  });

  it('have the cost and the violation of the score as their largest', () => {
    for (const parameters of [wide, small]) {
      const given = tasks.get(mirror)!;
      const task: ChannelTask = {
        ...given,
        objective: { size: 'area', cost: 'loadFactor' },
        strength: { ...given.strength, startsAwayFromEdge: true },
      };
      const scorer = createChannelScorer(task);
      const x = scorer.families[0]!.parameters.map(({ name }) => ({ ...parameters, x: 0.05, turn: 5 })[name as 'y']);
      const score = new Float64Array(scoreSize);
      scorer.score(0, x, score);
      const { values, profile } = profiled(task, parameters, 24);
      const { cost, limits } = profile(values);
      // The outline by curvature is a fit of the ellipse, and nothing is climbed to between half nodes.
      expect(Math.abs(cost / score[scoreAt.cost]! - 1)).toBeLessThan(0.01);
      const violation = Math.max(...limits);
      expect(Math.abs(violation)).toBeGreaterThan(0.01);
      expect(Math.sign(violation)).toBe(Math.sign(score[scoreAt.strength]!));
    }
  });
});
