import { expect, it } from 'vitest';
import { startText } from './failure.js';

it('says where failure starts, how far off, and which way a crack goes from there', () => {
  const off = { place: 'base-interface', fromEdge: 0.714 };
  const from = 'filler/skin, 0.71 mm off the edge';
  expect(startText({ ...off, crackPath: 'kinking', crackMeets: true })).toBe(`${from}, a crack kinking out meets it`);
  expect(startText({ ...off, crackPath: 'kinking', crackMeets: false })).toBe(
    `${from}, a crack passes it by, kinking or not`,
  );
  expect(startText({ ...off, crackPath: 'along', crackMeets: false })).toBe(`${from}, a crack along it passes by`);
  expect(startText({ ...off, place: 'filler', crackPath: 'straight', crackMeets: true }, '1, 2')).toBe(
    'filler at 1, 2 mm, 0.71 mm off the edge, a crack meets it',
  );
  expect(startText({ ...off, place: 'filler', crackMeets: false })).toMatch(/passes it by$/);
  expect(startText(off)).toBe(from);
  expect(startText({ place: 'edge', fromEdge: 0, crackPath: 'edge', crackMeets: true })).toBe('channel edge');
});
