import { type ChannelTask, createChannelJudge, createChannelScorer } from '@lumenfront/core';
import { move, workerData } from 'piscina';
import { type ScoreRequest, scoreBatch } from './score-batch.js';

const task = workerData as ChannelTask;
const scorer = createChannelScorer(task, createChannelJudge(task));

export function score(request: ScoreRequest): Float64Array {
  return move(scoreBatch(scorer, request)) as Float64Array;
}
