import { deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { unpackBytes } from './client/unpack-bytes.js';
import { packBytes } from './pack-bytes.js';

/** The same on every run, and no shorter when deflated. */
const noise = (length: number) => {
  let state = 20240607;
  return Uint8Array.from({ length }, () => {
    state = (1664525 * state + 1013904223) % 2 ** 32;
    return state / 2 ** 24;
  });
};

describe('packed bytes', () => {
  it.each([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 100_001])('are the same after unpacking: %i of them', async (length) => {
    for (const bytes of [noise(length), new Uint8Array(length).fill(255), new Uint8Array(length)])
      expect(Buffer.compare(await unpackBytes(await packBytes(bytes)), bytes)).toBe(0);
  });

  it('take five characters for four bytes, none of which ends a script', async () => {
    const bytes = noise(10_000);
    const packed = await packBytes(bytes);
    expect(packed).toMatch(/^[!-~]+$/);
    expect(packed).not.toContain('<');
    expect(packed.length).toBe(Math.ceil(1.25 * deflateRawSync(bytes).length));
  });

  it('hold a text as UTF-8', async () => {
    const text = 'θ = 45°, </script>, \u{1f600}';
    expect(new TextDecoder().decode(await unpackBytes(await packBytes(text)))).toBe(text);
  });
});
