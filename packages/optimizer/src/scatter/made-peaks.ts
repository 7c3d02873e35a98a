import type { ChannelTask, Curve, ScatterWish } from '@lumenfront/core';
import { createMadeChannels } from './made-channels.js';
import { type MadeDeviation, shapeScatters } from './scatter.js';

/** Peaks of designs under deviations that are the same for every design (common random numbers), so that designs can be compared. */
export interface MadePeaks {
  /** That one design stands for. */
  readonly channels: number;
  /** As drawn; undefined for what is no channel of the joint. MPa */
  drawn(outline: Curve): number | undefined;
  /** Peaks under some deviations, in their order; Infinity where the made outline is no channel of the joint. MPa */
  under(outline: Curve, deviations: readonly MadeDeviation[]): number[];
  /** Edges that were solved so far. */
  readonly solves: number;
}

/** @param task on a joint that was solved with room for deviations */
export function createMadePeaks(task: ChannelTask, scatter: ScatterWish): MadePeaks {
  const channels = createMadeChannels(task);
  const moves = shapeScatters(scatter);
  let solves = 0;
  const solve = (...made: Parameters<typeof channels.solve>) => {
    solves++;
    return channels.solve(...made);
  };
  return {
    channels: channels.number,
    drawn(outline) {
      const solved = solve(outline);
      return solved && channels.peak(solved, 1);
    },
    under(outline, deviations) {
      const drawn = moves ? undefined : solve(outline);
      return deviations.map((deviation) => {
        const made = moves ? solve(outline, deviation.shapes) : drawn;
        return made === undefined ? Number.POSITIVE_INFINITY : channels.peak(made, deviation.cure);
      });
    },
    get solves() {
      return solves;
    },
  };
}
