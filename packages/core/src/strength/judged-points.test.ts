import { describe, expect, it } from 'vitest';
import { reducedTee } from '../../../../test/fixtures/reduced.js';
import { referenceJoint } from '../../../../test/fixtures/tee-reference.js';
import { hostOf, type TeeJoint } from '../host/index.js';
import { awayFromTips } from './joint-judge.js';
import { judgedRows } from './judged-points.js';

/** Plies so thick that their own rows leave the limit wide apart; the bend is judged from the middle of the first on. */
const thick: TeeJoint = {
  ...referenceJoint,
  overlaminate: referenceJoint.overlaminate
    .slice(0, 3)
    .map((layer, k) => ({ ...layer, thickness: k === 0 ? 0.2 : 0.8 })),
};

describe('points on the usual limit around a tip', () => {
  const host = hostOf(thick);
  const limit = host.tips!.usualDistance;
  const [tipX, tipY] = host.tips!.at.find(([x]) => x > 0)!;
  const onLimit = judgedRows(reducedTee(thick, 0.12, 0.12), awayFromTips(host, undefined))
    .flat()
    .map(({ at: { place, x, y } }) => ({ place, x: x - tipX, y: y - tipY }))
    .filter(({ x, y }) => Math.abs(Math.hypot(x, y) / limit - 1) < 1e-6);

  // Stress there is that of a corner: some angle has the most, and two rows 0.4 radians apart missed it by 2 to 5 %.
  it.each([
    ['foot', 0.13, 1.1],
    ['skin', 0.13, 1.1],
    ['bend', 0.35, 1.1],
  ])('stand close in %s', (place, from, to) => {
    const angles = onLimit.filter((one) => one.place === place).map(({ x, y }) => Math.atan2(Math.abs(y), Math.abs(x)));
    const within = [from, ...angles.filter((angle) => angle > from && angle < to), to].sort((a, b) => a - b);
    const gaps = within.slice(1).map((angle, k) => angle - within[k]!);
    expect(Math.max(...gaps)).toBeLessThan(0.2);
  });
});
