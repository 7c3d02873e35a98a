import { InputError } from '../errors.js';
import {
  beyondBound,
  describeSize,
  type Effort,
  effortBound,
  effortOf,
  type Host,
  type HostSize,
  hostOf,
} from '../host/index.js';
import type { ProblemList } from '../input/index.js';
import type { ChannelWish, ResolvedBrief } from './resolved.js';
import { roomWish } from './room-wish.js';

/**
 * Undefined for sections that take no time to speak of, or tell no size.
 *
 * @throws InputError for walls that leave no room
 */
export function estimateEffort({ joint, channel }: Pick<ResolvedBrief, 'joint' | 'channel'>): Effort | undefined {
  const size = hostOf(joint).size?.(roomWish(channel));
  return size && effortOf(size);
}

/** Refuses what takes too much, before anything is spent on it. */
export function checkEffort(host: Host, channel: ChannelWish, problems: ProblemList): void {
  let size: HostSize | undefined;
  try {
    size = host.size?.(roomWish(channel));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    problems.adopt(error);
  }
  const beyond = size && beyondBound(size);
  if (beyond === undefined) return;
  const isThin = beyond === 'contour';
  problems.add(
    isThin ? ['channel', 'wall'] : ['host'],
    `a section that ${effortBound}`,
    isThin
      ? 'ask for more channel.wall and channel.edgeRadius: the model is as fine as they are'
      : 'take a shorter section, or fewer and thicker plies: some thicknesses away its ends hardly matter',
    `one of ${describeSize(size!)}`,
  );
}
