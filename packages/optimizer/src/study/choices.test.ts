import { type ResolvedBrief, readResult, resolveBrief, UnmetError } from '@lumenfront/core';
import { beforeAll, describe, expect, it } from 'vitest';
import { plateSheet } from '../../../../test/fixtures/plate-sheet.js';
import {
  openThread,
  type RunOptions,
  referenceCurve,
  runCheck,
  runDelivery,
  runFront,
  runMadePick,
  runPick,
  verifyFront,
} from './index.js';
import { frontOfChoices } from './run-choices.js';

const sheet = { ...plateSheet, search: { evaluations: 400 } };
let brief: ResolvedBrief;
beforeAll(async () => {
  brief = await resolveBrief({ ...sheet, choices: { 'channels.number': [1, 2] } });
});

describe('one front of what a brief leaves open', () => {
  it('holds the best of each choice, each with it, and sets the choices side by side', async () => {
    const notes: string[] = [];
    const front = await runFront(brief, { workplace: openThread((text) => void notes.push(text)) });
    expect(notes).toEqual(['choice 1 of 2: channels.number 1', 'choice 2 of 2: channels.number 2']);
    // One circle bears twice the tension all round; two beside each other more, at twice the area.
    const numbers = front.designs.map(({ choice }) => choice?.['channels.number']);
    expect(numbers[0]).toBe(1);
    expect(numbers.at(-1)).toBe(2);
    front.designs.slice(1).forEach(({ area, peak, pair, choice }, i) => {
      expect(area).toBeGreaterThan(front.designs[i]!.area);
      expect(peak).toBeGreaterThan(front.designs[i]!.peak);
      expect(pair !== undefined).toBe(choice?.['channels.number'] === 2);
    });
    const [one, two] = front.choices!;
    expect(one!.designs + two!.designs).toBe(front.designs.length);
    expect(one!.largest!.area).toBeCloseTo(Math.PI, 1);
    expect(two!.largest!.area).toBeGreaterThan(1.8 * one!.largest!.area);
    expect(front.designs[two!.largest!.design! - 1]!.area).toBe(two!.largest!.area);
    expect(one!.evaluations + two!.evaluations).toBe(front.search.evaluations);
    // A file holds all of it.
    expect((await readResult(JSON.parse(JSON.stringify(front)), ['front'], 'front.json')).result).toEqual(front);
  });

  it('is the same every time, and meshes each design in its own section', { tags: 'long' }, async () => {
    const workplace = openThread();
    const front = await runFront(brief, { workplace });
    expect(JSON.stringify(await runFront(brief, { workplace }))).toBe(JSON.stringify(front));
    const last = front.designs.length - 1;
    const { designs, reference } = await verifyFront(brief, front, [0, last], { workplace });
    for (const one of [designs[0]!, designs[last]!, reference]) expect(one.difference?.holds).toBe(true);
  });

  it('keeps what there is when it is called off, and names choices that cannot be met', async () => {
    const signal = { aborted: false };
    const onProgress = ({ evaluations }: { readonly evaluations: number }) => {
      signal.aborted ||= evaluations > 200;
    };
    const front = await runFront(brief, { workplace: openThread(), signal, onProgress });
    expect(front.choices).toHaveLength(1);
    expect(front.designs.length).toBeGreaterThan(0);
    const oneOnly = async (one: ResolvedBrief, options: RunOptions) => {
      if (one.channel.group !== undefined) throw new UnmetError('no two channels keep channel.wall');
      return runFront(one, options);
    };
    const { choices, cautions } = await frontOfChoices(brief, { workplace: openThread() }, oneOnly);
    expect(choices![1]).toEqual({
      ...{ choice: { 'channels.number': 2 }, designs: 0, evaluations: 0 },
      unmet: 'no two channels keep channel.wall',
    });
    expect(cautions).toContain('channels.number 2: no two channels keep channel.wall');
  });

  it('is refused where one section is asked for', async () => {
    const workplace = openThread();
    const circle = referenceCurve(brief.channel.reference);
    const refused = 'a brief that leaves nothing open';
    await expect(runCheck(brief, circle, { mesh: false, workplace })).rejects.toThrow(refused);
    await expect(runMadePick(brief, { workplace })).rejects.toThrow(refused);
    expect(() => runDelivery(brief, circle, workplace)).toThrow(refused);
  });

  it('gives the largest of all to pick', async () => {
    const pick = await runPick(brief, { workplace: openThread() });
    expect(pick.design.choice).toEqual({ 'channels.number': 2 });
    expect(pick.design.pair).toBeDefined();
    await expect(runPick({ ...brief, allow: 0.5 }, { workplace: openThread() })).rejects.toThrow(
      /^no choice can be met: channels\.number 1: .*; channels\.number 2: /,
    );
  });
});
