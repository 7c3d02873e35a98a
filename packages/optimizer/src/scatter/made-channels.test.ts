import { InputError } from '@lumenfront/core';
import { expect, it } from 'vitest';
import { refuseMadePair } from './made-channels.js';

it('two channels are not judged as they are made', () => {
  expect(() => refuseMadePair({})).not.toThrow();
  expect(() => refuseMadePair({ group: { number: 2, connected: 'parallel' } })).toThrow(InputError);
  expect(() => refuseMadePair({ group: { number: 2, connected: 'parallel' } })).toThrow(/judge one channel by itself/);
});
