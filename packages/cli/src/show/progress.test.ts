import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { describeProgress, formatSeconds, startProgress } from './index.js';

async function drawnBy(isTTY: boolean, quiet: boolean, columns = 100): Promise<string> {
  // What a bar asks of a terminal beyond a stream.
  const stream = Object.assign(new PassThrough(), {
    isTTY,
    columns,
    cursorTo: () => true,
    moveCursor: () => true,
    clearLine: () => true,
  });
  const progress = await startProgress({ label: 'search', total: 100, unit: 'outlines', quiet, stream });
  progress.update(40, 'best 48 MPa');
  progress.stop();
  return String(stream.read() ?? '');
}

describe('progress', () => {
  it('is shown on a terminal', async () => {
    expect(await drawnBy(true, false)).toContain('search');
  });

  it('fits the terminal, and changes nothing there that an interrupt would have to undo', async () => {
    const drawn = await drawnBy(true, false, 30);
    expect(drawn).toContain('search [');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: what a terminal is sent
    for (const line of drawn.split(/\x1b\S*?[A-Za-z78]/)) expect(line.length).toBeLessThan(30);
    expect(drawn).not.toContain('\u001b[?');
  });

  it('is silent when piped and with --quiet', async () => {
    expect(await drawnBy(false, false)).toBe('');
    expect(await drawnBy(true, true)).toBe('');
  });

  it('tells rate and time left', () => {
    const state = { total: 20_000, unit: 'outlines' };
    expect(describeProgress({ ...state, done: 5000, seconds: 5 })).toBe(' 25% 5000/20000 outlines, 1000/s, 15 s left');
    expect(describeProgress({ ...state, done: 5, seconds: 10 })).toBe(
      '  0% 5/20000 outlines, 0.50/s, 11 h 06 min left',
    );
    expect(describeProgress({ ...state, done: 0, seconds: 5 })).toBe('  0% 0/20000 outlines');
  });

  it('tells a time in the unit that suits it', () => {
    expect([0.4, 59.4, 61, 3599, 3600, 100_000].map(formatSeconds)).toEqual([
      '0 s',
      '59 s',
      '1 min 01 s',
      '59 min 59 s',
      '1 h 00 min',
      '27 h 46 min',
    ]);
  });
});
