import {
  type ChannelTask,
  createTask,
  InputError,
  reduceJoint,
  type ScatterWish,
  type TaskBrief,
} from '@lumenfront/core';
import type { Random } from '../random.js';
import { type Deviation, waveCounts } from './perturb.js';

/** One made joint: how each of its channels deviates, and factors on all strengths and on the cure load. */
export interface MadeDeviation {
  /** In the order of `placedChannels`. */
  readonly shapes: readonly Deviation[];
  readonly strength: number;
  readonly cure: number;
}

/** Deviations in units of their size that the control contour leaves room for. */
const roomFor = 3;
/** Of the wall and the edge radius, this share at least stays. */
const leastShare = 0.3;
/** Elements around a control contour that is nearer to the laminate would be needles. mm */
const leastLength = 0.03;
/** A strength or a cure that scatters below this is no longer one. */
const leastFactor = 0.1;

/**
 * Wall and edge radius for which the joint is to be solved, so that channels that deviate from those of `channel` stay where the reduced
 * model holds. mm
 */
export function roomForScatter(
  { wall, edgeRadius }: { readonly wall: number; readonly edgeRadius: number },
  { outline, position }: ScatterWish,
): { wall: number; edgeRadius: number } {
  const reach = roomFor * Math.hypot(outline, position);
  const left = (length: number) => Math.max(leastShare * length, Math.min(length, leastLength), length - reach);
  return { wall: left(wall), edgeRadius: left(edgeRadius) };
}

/** The task of a brief on a joint that is solved with room for deviations; everything else, the wall that a drawn channel keeps among it, stays. */
export function withRoomForScatter(brief: TaskBrief, scatter: ScatterWish): ChannelTask {
  return createTask(brief, reduceJoint(brief.joint, roomForScatter(brief.channel, scatter)));
}

/** Whether the channel itself scatters; otherwise one solve serves all samples. */
export function shapeScatters({ outline, position, turn }: ScatterWish): boolean {
  return outline > 0 || position > 0 || turn > 0;
}

/**
 * Independent deviations, of each of the joint's `channels` too. Every number is drawn whether it scatters or not, so that one scatter does not change another's numbers: the
 * same source gives the same joints to whatever channel is judged.
 */
export function drawDeviations(scatter: ScatterWish, count: number, random: Random, channels = 1): MadeDeviation[] {
  const { outline, position, turn, strength, cure } = scatter;
  const draw = scatter.distribution === 'normal' ? () => random.normal() : () => 2 * random.uniform() - 1;
  const perWave = outline * Math.sqrt(1 / (2 * waveCounts.length));
  const shape = (): Deviation => ({
    size: outline * Math.SQRT1_2 * draw(),
    waves: Array.from({ length: 2 * waveCounts.length }, () => perWave * draw()),
    x: position * draw(),
    y: position * draw(),
    turn: turn * draw(),
  });
  return Array.from({ length: count }, () => {
    const first = shape();
    const factors = {
      strength: Math.max(leastFactor, 1 + strength * draw()),
      cure: Math.max(leastFactor, 1 + cure * draw()),
    };
    return { shapes: [first, ...Array.from({ length: channels - 1 }, shape)], ...factors };
  });
}

/** Throws InputError for scatter that is none: what did not come from a brief has not been checked. */
export function checkScatter(scatter: ScatterWish): void {
  const fail = (path: string, expected: string, received: unknown) => {
    throw new InputError({ path: `scatter.${path}`, expected, received: String(received), remedy: 'correct it' });
  };
  if (!(Number.isSafeInteger(scatter.samples) && scatter.samples > 0))
    fail('samples', 'a whole number above 0', scatter.samples);
  if (!(scatter.quantile > 0 && scatter.quantile < 1)) fail('quantile', 'a share between 0 and 1', scatter.quantile);
  for (const name of ['outline', 'position', 'turn', 'strength', 'cure'] as const)
    if (!(scatter[name] >= 0 && Number.isFinite(scatter[name]))) fail(name, 'a number of 0 or more', scatter[name]);
}
