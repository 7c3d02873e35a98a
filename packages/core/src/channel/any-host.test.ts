import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, it } from 'vitest';
import { isJudged, judgesOf, outlinesOf, points, reported } from '../../../../test/fixtures/any-outline.js';
import { holdsFor, settle } from '../../../../test/fixtures/fuzz.js';
import { readBrief, starterBrief } from '../brief/index.js';
import { fitPoints } from '../outline/index.js';

const examples = new URL('../../../../test/examples/', import.meta.url);
const textOf = (file: string) => readFileSync(fileURLToPath(new URL(file, examples)), 'utf8');
const brief = async (name: string) => readBrief(textOf(`${name}.yaml`), { file: `${name}.yaml`, textOf });

/** Every kind of host, and all that stands beside a channel: a wall of plies, a second channel, an endless row, a known channel in the filler. */
const hosts = {
  'a tee': () => readBrief(starterBrief),
  'a tee with a pocket': () => brief('pocket-in-bend'),
  'a tee with a known channel beside the pocket': () => brief('pocket-beside-filler'),
  'a laminate': () => brief('pocket'),
  'two channels': () => brief('two-channels'),
  'a row': () => brief('row'),
  'a section': () => brief('hat-foot'),
};

describe.each(Object.entries(hosts))('in %s', { tags: 'long', timeout: 300_000 }, (_, read) => {
  it('out of any outline, of a family or of points, comes a finite design or a complete error', async () => {
    const host = judgesOf(await read());
    const { xMin, xMax, yMin, yMax } = host.room;
    // Mostly as large as the room and anywhere in it: many stand right beside a border, or cross it.
    const placed = fc
      .record({
        points,
        x: fc.double({ min: xMin, max: xMax, noNaN: true }),
        y: fc.double({ min: yMin, max: yMax, noNaN: true }),
        size: fc.double({ min: -2, max: 0, noNaN: true }),
      })
      .map(({ points, x, y, size }) => {
        const scale = (10 ** size * Math.min(xMax - xMin, yMax - yMin)) / 2;
        return points.map(([u, v]): [number, number] => [x + scale * u, y + scale * v]);
      });
    const outline = fc.oneof(outlinesOf([host]), placed);
    await holdsFor(200, [outline, reported], async (given, whole) => {
      if ('family' in given) return isJudged(given, whole);
      const fitted = await settle(() => fitPoints(given));
      if (fitted !== undefined && whole) await host.report(fitted);
    });
  });
});
