import { expect, it } from 'vitest';
import { openCavity } from './cavity.js';
import type { Division, Face } from './division.js';

it('says of elements that meet in a corner alone that no channel can be meshed among them', () => {
  const faces = [
    [0, 1, 2],
    [2, 3, 4],
  ].map((corners) => ({ corners }) as unknown as Face);
  const division = {
    x: [-1, -1, 0, 1, 1],
    y: [1, -1, 0, -1, 1],
    faces: () => faces,
    surfaceOf: () => 0,
    beside: () => [],
    along: () => [0, 0],
  } as unknown as Division;
  expect(() => openCavity({ division, filler: 0, gap: () => 0, least: 1 })).toThrow(
    /^host\.mesh: expected elements .* received .*; mesh the filler/,
  );
});
