import { readFileSync } from 'node:fs';
import { createStrengthModel, createStressModel, type ReducedModel, readBrief, reduceJoint } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { ellipseNodes } from '../fixtures/tee-reference.js';

const textOf = (name: string) => readFileSync(new URL(`${name}.yaml`, import.meta.url), 'utf8');
const bend = textOf('channels-in-bend');
const skin = textOf('channels-under-plies');

/** The rows of the table in a brief's comment: a word, a size, and figures. */
const rowsOf = (text: string, words: string) =>
  [...text.matchAll(new RegExp(`^# {3}(${words}) +([\\d.]+) x ([\\d.]+) +([\\d.]+) +(.*)`, 'gm'))].map(
    ([, word, width, height, area, rest]) => ({
      word: word!,
      size: [Number(width), Number(height)] as const,
      area: area!,
      rest: rest!.trim().split(/ {2,}/),
    }),
  );

/** Of one channel, in the middle of its pocket. */
const alone = (text: string) =>
  text
    .replace('number: 2', 'number: 1')
    .replace(/^ {2}pitch: .*\n/m, '')
    .replace('connected: series', 'connected: parallel')
    .replace(/at: \[0\.\d, (\d)[\d.]*\]/, 'at: [0, $1]');
const withoutFlat = (text: string) => text.replace(/^ {4}flat: .*\n/m, '');

const models = new Map<string, ReducedModel>();

async function solve(text: string, at: readonly [number, number], [width, height]: readonly [number, number]) {
  const { joint, loads, cases, channel } = await readBrief(text);
  const { number = 1 } = channel.group ?? {};
  const channels = number > 1 ? { channels: { number } } : {};
  const key = JSON.stringify([joint, number]);
  const model = models.get(key) ?? reduceJoint(joint, channel);
  models.set(key, model);
  const nodes = ellipseNodes(width / 2, height / 2, at, 0, 192);
  const edge = createStressModel(model, loads, cases, channels).evaluate(nodes, false);
  const strength = createStrengthModel(model, joint, loads, cases, { edge: 'peak' }).evaluate(edge);
  const area = (number * Math.PI * width * height) / 4;
  return (name: string) => {
    const c = cases.findIndex((one) => one.name === name);
    const { factor, place } = strength.cases[c]!;
    return { area, peak: edge.cases[c]!.peak, factor, place };
  };
}

/** Figures of a table, to their last digit. */
function expectFigures(found: readonly number[], told: readonly (string | undefined)[]) {
  found.forEach((value, k) => {
    expect(Math.abs(value / Number(told[k]) - 1), `${value} for ${told[k]}`).toBeLessThan(0.006);
  });
}

describe('the example of several channels in a bend', { tags: 'long' }, () => {
  const rows = rowsOf(bend, 'one|two');

  it('has five rows in its table', () => expect(rows).toHaveLength(5));

  it.each(rows)(
    'has the strength of its table: $word, $size',
    { timeout: 60_000 },
    async ({ word, size, area, rest }) => {
      const one = withoutFlat(alone(bend))
        .replace('    height: 0.3\n', `    height: ${size[1]}\n`)
        .replace('largest: { width: 0.6, height: 0.3 }', 'largest: { width: 0.6, height: 0.43 }');
      const found = await solve(word === 'one' ? one : bend, word === 'one' ? [0, 1] : [0.3, 1.006], size);
      const [cured, pulled] = [found('cured'), found('pulled')];
      expectFigures([pulled.area, cured.peak, pulled.peak, pulled.factor], [area, ...rest]);
      expect(pulled.place).toBe(rest[3]);
    },
  );
});

describe('the example of several channels under the same plies', { tags: 'long' }, () => {
  const rows = rowsOf(skin, 'alone|flat|two');

  it('has five rows in its table', () => expect(rows).toHaveLength(5));

  it.each(rows)(
    'has the strength of its table: $word, $size',
    { timeout: 60_000 },
    async ({ word, size, area, rest }) => {
      const text = { alone: withoutFlat(alone(skin)), flat: alone(skin), two: skin }[word]!;
      const found = await solve(text, word === 'two' ? [0.4, 2] : [0, 2], size);
      const [cured, opened, first, place, ...factors] = rest;
      const { area: own, peak, factor } = found('cured');
      expectFigures([own, peak, found('opened').peak, factor], [area, cured, opened, first]);
      expectFigures(
        ['stretched', 'bent', 'opened'].map((name) => found(name).factor),
        factors,
      );
      expect(found('cured').place).toBe(place);
    },
  );
});
