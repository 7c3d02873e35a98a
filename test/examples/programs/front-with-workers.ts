// A front in Node: progress, an AbortSignal, and worker threads of one's own.
import { Worker } from 'node:worker_threads';
import { createTask, edgePart, readBrief, reduceJoint, starterBrief } from '@lumenfront/core';
import { type ChannelEvaluator, findFront } from '@lumenfront/optimizer';

const brief = await readBrief(starterBrief);
const channel = { ...brief.channel, families: ['ellipse'] };
const model = reduceJoint(brief.joint, brief.channel);
const task = createTask({ ...brief, channel }, edgePart(model)); // plain data; the edge part is all that a peak needs
const workers = [0, 1].map(() => new Worker(new URL('./front-worker.js', import.meta.url), { workerData: task }));

let next = 0;
const ask = <Answer>(name: string, ...values: unknown[]) =>
  new Promise<Answer>((resolve, reject) => {
    const worker = workers[next++ % workers.length]!;
    const id = next;
    worker.on('message', function hear(message) {
      if (message.id !== id) return;
      worker.off('message', hear);
      if ('error' in message) reject(message.error);
      else resolve(message.answer);
    });
    worker.postMessage({ id, name, values });
  });
const halves = <T>(all: readonly T[]) => [all.slice(0, all.length / 2), all.slice(all.length / 2)];
const shared: ChannelEvaluator = {
  task,
  score: async (family, vectors) =>
    (await Promise.all(halves(vectors).map((some) => ask<Float64Array[]>('score', family, some)))).flat(),
  descend: async (family, requests) =>
    (await Promise.all(requests.map((one) => ask<never[]>('descend', family, [one])))).flat(),
  refine: async (requests) => (await Promise.all(requests.map((one) => ask<never[]>('refine', [one])))).flat(),
};

let told = 0;
const whole = await findFront(shared, {
  seed: 1,
  evaluations: 300,
  onProgress: ({ evaluations }) => (told = evaluations),
});
console.log(whole.stop, whole.designs.length > 5, told > 0); // finished true true

const stopping = new AbortController();
setTimeout(() => stopping.abort(), 100);
const part = await findFront(shared, { seed: 1, evaluations: 1e9, signal: stopping.signal });
console.log(part.stop); // aborted
await Promise.all(workers.map((worker) => worker.terminate()));
