import { expect, it } from 'vitest';
import { presentWords } from './older-words.js';

it.each([
  [['report', '--result', 'a.json', '--out=b'], ['report', '--channel', 'a.json', '--out=b'], 1],
  [['scatter', '--front=a.json'], ['scatter', '--channel=a.json'], 1],
  [['draw', '--front', 'a.json'], ['draw', '--channel', 'a.json'], 1],
  [['front', '--objective', 'peak'], ['front', '--against', 'peak'], 1],
  [['check', '--seed', '3', '--channel', 'a'], ['check', '--channel', 'a'], 1],
  [['draw', '--seed=3'], ['draw'], 1],
  [['pick', '--seed', '3', '--result', 'a'], ['pick', '--seed', '3', '--result', 'a'], 0],
  [[], [], 0],
])('%j is read as %j', (argv, present, count) => {
  const notes: string[] = [];
  expect(presentWords(argv, (text) => notes.push(text))).toEqual(present);
  expect(notes).toHaveLength(count);
});
