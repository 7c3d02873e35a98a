import type { SearchRun } from '@lumenfront/core';

/** What a search is given. */
export interface SearchOptions {
  readonly seed: number;
  /** Evaluations over all families and runs, at most. */
  readonly evaluations: number;
  /** Calls the search off: an `AbortSignal`. Looked at between batches; what was found until then is the result. */
  readonly signal?: { readonly aborted: boolean };
  /** Called between batches. */
  readonly onProgress?: (progress: { readonly evaluations: number; readonly designs: number }) => void;
}

/** Why a search ended: it was called off, or had nothing left to do or to spend. */
export type SearchStop = 'aborted' | 'finished';

export function searchStop({ signal }: SearchOptions): SearchStop {
  return signal?.aborted === true ? 'aborted' : 'finished';
}

/** An outline that a search found. */
interface FoundOutline {
  readonly family: string;
  readonly parameters: Readonly<Record<string, number>>;
}

/** A channel of a front, with the scorer's figures. */
export interface FoundChannel extends FoundOutline {
  /** Area, mm2, or what else the task's objective makes large. */
  readonly size: number;
  /** Peak of the worst case, MPa, or what else the task's objective keeps small. */
  readonly cost: number;
  /**
   * Of a refined channel: the share by which its peak could be lower, to first order, with all limits kept, by moves of a hundredth of its mean
   * radius. Locally: another shape may do better.
   */
  readonly locallyOptimalWithin?: number;
}

/** A channel as it was evaluated for a report. */
export interface PickedChannel extends FoundOutline {
  /** mm2 */
  readonly area: number;
  /** Peak of the worst case, MPa. */
  readonly peak: number;
}

/** What came nearest where nothing admissible was found. */
export interface NearestChannel {
  readonly family: string;
  readonly parameters: Readonly<Record<string, number>>;
  /** The constraint missed by most, and by how much of the size asked for. */
  readonly constraint: 'room' | 'edgeRadius' | 'crossing' | 'strength' | 'peak';
  readonly violation: number;
}

/** A searched front: largest size, least cost. */
export interface ChannelFront {
  /** Non-dominated over all families, by growing size. */
  readonly designs: readonly FoundChannel[];
  /** Each family's own front. */
  readonly families: Readonly<Record<string, readonly FoundChannel[]>>;
  readonly stop: SearchStop;
  readonly evaluations: number;
  readonly runs: readonly SearchRun[];
  /** Hypervolume of `designs` in (size, cost) against `referencePoint`. */
  readonly hypervolume: number;
  readonly referencePoint: readonly [size: number, cost: number];
  /** Given where `designs` is empty. */
  readonly nearest: NearestChannel | undefined;
}

/** The largest channel within an allowed peak. */
export interface ChannelPick {
  /** Undefined where no channel stays within it. */
  readonly best: PickedChannel | undefined;
  /** Each family's own largest. */
  readonly families: Readonly<Record<string, PickedChannel | undefined>>;
  readonly stop: SearchStop;
  readonly evaluations: number;
  readonly runs: readonly SearchRun[];
  /** Given where no admissible outline was found at all. */
  readonly nearest: NearestChannel | undefined;
  /** The least peak of any admissible outline, MPa; Infinity where there was none. */
  readonly leastPeak: number;
}
