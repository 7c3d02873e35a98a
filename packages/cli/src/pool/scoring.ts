import { type ChannelTask, edgePart, limitsStrength, tradesStrength } from '@lumenfront/core';
import {
  createChannelEvaluator,
  type DescentRequest,
  type DescentResult,
  type RefineRequest,
  type RefineResult,
  type Scoring,
} from '@lumenfront/optimizer';
import { openThreads } from './threads.js';

/** Parameter vectors of one family, to be scored. */
export interface ScoreRequest {
  readonly family: number;
  readonly vectors: readonly Float64Array[];
}

export interface DescendRequest {
  readonly family: number;
  readonly request: DescentRequest;
}

/** Messages per worker and batch of scores: enough that none waits long for the last, few enough that sending costs little. */
const messagesPerWorker = 4;
/** Outlines to a message, at least: one alone takes little longer than sending it. */
const leastInMessage = 2;

/** Workers run the built file, whether this one runs from `src` or from `dist`. */
const workerFile = new URL('../../dist/pool/worker.js', import.meta.url);

/** What a worker needs of a task: where nothing asks for strength, the edge part of its model, a fortieth. */
function sentTask(task: ChannelTask): ChannelTask {
  return limitsStrength(task) || tradesStrength(task) ? task : { ...task, model: edgePart(task.model) };
}

/**
 * Scoring on so many worker threads; with one, in this thread. The scores do not depend on how many there are.
 * To be closed after use: workers keep the process alive.
 */
export async function createScoring(task: ChannelTask, workers: number): Promise<Scoring> {
  if (!(workers > 1)) return { evaluator: createChannelEvaluator(task), close: async () => {} };
  const threads = await openThreads<object, never>({ workerFile, workers, workerData: sentTask(task) });
  const score = (request: ScoreRequest): Promise<Float64Array[]> => threads.run(request, 'score');
  const descend = (request: DescendRequest): Promise<DescentResult[]> => threads.run(request, 'descend');
  const refine = (request: RefineRequest): Promise<RefineResult[]> => threads.run(request, 'refine');
  return {
    evaluator: {
      task,
      score: async (family, vectors) => {
        const most = Math.max(leastInMessage, Math.ceil(vectors.length / (messagesPerWorker * workers)));
        const parts: ScoreRequest[] = [];
        for (let first = 0; first < vectors.length; first += most)
          parts.push({ family, vectors: vectors.slice(first, first + most) });
        return (await Promise.all(parts.map(score))).flat();
      },
      descend: async (family, requests) =>
        (await Promise.all(requests.map((request) => descend({ family, request })))).flat(),
      refine: async (requests) => (await Promise.all(requests.map(refine))).flat(),
    },
    close: threads.close,
  };
}
