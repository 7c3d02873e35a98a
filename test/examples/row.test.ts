import { readFileSync } from 'node:fs';
import { createChannelReporter, createTask, outlineOf, readBrief, reduceJoint, wholeRoom } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';

const text = readFileSync(new URL('row.yaml', import.meta.url), 'utf8');
const cases = ['cured', 'stretched', 'bent'];

/** The table in the brief's comment. */
const rows = [...text.matchAll(/^# {3}([\d.]+) +([\d.]+) +([\d.]+) +([\d.]+) +([\d.]+)/gm)].map((row) =>
  row.slice(1).map(Number),
);

describe('the example of an endless row', { tags: 'long' }, () => {
  it.each(rows)(
    'has at a pitch of %s mm %s mm2 in a metre of width, and the peaks of its table',
    async (pitch, area, ...peaks) => {
      const brief = await readBrief(text.replace('pitch: 6 ', `pitch: ${pitch} `));
      const { joint, channel } = brief;
      const report = createChannelReporter(createTask(brief, reduceJoint(joint, channel)));
      const parameters = { y: 0.8, width: 1, height: 0.38 };
      const { design } = report(outlineOf({ family: 'ellipse', parameters }, wholeRoom(brief)));
      expect(design.row!.areaPerMetre / area! - 1).toBeCloseTo(0, 2);
      cases.forEach((name, c) => {
        expect(Math.abs(design.cases[name]!.peak / peaks[c]! - 1), name).toBeLessThan(0.003);
      });
    },
  );

  it('tells three rows', () => expect(rows).toHaveLength(3));
});
