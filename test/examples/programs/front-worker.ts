// A worker of front-with-workers.ts: answers what a search asks of its evaluator.
import { parentPort, workerData } from 'node:worker_threads';
import type { ChannelTask } from '@lumenfront/core';
import { createChannelEvaluator } from '@lumenfront/optimizer';

const { score, descend, refine } = createChannelEvaluator(workerData as ChannelTask);
const answers: Record<string, (...values: never[]) => Promise<unknown>> = { score, descend, refine };
parentPort!.on('message', async ({ id, name, values }) => {
  try {
    parentPort!.postMessage({ id, answer: await answers[name]!(...(values as never[])) });
  } catch (error) {
    parentPort!.postMessage({ id, error });
  }
});
