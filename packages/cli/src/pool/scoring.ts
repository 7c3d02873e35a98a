import { type ChannelTask, createChannelScorer, scoreSize } from '@lumenfront/core';
import type { ScoreChannels } from '@lumenfront/optimizer';
import type { ScoreRequest } from './worker.js';

/** Somebody who scores channels of one task: this thread, or several workers. */
export interface Scoring {
  readonly score: ScoreChannels;
  close(): Promise<void>;
}

/** Messages per worker and batch: enough that none waits long for the last, few enough that sending costs little. */
const messagesPerWorker = 4;

/** Workers run the built file, whether this one runs from `src` or from `dist`. */
const workerFile = new URL('../../dist/pool/worker.js', import.meta.url);

/**
 * Scoring on so many worker threads; with one, in this thread. The scores do not depend on how many there are.
 * To be closed after use: workers keep the process alive.
 */
export async function createScoring(task: ChannelTask, workers: number): Promise<Scoring> {
  return workers > 1 ? scoringInWorkers(task, workers) : scoringHere(task);
}

function scoringHere(task: ChannelTask): Scoring {
  const scorer = createChannelScorer(task);
  return {
    score: async (family, vectors) =>
      vectors.map((vector) => {
        const score = new Float64Array(scoreSize);
        scorer.score(family, vector, score);
        return score;
      }),
    close: async () => {},
  };
}

async function scoringInWorkers(task: ChannelTask, workers: number): Promise<Scoring> {
  const { Piscina } = await import('piscina');
  const pool = new Piscina<ScoreRequest, Float64Array>({
    filename: workerFile.href,
    name: 'score',
    workerData: task,
    minThreads: workers,
    maxThreads: workers,
  });
  return {
    score: async (family, vectors) => {
      const size = Math.ceil(vectors.length / (messagesPerWorker * workers));
      const answers: Promise<Float64Array>[] = [];
      for (let first = 0; first < vectors.length; first += size) {
        const request = packed(family, vectors.slice(first, first + size));
        answers.push(pool.run(request, { transferList: [request.values.buffer] }));
      }
      const scores = await Promise.all(answers);
      return vectors.map((_, i) => {
        const place = (i % size) * scoreSize;
        return scores[Math.floor(i / size)]!.subarray(place, place + scoreSize);
      });
    },
    close: () => pool.destroy(),
  };
}

function packed(
  family: number,
  vectors: readonly Float64Array[],
): ScoreRequest & { values: Float64Array<ArrayBuffer> } {
  const length = vectors[0]!.length;
  const values = new Float64Array(length * vectors.length);
  vectors.forEach((vector, i) => {
    values.set(vector, i * length);
  });
  return { family, count: vectors.length, values };
}
