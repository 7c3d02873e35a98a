import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { canonicalHost, markOf, resolveBrief } from './index.js';

const slot = {
  host: { kind: 'laminate', width: 20, pocket: { made: 'cut', plies: [5, 6], width: 3 } },
  loads: { cure: { deltaT: -50 } },
  channel: { wall: 0.06, edgeRadius: 0.1 },
  channels: { number: 2 },
};
const tee = { host: { kind: 'tee', bendRadius: 8 }, loads: { cure: { deltaT: -50 } }, channels: { number: 2 } };

async function refused(data: object): Promise<string[]> {
  const error = await resolveBrief(data).catch((reason: unknown) => reason);
  if (!(error instanceof InputError)) throw new Error('expected an InputError');
  return error.problems.map(({ path, expected, remedy }) => `${path}: ${expected}; ${remedy}`);
}

describe('two channels of a brief', () => {
  it('are mirror images of each other: each has any outline, the reference stands on the right', async () => {
    const { channel } = await resolveBrief(tee);
    expect(channel).toMatchObject({ mirror: false, group: { connected: 'parallel' } });
    expect(channel.group?.pitch).toBeUndefined();
    // A circle of a tenth of the bend radius, as far from the axis as it is wide.
    expect(channel.reference).toMatchObject({ at: [0.8, 2], width: 0.8 });
    const { channel: spaced } = await resolveBrief({ ...tee, channels: { number: 2, pitch: 3 } });
    expect(spaced.reference.at[0]).toBe(1.5);
  });

  it('may be more: room for all of them, mirror-symmetric where one lies in the middle', async () => {
    const three = { ...slot, channels: { number: 3, pitch: 0.8 } };
    const { channel } = await resolveBrief(three);
    expect(channel).toMatchObject({ mirror: true, group: { number: 3, pitch: 0.8 }, reference: { at: [0, 1.25] } });
    expect(channel.largest?.width).toBeCloseTo(0.74, 12);
    expect(channel.group?.largest?.width).toBeCloseTo(2.34, 12);
    const four = await resolveBrief({ ...slot, channels: { number: 4, pitch: 0.6 } });
    expect(four.channel).toMatchObject({ mirror: false, reference: { at: [0.3, 1.25] } });
    expect(markOf(four).fingerprint).not.toBe(markOf(await resolveBrief(three)).fingerprint);
  });

  it('leave a brief of one channel as it was', async () => {
    const { channels: _two, ...one } = tee;
    expect((await resolveBrief(one)).channel.group).toBeUndefined();
    // Their results are not those of one.
    expect(markOf(await resolveBrief(tee)).fingerprint).not.toBe(markOf(await resolveBrief(one)).fingerprint);
    expect(await resolveBrief({ ...one, channels: { number: 1 } })).toEqual(await resolveBrief(one));
  });

  it('share the room that one has where nothing is asked, and take more where each is to be large', async () => {
    const usual = await resolveBrief(slot);
    const { group, largest } = usual.channel;
    // The slot is 3 by 0.5 mm.
    expect(group?.largest).toEqual({ width: 3, height: 0.5 });
    expect(largest).toEqual({ width: 1.47, height: 0.5 });
    const asked = { ...slot, channel: { ...slot.channel, largest: { width: 0.6, height: 0.4 } } };
    const free = await resolveBrief(asked);
    expect(free.channel.group?.largest?.width).toBeCloseTo(1.8, 12);
    const spaced = await resolveBrief({ ...asked, channels: { number: 2, pitch: 1 } });
    expect(spaced.channel.group?.largest?.width).toBeCloseTo(1.6, 12);
    // Each is solved in a room of its own.
    expect(new Set([usual, free, spaced].map(canonicalHost)).size).toBe(3);
  });

  it('say what does nothing for one channel, so that a sweep can ask for one and for two', async () => {
    const { cautions, channel } = await resolveBrief({
      ...slot,
      channels: { number: 1, pitch: 1, connected: 'series' },
    });
    expect(channel.group).toBeUndefined();
    expect(cautions.filter((text) => text.startsWith('channels.'))).toEqual([
      'channels.pitch: does nothing for one channel; ask for number: 2, or leave it out',
      'channels.connected: does nothing for one channel; ask for number: 2, or leave it out',
    ]);
  });

  it.each([
    ['nine', { ...slot, channels: { number: 9 } }, /^channels.number: a whole number at least 1 and at most 8/],
    [
      'a pitch without room between them',
      { ...slot, channels: { number: 2, pitch: 0.2 } },
      /^channels.pitch: more than 0.26 mm: channel.wall between neighbours and twice channel.edgeRadius/,
    ],
    [
      'two in a lens',
      { ...slot, host: { kind: 'laminate', pocket: { made: 'drape', height: 0.5 } } },
      /^channels.number: 1; one in a lens that plies drape over.*give host.pocket.flat.*number: row; or cut a slot for all/,
    ],
    [
      'outlines that need not be mirrored',
      { ...slot, channel: { ...slot.channel, mirror: false } },
      /^channel.mirror: true, or left out: two channels are mirror images/,
    ],
    [
      'one that follows the border of the filler',
      { ...tee, channel: { families: ['ellipse', 'inset'] } },
      /^channel.families\[1\]: a family for several channels/,
    ],
    [
      'more than two without a pitch',
      { ...slot, channels: { number: 3 } },
      /^channels.pitch: of more than two channels the distance of neighbours/,
    ],
    [
      'an odd number whose middle one need not be mirror-symmetric',
      { ...slot, channel: { ...slot.channel, mirror: false }, channels: { number: 3, pitch: 0.8 } },
      /^channel.mirror: true, or left out: the middle one of an odd number is its own mirror image/,
    ],
    [
      'a reference across the axis',
      { ...slot, channel: { ...slot.channel, reference: { at: [0, 1.25], width: 0.2, height: 0.2 } } },
      /^channel.reference.at\[0\]: at least 0.13 mm: of two channels the right one/,
    ],
  ])('are refused in words: %s', async (_, data, words) => {
    const problems = await refused(data);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(words);
  });
});
