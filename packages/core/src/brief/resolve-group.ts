import type { Host } from '../host/index.js';
import type { BriefPath, ProblemList } from '../input/index.js';
import type { ChannelGroup, ChannelWish } from './resolved.js';
import type { BriefData } from './schema.js';

type Extent = NonNullable<ChannelWish['largest']>;

const mm = (length: number) => `${Number(length.toPrecision(4))} mm`;

/** Room for both channels of two whose pitch is free, in widths of the largest one. */
const apart = 3;

/** What channels side by side ask for beside what each of them does; `undefined` for one channel and for a row. */
export function resolveGroup(
  { number, pitch, connected }: BriefData['channels'],
  channel: BriefData['channel'],
  host: Host | undefined,
  problems: ProblemList,
): { readonly group: ChannelGroup; readonly largest: Extent | undefined } | undefined {
  if (number === 1 || number === 'row') return undefined;
  const { wall, edgeRadius } = channel;
  if (host?.oneChannel !== undefined)
    problems.add(['channels', 'number'], `1; ${host.oneChannel.why}`, host.oneChannel.remedy);
  if (problems.isGiven(['channel', 'mirror']) && !channel.mirror)
    problems.add(
      ['channel', 'mirror'],
      number % 2 === 0
        ? 'true, or left out: two channels are mirror images of each other, and each has any outline'
        : 'true, or left out: the middle one of an odd number is its own mirror image, and all have its outline',
      'leave it out',
    );
  if (number > 2 && pitch === undefined)
    problems.add(
      ['channels', 'pitch'],
      'of more than two channels the distance of neighbours, from middle to middle, mm',
      "add it, for example pitch: 1; to compare several, sweep it: 'lumenfront sweep FILE --vary channels.pitch=0.8,1,1.2'",
    );
  if (channel.families.includes('inset'))
    problems.add(
      ['channel', 'families', channel.families.indexOf('inset')],
      'a family for several channels: ellipse, teardrop, spline',
      'remove inset: it is one channel that follows the border of the filler',
    );
  const least = wall + 2 * edgeRadius;
  if (pitch !== undefined && !(pitch > least))
    problems.add(
      ['channels', 'pitch'],
      `more than ${mm(least)}: channel.wall between neighbours and twice channel.edgeRadius`,
      'raise it, or take a thinner wall or a smaller edge radius',
    );
  const usual = host?.usual.largest;
  /** From the middle of the first to that of the last. */
  const span = pitch === undefined ? undefined : (number - 1) * pitch;
  const widest = (width: number) => (number === 2 ? (width - wall) / 2 : Math.min(width, (pitch ?? width) - wall));
  const each = channel.largest ?? (usual && { width: widest(usual.width), height: usual.height });
  /** All together, of the given extent of each. */
  const allOf = ({ width, height }: Extent): Extent => ({ width: (span ?? (apart - 1) * width) + width, height });
  const usualOfTwo = usual && {
    ...usual,
    width: span === undefined ? usual.width : Math.max(usual.width, span + edgeRadius * 2),
  };
  const both = channel.largest === undefined && number === 2 ? usualOfTwo : each && allOf(each);
  return {
    group: {
      ...{ number, connected },
      ...(pitch === undefined ? {} : { pitch }),
      ...(both === undefined ? {} : { largest: both }),
    },
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
