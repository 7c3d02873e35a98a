import { expect, it } from 'vitest';
import { liesBesideAnother, liesInFiller, liesInPocket } from './kind.js';

/** Of hosts as they are written, and of joints as they are resolved. */
it.each([
  ['a tee', {}, liesInFiller],
  ['a tee with its filler', { filler: 'generic-epoxy-resin' }, liesInFiller],
  ['a pocket', { pocket: { in: 'bend' } }, liesInPocket],
  ['a pocket beside a known channel', { pocket: { in: 'foot' }, filler: { channel: {} } }, liesBesideAnother],
  ['the joint of it', { pocket: { in: 'foot' }, fillerChannel: {} }, liesBesideAnother],
  ['a filler beside a known channel, which takes all', { pocket: { in: 'skin', channel: {} } }, undefined],
])('the channel of %s lies in one part of the code', (_, tee, where) => {
  const parts = [liesInFiller, liesInPocket, liesBesideAnother];
  expect(parts.filter((lies) => lies(tee))).toEqual(where === undefined ? [] : [where]);
});
