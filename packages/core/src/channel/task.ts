import {
  type ChannelObjective,
  type ChannelWish,
  canonicalJoint,
  type FamilyName,
  type ResolvedBrief,
  roomWish,
  type StrengthWish,
  sha256Hex,
} from '../brief/index.js';
import { InputError } from '../errors.js';
import {
  type HeightPlan,
  hostOf,
  type Joint,
  joinHeights,
  type LoadCase,
  type Loads,
  proveTee,
  type ReducedModel,
  type TeeJoint,
} from '../host/index.js';
import {
  alone,
  type Border,
  centredFamily,
  createFamily,
  hasMiddle,
  mirrorLines,
  type OutlineFamily,
  type OutlineRoom,
  onRight,
  placeOnCopy,
  type SideBySide,
} from '../outline/index.js';
import type { SolvedEdge } from '../stress/index.js';

/** An outline family of one's own, made for a room. Its name must not be that of a built-in one. */
export type OwnFamily = (room: OutlineRoom) => OutlineFamily;

/** What channels are asked to keep, and the families to search: names, or families of one's own. */
export interface TaskChannel extends Omit<ChannelWish, 'families'> {
  readonly families: readonly (FamilyName | OwnFamily)[];
}

/** A cost of one's own, to be kept small: any positive, smooth function of the edge as it was solved. */
export interface EdgeCost {
  readonly name: string;
  readonly unit: string;
  /**
   * Of an edge whose hoop stress is known case by case (`caseHoop`, `cases`, MPa) at the nodes, or at the first half of them where `mirror` says
   * so; half way between them it is not. The edge is overwritten by the next outline.
   */
  of(edge: SolvedEdge): number;
}

/** What a search trades: the size of channels against a cost, of a brief or of one's own. */
export interface TaskObjective {
  readonly size: ChannelObjective['size'];
  readonly cost: ChannelObjective['cost'] | EdgeCost;
}

/**
 * All that is needed to judge channels. Made by `createTask`. Plain data that can be sent to a worker, unless it holds functions of one's own
 * (a family, a cost): then every worker makes its own task.
 */
export interface ChannelTask {
  readonly joint: Joint;
  readonly loads: Loads;
  readonly cases: readonly LoadCase[];
  readonly channel: TaskChannel;
  /** How strength is judged, and what is asked of it. */
  readonly strength: StrengthWish;
  readonly model: ReducedModel;
  /** What a search trades. */
  readonly objective: TaskObjective;
}

/** What is searched where nothing else is asked, and what a pick is about. */
export const areaAgainstPeak: ChannelObjective = { size: 'area', cost: 'peak' };

/** What of a brief makes a task. */
export interface TaskBrief extends Pick<ResolvedBrief, 'joint' | 'loads' | 'cases' | 'strength'> {
  readonly channel: TaskChannel;
  readonly search: { readonly objective: TaskObjective };
}

/**
 * The task of a brief whose joint was solved (see `reduceJoint`).
 *
 * @throws InputError for a model of another joint, or one made for more wall or edge radius, where it need not hold; and for one that lost its numbers
 * on a way through JSON
 */
export function createTask(
  { joint, loads, cases, channel, strength, search }: TaskBrief,
  model: ReducedModel,
): ChannelTask {
  checkModel(model, joint, channel);
  return { joint, loads, cases, channel, strength, model, objective: search.objective };
}

function checkModel(
  model: ReducedModel,
  joint: Joint,
  { wall, edgeRadius }: Pick<ChannelWish, 'wall' | 'edgeRadius'>,
): void {
  const refuse = (
    expected: string,
    received: string,
    remedy = 'make it by reduceJoint(brief.joint, brief.channel)',
  ) => {
    throw new InputError({ path: 'model', expected, received, remedy });
  };
  const numbers = model.loads.map(({ undisturbed }) => undisturbed);
  for (const { axial, ...blocks } of model.responses) {
    numbers.push(...Object.values(blocks));
    if (axial !== undefined)
      numbers.push(axial.field, Float64Array.of(axial.stiffness, axial.modulus, axial.compliance));
  }
  if (!numbers.every((values) => ArrayBuffer.isView(values) && values.every(Number.isFinite)))
    refuse('finite numbers in typed arrays', 'others', 'keep models by encodeModel and decodeModel');
  const { madeFor } = model;
  if (madeFor === undefined) refuse('a model that says what it was made for', 'one that does not');
  else if (madeFor.joint !== keyOf(joint)) refuse('the model of this joint', 'that of another');
  else if (!(madeFor.wall <= wall && madeFor.edgeRadius <= edgeRadius))
    refuse(
      `a model for a wall of ${wall} mm and an edge radius of ${edgeRadius} mm, or less`,
      `one for ${madeFor.wall} and ${madeFor.edgeRadius} mm`,
    );
}

