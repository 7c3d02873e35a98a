import { type ChannelTask, createChannelJudge, createChannelScorer } from '@lumenfront/core';
import type { ScoreChannels } from '@lumenfront/optimizer';
import { type ScoreRequest, scoreBatch } from './score-batch.js';

/** Somebody who scores channels of one task: this thread, or several workers. */
export interface Scoring {
  readonly score: ScoreChannels;
  close(): Promise<void>;
}

/** Messages per worker and batch: enough that none waits long for the last, few enough that sending costs little. */
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
  if (!(workers > 1)) {
    const scorer = createChannelScorer(task, createChannelJudge(task));
    return { score: inParts(1, async (request) => scoreBatch(scorer, request)), close: async () => {} };
  }
  const { Piscina } = await import('piscina');
  const pool = new Piscina<ScoreRequest, Float64Array>({
    filename: workerFile.href,
    name: 'score',
    workerData: task,
    minThreads: workers,
    maxThreads: workers,
  });
  return {
    score: inParts(messagesPerWorker * workers, (request) =>
      pool.run(request, { transferList: [request.values.buffer] }),
    ),
    close: () => pool.destroy(),
  };
}

/** Splits every batch into so many parts at most, and puts the answers together again. */
function inParts(parts: number, run: (request: ScoreRequest) => Promise<Float64Array>): ScoreChannels {
  return async (family, vectors, profileNodes) => {
    const most = Math.max(leastInMessage, Math.ceil(vectors.length / parts));
    const answers: Promise<Float64Array[]>[] = [];
    for (let first = 0; first < vectors.length; first += most) {
      const part = vectors.slice(first, first + most);
      answers.push(run({ family, count: part.length, values: joined(part), profileNodes }).then(cut(part.length)));
    }
    return (await Promise.all(answers)).flat();
  };
}

function joined(vectors: readonly Float64Array[]): Float64Array<ArrayBuffer> {
  const length = vectors[0]!.length;
  const values = new Float64Array(length * vectors.length);
  vectors.forEach((vector, i) => {
    values.set(vector, i * length);
  });
  return values;
}

/** One array per score, out of those that lie one after another. */
const cut = (count: number) => (scores: Float64Array) => {
  const size = scores.length / count;
  return Array.from({ length: count }, (_, i) => scores.subarray(i * size, (i + 1) * size));
};
