import { describe, expect, it } from 'vitest';
import { pocketInBend } from '../../../../../../test/fixtures/pocket-tees.js';
import { ellipseNodes } from '../../../../../../test/fixtures/tee-reference.js';
import { InputError } from '../../../errors.js';
import { hostOf } from '../../registry.js';
import type { KnownOutline, TeeJoint } from '../tee.js';

const tee = pocketInBend(1);
const ellipse = (width: number, at: readonly [number, number], count = 192): KnownOutline => {
  const { x, y } = ellipseNodes(width / 2, 0.1, at, 0, count);
  return Array.from(x, (px, j) => [px, y[j]!] as const);
};
const inFiller = (fillerChannel: KnownOutline) => hostOf({ ...tee, fillerChannel } as TeeJoint);
const inPocket = (channel: KnownOutline) => hostOf({ ...tee, pocket: { ...tee.pocket!, channel } } as TeeJoint);

describe('a known outline that is handed in as data', () => {
  it('is taken where it lies inside', () => {
    expect(inFiller(ellipse(0.5, [0, 1.2])).kind).toBe('tee');
    expect(inPocket(ellipse(0.5, [0, 0.5])).kind).toBe('tee');
  });

  it.each([
    [
      'outside of its pocket',
      () => inPocket(ellipse(0.5, [0, 2])),
      /host\.pocket\.channel: .*inside the pocket.*wall -/,
    ],
    ['across the border of its pocket', () => inPocket(ellipse(3.5, [0, 0.5])), /inside the pocket.*wall -/],
    [
      'outside of the filler',
      () => inFiller(ellipse(0.5, [0, 9])),
      /host\.filler\.channel: .*inside the filler.*wall -/,
    ],
    ['of an odd number of points', () => inPocket(ellipse(0.5, [0, 0.5]).slice(1)), /even number.*received 191,/],
    [
      'of points that are none',
      () =>
        inFiller([
          [Number.NaN, 1],
          [0, 1],
        ]),
      /received 2, wall NaN/,
    ],
  ])('is refused in words %s', (_, open, words) => {
    expect(open).toThrow(InputError);
    expect(open).toThrow(words);
  });
});
