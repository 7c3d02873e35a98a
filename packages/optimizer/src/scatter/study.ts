import {
  type ChannelTask,
  type Curve,
  InputError,
  type ScatterWish,
  type StrengthOptions,
  UnmetError,
} from '@lumenfront/core';
import type { Random } from '../random.js';
import { createMadeChannels } from './made-channels.js';
import { createMadeStrength, type MadeStrength } from './made-strength.js';
import { checkScatter, drawDeviations, shapeScatters } from './scatter.js';
import { quantilePeak, type Spread, spreadOf } from './spread.js';

/** What scatter does to a design. */
export interface ScatterStudy {
  /** The design as drawn. */
  readonly nominal: { readonly peak: number; readonly loadFactor: number; readonly retained: number };
  /** Peak hoop tension of the worst case, MPa. */
  readonly peak: Spread;
  readonly loadFactor: Spread;
  readonly retained: Spread;
  /** The peak that the scatter's `quantile` of all samples do not exceed; Infinity where more than the rest are no channels. */
  readonly quantilePeak: number;
  /** Share of all samples that are channels and stay within the allowed peak. */
  readonly withinAllowed: number;
  /** Share of the judged samples in which failure starts at the edge of the channel. */
  readonly startsAtEdge: number;
  readonly samples: number;
  /** Samples that were judged. The others left the control contour or crossed themselves: they are no channels of this joint. */
  readonly judged: number;
}

/**
 * Judges a design as it is made, over and over: outline, position, strengths and cure vary at random. Same random source, same result.
 * Stiffness does not scatter here: it would need the joint solved for every sample.
 *
 * @param task on a joint that was solved with room for deviations: see `withRoomForScatter`
 * @param options.allow allowed peak edge stress, MPa
 * @throws InputError for scatter that is none and a design that is no channel of the joint; UnmetError if no sample is one
 */
export function studyScatter(
  task: ChannelTask,
  outline: Curve,
  scatter: ScatterWish,
  options: { readonly strength: StrengthOptions; readonly allow: number; readonly random: Random },
): ScatterStudy {
  checkScatter(scatter);
  const channels = createMadeChannels(task);
  const strengthOf = createMadeStrength(task, options.strength);
  const drawn = channels.solve(outline);
  if (drawn === undefined)
    throw new InputError({
      path: 'channel',
      expected: 'a channel that keeps the wall and the edge radius of the brief',
      received: 'one that does not',
      remedy: 'lower channel.wall and channel.edgeRadius in the brief to what the channel has',
    });
  const { loadFactor, retained } = strengthOf(drawn, 1, 1);
  const nominal = { peak: channels.peak(drawn, 1), loadFactor, retained };

  const moves = shapeScatters(scatter);
  const { samples } = scatter;
  const peaks: number[] = [];
  const strengths: MadeStrength[] = [];
  for (const deviation of drawDeviations(scatter, samples, options.random, channels.number)) {
    const made = moves ? channels.solve(outline, deviation.shapes) : drawn;
    if (made === undefined) continue;
    peaks.push(channels.peak(made, deviation.cure));
    strengths.push(strengthOf(made, deviation.strength, deviation.cure));
  }
  if (peaks.length === 0)
    throw new UnmetError(
      `none of ${samples} samples is a channel of this joint: they cross themselves or each other, or leave the room of the control contour; reduce the scatter`,
    );
  const lost = Array.from({ length: samples - peaks.length }, () => Number.POSITIVE_INFINITY);
  return {
    nominal,
    peak: spreadOf(peaks),
    loadFactor: spreadOf(strengths.map((one) => one.loadFactor)),
    retained: spreadOf(strengths.map((one) => one.retained)),
    quantilePeak: quantilePeak([...peaks, ...lost], scatter.quantile),
    withinAllowed: peaks.filter((peak) => peak <= options.allow).length / samples,
    startsAtEdge: strengths.filter(({ place }) => place === 'edge').length / peaks.length,
    samples,
    judged: peaks.length,
  };
}
