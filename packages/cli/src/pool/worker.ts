import type { ChannelTask } from '@lumenfront/core';
import {
  type ChannelEvaluator,
  createChannelEvaluator,
  createOutlineReports,
  type RefineRequest,
} from '@lumenfront/optimizer';
import { workerData } from 'piscina';
import type { DescendRequest, ScoreRequest } from './scoring.js';

const task = workerData as ChannelTask;
/** Made when it is asked for: some workers only report. */
let made: ChannelEvaluator | undefined;
const evaluator = () => {
  made ??= createChannelEvaluator(task);
  return made;
};

export const score = ({ family, vectors }: ScoreRequest) => evaluator().score(family, vectors);
export const descend = ({ family, request }: DescendRequest) => evaluator().descend(family, [request]);
export const refine = (request: RefineRequest) => evaluator().refine([request]);
export const report = createOutlineReports(task);