const keyOf = (joint: Joint): string => sha256Hex(canonicalJoint(joint));

/** Whether a task trades the size of channels against the strength of the whole joint. */
export function tradesStrength({ objective: { cost } }: Pick<ChannelTask, 'objective'>): boolean {
  return cost === 'loadFactor' || cost === 'strengthRetained';
}

/** Whether a task limits what a channel may take from the joint's strength. */
export function limitsStrength({ strength }: Pick<ChannelTask, 'strength'>): boolean {
  return strength.leastRetained !== undefined || strength.startsAwayFromEdge;
}

/** Whether a search of a task asks for the strength of the joint at all. */
export const asksForStrength = (task: Pick<ChannelTask, 'objective' | 'strength'>): boolean =>
  tradesStrength(task) || limitsStrength(task);

/**
 * Whether exact slopes are known of all that a task keeps small and within limits (see `createEdgeProfiler`): not of the strength with several channels, a pocket that follows its channel, conductance, a cost of one's own, nor of an
 * edge that is judged at a distance.
 */
export function hasSlopes(task: Pick<ChannelTask, 'joint' | 'objective' | 'strength' | 'channel'>): boolean {
  const { objective, strength, channel } = task;
  if (hostOf(task.joint).follows !== undefined) return false;
  if (channel.group !== undefined && asksForStrength(task)) return false;
  if (objective.size !== 'area' || typeof objective.cost === 'object') return false;
  return strength.edge === 'peak' || !asksForStrength(task);
}

/** How far an outline may leave the control contour: up to here the error stays small, beyond it grows without bound. mm */
export const contourSlack = 0.03;

/**
 * Solves the joint outside its control contour once: the costly part of a task, the same for all channels.
 *
 * @param onProgress is told which share is done, roughly and never less than before: how finely a joint must be solved shows on the way
 */
export function reduceJoint(
  joint: Joint,
  channel: Pick<ChannelWish, 'wall' | 'edgeRadius' | 'largest' | 'group'>,
  onProgress?: (share: number) => void,
): ReducedModel {
  const model = hostOf(joint).reduce(roomWish(channel), onProgress);
  onProgress?.(1);
  return withMaker(model, joint, channel);
}

/**
 * The same for a tee with its channel in the filler, by itself: a bundle that asks for no more holds a third of what `reduceJoint` brings,
 * which takes every kind of host with its checks.
 *
 * @throws InputError for a tee whose channel lies in a pocket
 */
export function reduceTeeJoint(
  joint: TeeJoint,
  channel: Pick<ChannelWish, 'wall' | 'edgeRadius'>,
  onProgress?: (share: number) => void,
): ReducedModel {
  if (joint.pocket !== undefined)
    throw new InputError({
      path: 'joint.pocket',
      expected: 'a tee with its channel in the filler',
      received: 'a pocket',
      remedy: 'reduce it by reduceJoint',
    });
  const { wall, edgeRadius } = channel;
  const model = proveTee(joint, { wall, edgeRadius, onProgress });
  onProgress?.(1);
  return withMaker(model, joint, channel);
}

function withMaker(
  model: ReducedModel,
  joint: Joint,
  { wall, edgeRadius }: Pick<ChannelWish, 'wall' | 'edgeRadius'>,
): ReducedModel {
  return { ...model, madeFor: { joint: keyOf(joint), wall, edgeRadius } };
}

/** The heights that `reduceJoint` reduces one after the other, for who has several threads; undefined where the pocket does not follow its channel. */
export function planHeights(
  joint: Joint,
  channel: Parameters<typeof reduceJoint>[1],
): (HeightPlan & { join(models: readonly ReducedModel[]): ReducedModel }) | undefined {
  const plan = hostOf(joint).follows?.plan(roomWish(channel));
  return plan && { ...plan, join: (models) => withMaker(joinHeights(plan, models), joint, channel) };
}

