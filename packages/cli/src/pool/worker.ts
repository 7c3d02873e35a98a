import type { ChannelTask } from '@lumenfront/core';
import { createChannelEvaluator, type RefineRequest } from '@lumenfront/optimizer';
import { workerData } from 'piscina';
import type { DescendRequest, ScoreRequest } from './scoring.js';

const evaluator = createChannelEvaluator(workerData as ChannelTask);

export const score = ({ family, vectors }: ScoreRequest) => evaluator.score(family, vectors);
export const descend = ({ family, request }: DescendRequest) => evaluator.descend(family, [request]);
export const refine = (request: RefineRequest) => evaluator.refine([request]);
