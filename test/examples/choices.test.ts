import { readFileSync } from 'node:fs';
import { choiceText, readBrief } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';

const text = readFileSync(new URL('choices.yaml', import.meta.url), 'utf8');

/** The table in the brief's comment. */
const rows = [...text.matchAll(/^# {3}(\d) +(\[\d, \d\]) +[\d.]+ mm2 at /gm)].map(
  ([, number, plies]) => `channels.number ${number}, host.pocket.plies ${plies}`,
);

describe('the example of what is open', () => {
  it('has the choices of its table in their order', async () => {
    const { choices } = await readBrief(text);
    expect(choices?.map(({ values }) => choiceText(values))).toEqual(rows);
  });
});
