import type { ChannelObjective, ChannelWish, ResolvedBrief, StrengthWish } from '../brief/index.js';
import { hostOf, type Joint, type LoadCase, type Loads, type ReducedModel } from '../host/index.js';
import { type Border, createFamily, type OutlineFamily, type OutlineRoom } from '../outline/index.js';

/** All that is needed to judge channels: plain data, so that it can be sent to a worker. Made by `createTask`. */
export interface ChannelTask {
  readonly joint: Joint;
  readonly loads: Loads;
  readonly cases: readonly LoadCase[];
  readonly channel: ChannelWish;
  /** How strength is judged, and what is asked of it. */
  readonly strength: StrengthWish;
  readonly model: ReducedModel;
  /** What a search trades. */
  readonly objective: ChannelObjective;
}

/** What is searched where nothing else is asked, and what a pick is about. */
export const areaAgainstPeak: ChannelObjective = { size: 'area', cost: 'peak' };

/** What of a brief makes a task. */
export type TaskBrief = Pick<ResolvedBrief, 'joint' | 'loads' | 'cases' | 'channel' | 'strength'> & {
  readonly search: Pick<ResolvedBrief['search'], 'objective'>;
};

/** The task of a brief whose joint was solved (see `reduceJoint`). */
export function createTask(
  { joint, loads, cases, channel, strength, search }: TaskBrief,
  model: ReducedModel,
): ChannelTask {
  return { joint, loads, cases, channel, strength, model, objective: search.objective };
}

/** Whether a task trades the size of channels against the strength of the whole joint. */
export function tradesStrength({ objective }: Pick<ChannelTask, 'objective'>): boolean {
  return objective.cost !== 'peak';
}

/** Whether a task limits what a channel may take from the joint's strength. */
export function limitsStrength({ strength }: Pick<ChannelTask, 'strength'>): boolean {
  return strength.leastRetained !== undefined || strength.startsAwayFromEdge;
}

/** How far an outline may leave the control contour: up to here the error stays small, beyond it grows without bound. mm */
export const contourSlack = 0.03;

/** Solves the joint outside its control contour once: the costly part of a task, the same for all channels. */
export function reduceJoint(joint: Joint, channel: Pick<ChannelWish, 'wall' | 'edgeRadius'>): ReducedModel {
  return hostOf(joint).reduce(channel);
}

/** The room that a task leaves for channels. */
export function channelRoom({ joint, channel }: Pick<ChannelTask, 'joint' | 'channel'>): OutlineRoom {
  return hostOf(joint).room(channel);
}

/** The border that a channel keeps its wall from. */
export function channelBorder(joint: Joint): Border {
  return hostOf(joint).border;
}

/** The outline families that a task asks for, in its order. */
export function taskFamilies(task: Pick<ChannelTask, 'joint' | 'channel'>): OutlineFamily[] {
  const room = channelRoom(task);
  return task.channel.families.map((name) => createFamily(name, room));
}
