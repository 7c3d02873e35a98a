import { type FrontDocument, type ResolvedBrief, UnmetError } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { runInTurn } from './run-in-turn.js';
import type { RunOptions } from './session.js';
import { openThread } from './workplace.js';

const briefs = [1, 2, 3].map((seed) => ({ search: { seed } }) as ResolvedBrief);
const workplace = openThread();

/** Spends 100 evaluations, of which it tells 40 and 90 on the way. */
const search = async ({ search: { seed } }: ResolvedBrief, { onProgress }: RunOptions) => {
  for (const evaluations of [40, 90]) onProgress?.({ evaluations, designs: seed });
  if (seed === 2) throw new UnmetError('none');
  return { search: { seed, evaluations: 100 } } as unknown as FrontDocument;
};

describe('searches one after the other', () => {
  it('count what each has spent, also one that found nothing, and tell their progress as that of one', async () => {
    const told: number[] = [];
    const outcomes = await runInTurn(search, briefs, {
      workplace,
      onProgress: ({ evaluations }) => void told.push(evaluations),
    });
    expect(outcomes.map(({ evaluations }) => evaluations)).toEqual([100, 90, 100]);
    expect(outcomes.map(({ found }) => found instanceof UnmetError)).toEqual([false, true, false]);
    expect(told).toEqual([40, 90, 140, 190, 230, 280]);
  });

  it('end with the one that was called off', async () => {
    const outcomes = await runInTurn(search, briefs, { workplace, signal: { aborted: true } });
    expect(outcomes.map(({ brief }) => brief)).toEqual([briefs[0]]);
  });

  it('pass on what is no lack of a channel', async () => {
    const broken = () => Promise.reject(new TypeError('of the program'));
    await expect(runInTurn(broken, briefs, { workplace })).rejects.toThrow('of the program');
  });
});
