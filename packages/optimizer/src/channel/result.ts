/**
 * Scores outlines of one family of a task (see core's `ChannelScorer`): one score per vector, in their order; with `profileNodes`,
 * a profile at that many nodes each. May run anywhere; the result of a search does not depend on where.
 */
export type ScoreChannels = (
  family: number,
  vectors: readonly Float64Array[],
  profileNodes?: number,
) => Promise<readonly ArrayLike<number>[]>;

/** What a search is given. */
export interface SearchOptions {
  readonly seed: number;
  /** Evaluations over all families and runs, at most. */
  readonly evaluations: number;
  readonly signal?: { readonly aborted: boolean };
  /** Called between batches. */
  readonly onProgress?: (progress: { readonly evaluations: number; readonly designs: number }) => void;
}

/** A channel that a search found: outline and the scorer's figures. */
export interface FoundChannel {
  readonly family: string;
  readonly parameters: Readonly<Record<string, number>>;
  /** mm2 */
  readonly area: number;
  /** Peak of the worst case, MPa. */
  readonly peak: number;
}

/** How one run of the search ended. */
export interface SearchRun {
  readonly family: string;
  readonly method: 'genetic' | 'descent' | 'polish';
  readonly stop: string;
  readonly evaluations: number;
}

/** What came nearest where nothing admissible was found. */
export interface NearestChannel {
  readonly family: string;
  readonly parameters: Readonly<Record<string, number>>;
  /** The constraint missed by most, and by how much of the size asked for. */
  readonly constraint: 'room' | 'edgeRadius' | 'crossing' | 'strength' | 'peak';
  readonly violation: number;
}

/** A searched front: largest area, least peak. */
export interface ChannelFront {
  /** Non-dominated over all families, by growing area. */
  readonly designs: readonly FoundChannel[];
  /** Each family's own front. */
  readonly families: Readonly<Record<string, readonly FoundChannel[]>>;
  readonly evaluations: number;
  readonly runs: readonly SearchRun[];
  /** Hypervolume of `designs` in (area, peak) against `referencePoint`, mm2 MPa. */
  readonly hypervolume: number;
  readonly referencePoint: readonly [area: number, peak: number];
  /** Given where `designs` is empty. */
  readonly nearest: NearestChannel | undefined;
}

/** The largest channel within an allowed peak. */
export interface ChannelPick {
  /** Undefined where no channel stays within it. */
  readonly best: FoundChannel | undefined;
  /** Each family's own largest. */
  readonly families: Readonly<Record<string, FoundChannel | undefined>>;
  readonly evaluations: number;
  readonly runs: readonly SearchRun[];
  /** Given where no admissible outline was found at all. */
  readonly nearest: NearestChannel | undefined;
  /** The least peak of any admissible outline, MPa; Infinity where there was none. */
  readonly leastPeak: number;
}
