import { type ChannelScorer, scoreSize } from '@lumenfront/core';

/** Several parameter vectors of one family, one after another in `values`. */
export interface ScoreRequest {
  readonly family: number;
  readonly count: number;
  readonly values: Float64Array<ArrayBuffer>;
  /** Profiles at so many nodes are wanted; without it, scores. */
  readonly profileNodes: number | undefined;
}

/** Scores or profiles of a batch, one after another. */
export function scoreBatch(
  scorer: ChannelScorer,
  { family, count, values, profileNodes }: ScoreRequest,
): Float64Array<ArrayBuffer> {
  const length = values.length / count;
  const size = profileNodes === undefined ? scoreSize : scorer.profileSize(family, profileNodes);
  const scores = new Float64Array(count * size);
  for (let i = 0; i < count; i++) {
    const vector = values.subarray(i * length, (i + 1) * length);
    const score = scores.subarray(i * size, (i + 1) * size);
    if (profileNodes === undefined) scorer.score(family, vector, score);
    else scorer.profile(family, vector, profileNodes, score);
  }
  return scores;
}
