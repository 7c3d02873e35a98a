import { type ChannelTask, createChannelScorer, scoreSize } from '@lumenfront/core';
import { move, workerData } from 'piscina';

/** Several parameter vectors of one family, one after another in `values`. */
export interface ScoreRequest {
  readonly family: number;
  readonly count: number;
  readonly values: Float64Array;
}

const scorer = createChannelScorer(workerData as ChannelTask);

/** Scores, one after another. */
export function score({ family, count, values }: ScoreRequest): Float64Array {
  const length = values.length / count;
  const scores = new Float64Array(count * scoreSize);
  for (let i = 0; i < count; i++)
    scorer.score(
      family,
      values.subarray(i * length, (i + 1) * length),
      scores.subarray(i * scoreSize, (i + 1) * scoreSize),
    );
  return move(scores) as Float64Array;
}
