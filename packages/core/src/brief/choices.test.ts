import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { briefOfChoice, choiceText, findChoice, markOf, readBrief, resolveBrief } from './index.js';

const slot = {
  host: { kind: 'laminate', width: 20, pocket: { made: 'cut', plies: [5, 6], width: 3 } },
  loads: { cure: { deltaT: -50 } },
  channel: { wall: 0.06, edgeRadius: 0.1 },
};
const open = {
  ...slot,
  choices: {
    'channels.number': [1, 2],
    'host.pocket.plies': [
      [3, 4],
      [5, 6],
      [7, 8],
    ],
  },
};

async function refused(data: object): Promise<string[]> {
  const error = await resolveBrief(data).catch((reason: unknown) => reason);
  if (!(error instanceof InputError)) throw new Error('expected an InputError');
  return error.problems.map(({ path, expected, received, remedy }) => `${path}: ${expected}; ${received}; ${remedy}`);
}

describe('what a brief leaves open', () => {
  it('is named by its values, long ones in short', () => {
    expect(choiceText({ 'channels.number': 2, 'host.skin.layup': Array(20).fill(45) })).toBe(
      'channels.number 2, host.skin.layup a list of 20',
    );
  });

  it('is something', async () => {
    expect(await refused({ ...slot, choices: {} })).toEqual([
      expect.stringMatching(/^choices: at least one path with its values; an empty mapping; leave choices out/),
    ]);
  });

  it('is every combination, each the brief that one would write for it', async () => {
    const brief = await resolveBrief(open);
    expect(brief.choices?.map(({ values }) => choiceText(values))).toEqual([
      'channels.number 1, host.pocket.plies [3, 4]',
      'channels.number 1, host.pocket.plies [5, 6]',
      'channels.number 1, host.pocket.plies [7, 8]',
      'channels.number 2, host.pocket.plies [3, 4]',
      'channels.number 2, host.pocket.plies [5, 6]',
      'channels.number 2, host.pocket.plies [7, 8]',
    ]);
    const written = await resolveBrief({ ...slot, channels: { number: 2 } });
    expect(brief.choices?.[4]?.brief).toEqual(written);
    expect(brief.joint).toEqual(brief.choices?.[0]?.brief.joint);
  });

  it('is found by its values, in any order, and searched as the whole is', async () => {
    const brief = await resolveBrief(open);
    const found = findChoice(brief, { 'host.pocket.plies': [5, 6], 'channels.number': 1 })!;
    expect(found).toBe(brief.choices![1]);
    expect(findChoice(brief, { 'channels.number': 1 })).toBeUndefined();
    expect(briefOfChoice({ ...brief, allow: 12 }, found)).toEqual({ ...found.brief, allow: 12 });
  });

  it('has a fingerprint of its own, which every choice changes', async () => {
    const other = { ...open, choices: { ...open.choices, 'channels.number': [2, 1] } };
    const briefs = [open, slot, other].map((data) => resolveBrief(data));
    expect(new Set((await Promise.all(briefs)).map((brief) => markOf(brief).fingerprint)).size).toBe(3);
  });

  it('is refused where it leads nowhere, is judged by, or repeats itself', async () => {
    const told = (choices: object) => refused({ ...slot, choices });
    expect(await told({ 'loads.cure.deltaT': [-50, -60] })).toEqual([
      expect.stringMatching(/^choices\["loads\.cure\.deltaT"\]: the path of a key of host, channel, channels/),
    ]);
    expect(await told({ 'host.width': [20, 20] })).toEqual([expect.stringContaining('each value once')]);
    expect(await told({ 'host.pocket': [{}, 1], 'host.pocket.width': [2, 3] })).toEqual([
      expect.stringContaining('paths of which none lies within another'),
    ]);
    expect(await told({ 'host.width': [20] })).toEqual([expect.stringContaining('a list of 2 to 60 values')]);
    const many = Array.from({ length: 30 }, (_, i) => 20 + i);
    expect(await told({ 'host.width': many, 'channels.number': [1, 2], 'channels.pitch': [1, 2] })).toEqual([
      expect.stringContaining('at most 60 combinations'),
    ]);
    expect(await told({ 'channels.numbr': [1, 2] })).toEqual([
      expect.stringMatching(/^channels\.numbr: one of the keys number, pitch, connected; .*did you mean 'number'/),
    ]);
  });

  it('tells a problem of one choice with that choice, on its line', async () => {
    const text = [
      'host: { kind: laminate, pocket: { made: cut, plies: [5, 6], width: 3 } }',
      'loads: { cure: { deltaT: -50 } }',
      'channel: { wall: 0.06, edgeRadius: 0.1 }',
      'choices:',
      '  host.pocket.width: [3, 39]',
    ].join('\n');
    const error = await readBrief(text, { file: 'joint.yaml' }).catch((reason: unknown) => reason);
    const [problem, ...more] = (error as InputError).problems;
    expect(more).toEqual([]);
    expect(problem).toMatchObject({ path: 'host.pocket.width', line: 5, received: '39 mm, with host.pocket.width 39' });
  });

  it('says whose a caution is that not all choices have', async () => {
    const channels = { pitch: 1 };
    const { cautions, choices } = await resolveBrief({ ...slot, channels, choices: { 'channels.number': [1, 2] } });
    expect(cautions).toContain(
      'channels.number 1: channels.pitch: does nothing for one channel; ask for number: 2, or leave it out',
    );
    const shared = choices![1]!.brief.cautions;
    expect(shared.length).toBeGreaterThan(0);
    for (const text of shared) expect(cautions).toContain(text);
  });

  it('compares only what can be compared', async () => {
    const rows = { ...slot, channels: { pitch: 5 }, choices: { 'channels.number': [1, 'row'] } };
    expect(await refused(rows)).toEqual([expect.stringMatching(/^choices: rows only, or no row/)]);
    const materials = { soft: { E: 3000, nu: 0.38, alpha: 60e-6, transverseTension: 61, interlaminarShear: 60 } };
    const resins = { ...slot, materials, choices: { 'host.pocket.resin': ['soft', 'generic-epoxy-resin'] } };
    expect(await refused(resins)).toEqual([
      expect.stringMatching(/^allow: one allowed peak for all choices.*give allow/),
    ]);
    expect((await resolveBrief({ ...resins, allow: 30 })).choices).toHaveLength(2);
  });
});
