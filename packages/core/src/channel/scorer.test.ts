import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { readBrief } from '../brief/index.js';
import { createChannelReporter, createChannelScorer, scoreAt, scoreSize } from './index.js';

it('keeps off what the model does not hold: beyond a contour that is cut down to the largest channel', {
  tags: 'long',
}, async () => {
  const text = readFileSync(new URL('../../../../test/examples/two-channels.yaml', import.meta.url), 'utf8');
  const task = preparedTask(await readBrief(text));
  const scorer = createChannelScorer(task);
  const { parameters, place, ...family } = scorer.families[0]!;
  const at = (x: number) =>
    Float64Array.from(parameters, ({ name }) => ({ x, y: 1, width: 0.24, height: 0.2 })[name] ?? 0);
  const score = (x: number) => {
    const out = new Float64Array(scoreSize);
    scorer.score(0, at(x), out);
    return out;
  };
  expect(score(0.6)[scoreAt.room]).toBeLessThan(0);
  // 0.08 mm from the end of the slot, more than the wall asked for.
  expect(score(1.3)[scoreAt.room]).toBeGreaterThan(0);
  expect(score(1.3)[scoreAt.peak]).toBe(0);
  const report = createChannelReporter(task);
  const curve = { ...family, place: (nodes: Parameters<typeof place>[1]) => place(at(1.3), nodes) };
  expect(() => report(curve)).toThrow(/leaves the control contour/);
});
