import type { ChannelTask, OutlineData } from '@lumenfront/core';
import {
  createChannelEvaluator,
  createOutlineReports,
  type DescentRequest,
  type DescentResult,
  type RefineRequest,
  type RefineResult,
  type ReportedOutline,
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

/**
 * Scoring on so many worker threads; with one, in this thread. The scores do not depend on how many there are.
 * To be closed after use: workers keep the process alive.
 */
export async function createScoring(task: ChannelTask, workers: number): Promise<Scoring> {
  if (!(workers > 1))
    return { evaluator: createChannelEvaluator(task), report: createOutlineReports(task), close: async () => {} };
  const threads = await openThreads<object, never>({ workerFile, workers, workerData: task });
  const score = (request: ScoreRequest): Promise<Float64Array[]> => threads.run(request, 'score');
  const descend = (request: DescendRequest): Promise<DescentResult[]> => threads.run(request, 'descend');
  const refine = (request: RefineRequest): Promise<RefineResult[]> => threads.run(request, 'refine');
  const report = (outlines: readonly OutlineData[]): Promise<ReportedOutline[]> => threads.run(outlines, 'report');
  /** In parts, a message each. */
  const parted = <Part>(all: readonly Part[]): Part[][] => {
    const most = Math.max(leastInMessage, Math.ceil(all.length / (messagesPerWorker * workers)));
    return Array.from({ length: Math.ceil(all.length / most) }, (_, k) => all.slice(k * most, (k + 1) * most));
  };
  return {
    evaluator: {
      task,
      score: async (family, vectors) =>
        (await Promise.all(parted(vectors).map((part) => score({ family, vectors: part })))).flat(),
      descend: async (family, requests) =>
        (await Promise.all(requests.map((request) => descend({ family, request })))).flat(),
      refine: async (requests) => (await Promise.all(requests.map(refine))).flat(),
    },
    report: async (outlines) => (await Promise.all(parted(outlines).map(report))).flat(),
    close: threads.close,
  };
}
