import type { Host } from '../host/index.js';
import type { BriefPath, ProblemList } from '../input/index.js';
import type { ChannelWish } from './resolved.js';
import type { BriefData } from './schema.js';

type Extent = NonNullable<ChannelWish['largest']>;

const mm = (length: number) => `${Number(length.toPrecision(4))} mm`;

/** Room for both channels of a pair whose pitch is free, in widths of the largest one. */
const apart = 3;

/** What a pair asks for beside what each of its channels does; `undefined` for one channel. */
export function resolvePair(
  { number, pitch, connected }: BriefData['channels'],
  channel: BriefData['channel'],
  host: Host | undefined,
  problems: ProblemList,
): { readonly pair: NonNullable<ChannelWish['pair']>; readonly largest: Extent | undefined } | undefined {
  if (number !== 2) return undefined;
  const { wall, edgeRadius } = channel;
  if (host?.oneChannel !== undefined)
    problems.add(['channels', 'number'], `1; ${host.oneChannel.why}`, host.oneChannel.remedy);
  if (problems.isGiven(['channel', 'mirror']) && !channel.mirror)
    problems.add(
      ['channel', 'mirror'],
      'true, or left out: two channels are mirror images of each other, and each has any outline',
      'leave it out',
    );
  if (channel.families.includes('inset'))
    problems.add(
      ['channel', 'families', channel.families.indexOf('inset')],
      'a family for two channels: ellipse, teardrop, spline',
      'remove inset: it is one channel that follows the border of the filler',
    );
  const least = wall + 2 * edgeRadius;
  if (pitch !== undefined && !(pitch > least))
    problems.add(
      ['channels', 'pitch'],
      `more than ${mm(least)}: channel.wall between the two and twice channel.edgeRadius`,
      'raise it, or take a thinner wall or a smaller edge radius',
    );
  const usual = host?.usual.largest;
  const each = channel.largest ?? (usual && { width: (usual.width - wall) / 2, height: usual.height });
  const spread = (width: number) => (pitch === undefined ? width : Math.max(width, pitch + edgeRadius * 2));
  const both =
    channel.largest === undefined
      ? usual && { width: spread(usual.width), height: usual.height }
      : {
          width: pitch === undefined ? apart * channel.largest.width : pitch + channel.largest.width,
          height: channel.largest.height,
        };
  return {
    pair: { connected, ...(pitch === undefined ? {} : { pitch }), ...(both === undefined ? {} : { largest: both }) },
    largest: each,
  };
}

/** What does nothing where there is one channel: a sweep may ask for one and for two of one brief. */
export function idleKeys({ number }: BriefData['channels'], isGiven: (path: BriefPath) => boolean): string[] {
  if (number === 'row' && isGiven(['host', 'width']))
    return ['host.width: does nothing for an endless row, whose cell is channels.pitch wide; leave it out'];
  if (number !== 1) return [];
  return ['pitch', 'connected']
    .filter((key) => isGiven(['channels', key]))
    .map((key) => `channels.${key}: does nothing for one channel; ask for number: 2, or leave it out`);
}
