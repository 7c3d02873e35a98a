import { InputError } from '@lumenfront/core';
import type { Shard } from './results.js';

/** Reads `2/8`. @throws InputError for anything else */
export function readShard(written: string): Shard {
  const [, number, count] = (/^(\d+)\/(\d+)$/.exec(written.trim()) ?? []).map(Number);
  if (number === undefined || count === undefined || !(number >= 1 && number <= count && count <= 100_000))
    throw new InputError({
      path: '--shard',
      expected: 'the number of a part, from 1, and how many parts there are',
      received: JSON.stringify(written.slice(0, 60)),
      remedy: 'write, for example, --shard 2/8',
    });
  return { number, count };
}