/** The channels that an outline of a brief stands for. */
export function sideBySide({ group }: Pick<ChannelWish, 'group'>): SideBySide {
  if (group === undefined) return alone;
  return { number: group.number, ...(group.pitch === undefined ? {} : { pitch: group.pitch }) };
}

/** How far the middle of a channel may be off the pitch that is asked for, as a share of it; a search stays within so much of that. */
export const pitchTolerance = 0.01;
const pitchSought = 0.9;

/** The room that a task leaves for channels, of several for the given one; the families of its own belong to it. */
export function channelRoom({ joint, channel }: Pick<ChannelTask, 'joint' | 'channel'>): OutlineRoom {
  const room = roomOfOne(hostOf(joint).room(roomWish(channel)), sideBySide(channel), channel.wall);
  const own = channel.families.filter((family) => typeof family === 'function');
  if (own.length === 0) return room;
  return { ...room, families: { ...room.families, ...Object.fromEntries(own.map((make) => [make(room).name, make])) } };
}

/** All of what channels may use, whatever wall and edge radius are asked for. */
export function wholeRoom({ joint, channel }: Pick<ChannelTask, 'joint' | 'channel'>): OutlineRoom {
  return roomOfOne(hostOf(joint).wholeRoom(roomWish(channel)), { number: sideBySide(channel).number }, 0);
}

/** The room of the given one of several channels: half a wall from the lines in which neighbours are mirror images, and where the outermost still lies in the room. */
function roomOfOne(room: OutlineRoom, channels: SideBySide, wall: number): OutlineRoom {
  const { number, pitch = Number.NaN } = channels;
  if (number < 2) return room;
  const { families: _ofOneChannel, ...within } = room;
  const last = onRight(channels) - 1;
  if (hasMiddle(channels)) {
    const half = pitch > 0 ? Math.min(room.xMax - last * pitch, (pitch - wall) / 2) : room.xMax;
    return { ...within, xMin: -half, xMax: half };
  }
  const right = { ...within, mirror: false, xMin: wall / 2 };
  if (number === 2 || !(pitch > 0)) return right;
  const [from, to] = last % 2 === 0 ? [0, room.xMax - last * pitch] : [(last + 1) * pitch - room.xMax, pitch];
  return { ...right, xMin: Math.max(wall / 2, from), xMax: Math.min(pitch - wall / 2, to) };
}

/** A border as the given one of several channels sees it: the least distance of all of them. */
export function borderOfAll(border: Border, channels: SideBySide): Border {
  const copies = onRight(channels);
  if (copies === 1) return border;
  return {
    distance(x, y) {
      let least = border.distance(x, y);
      for (let k = 1; k < copies; k++) least = Math.min(least, border.distance(placeOnCopy(x, channels, k), y));
      return least;
    },
  };
}

/** Distance of a place on the given one of several channels from its image on the nearest neighbour, mm. */
export function distanceToNeighbour(x: number, channels: SideBySide): number {
  const [first, second] = mirrorLines(channels);
  if (hasMiddle(channels)) return 2 * (first! - Math.abs(x));
  return second === undefined ? 2 * x : 2 * Math.min(x, second - x);
}

/** The border that a channel keeps its wall from; several keep it from each other as well. */
export function channelBorder({ joint, channel }: Pick<ChannelTask, 'joint' | 'channel'>): Border {
  const { border } = hostOf(joint);
  if (channel.group === undefined) return border;
  const channels = sideBySide(channel);
  const all = borderOfAll(border, channels);
  return { distance: (x, y) => Math.min(all.distance(x, y), distanceToNeighbour(x, channels)) };
}

/** The outline families that a task asks for, in its order. Those of an even number of channels at a given pitch keep it whatever their values are. */
export function taskFamilies(task: Pick<ChannelTask, 'joint' | 'channel'>): OutlineFamily[] {
  const room = channelRoom(task);
  const families = task.channel.families.map((family) =>
    createFamily(typeof family === 'function' ? family(room).name : family, room),
  );
  const { group } = task.channel;
  if (group?.pitch === undefined || hasMiddle(group)) return families;
  const half = group.pitch / 2;
  const off = pitchSought * pitchTolerance * half;
  return families.map((family) => centredFamily(family, [half - off, half + off]));
}
