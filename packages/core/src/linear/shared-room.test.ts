import { expect, it } from 'vitest';
import { sharedRoom } from './shared-room.js';

it('room of like lengths is the same, and all of it bounded by the largest', () => {
  const room = sharedRoom();
  const asked = [1, 5, 8, 9, 16, 700, 1000];
  const given = asked.map(room);
  expect(given.map(({ length }) => length)).toEqual(asked);
  expect(given[1]!.buffer).toBe(given[2]!.buffer);
  expect(given[3]!.buffer).toBe(given[4]!.buffer);
  const kept = [...new Set(given.map(({ buffer }) => buffer))].reduce((sum, { byteLength }) => sum + byteLength, 0);
  expect(kept / 8).toBeLessThanOrEqual(4 * 1000);
});
