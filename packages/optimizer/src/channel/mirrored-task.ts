import { type ChannelTask, createStressModel } from '@lumenfront/core';

/** The same task for outlines that are mirror-symmetric. */
export const mirrored = (task: ChannelTask): ChannelTask => ({ ...task, channel: { ...task.channel, mirror: true } });

/** Whether the best outlines of a task may well be mirror-symmetric, though they need not be: each of an even number of channels stands beside the axis. */
export const mayMirror = ({ channel, model, loads, cases }: ChannelTask): boolean =>
  !channel.mirror && channel.group === undefined && createStressModel(model, loads, cases).symmetric;
