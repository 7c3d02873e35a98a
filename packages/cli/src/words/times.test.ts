import { expect, it } from 'vitest';
import { timesText } from './times.js';

it('keeps three digits over the decades, never fewer than the unit', () => {
  expect([0.0321, 1, 9.876, 36.51, 276.04, 1234.4].map(timesText)).toEqual([
    '0.03',
    '1.00',
    '9.88',
    '36.5',
    '276',
    '1234',
  ]);
});
