import { type ChannelTask, createChannelScorer } from '@lumenfront/core';
import { move, workerData } from 'piscina';
import { type ScoreRequest, scoreBatch } from './score-batch.js';

const scorer = createChannelScorer(workerData as ChannelTask);

export function score(request: ScoreRequest): Float64Array {
  return move(scoreBatch(scorer, request)) as Float64Array;
}
