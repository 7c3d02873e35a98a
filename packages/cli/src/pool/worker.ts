import { type ChannelTask, createChannelJudge } from '@lumenfront/core';
import { createChannelEvaluator } from '@lumenfront/optimizer';
import { workerData } from 'piscina';
import type { DescendRequest, ScoreRequest } from './scoring.js';

const task = workerData as ChannelTask;
const evaluator = createChannelEvaluator(task, createChannelJudge(task));

export const score = ({ family, vectors }: ScoreRequest) => evaluator.score(family, vectors);
export const descend = ({ family, request }: DescendRequest) => evaluator.descend(family, [request]);
