// A front with progress, an AbortSignal, and workers of one's own: worker threads in Node, web workers in a browser.
import { createTask, edgePart, readBrief, reduceJoint, starterBrief } from '@lumenfront/core';
import { type ChannelEvaluator, findFront } from '@lumenfront/optimizer';

const brief = await readBrief(starterBrief);
const channel = { ...brief.channel, families: ['ellipse'] };
const model = reduceJoint(brief.joint, brief.channel);
const task = createTask({ ...brief, channel }, edgePart(model)); // plain data; the edge part is all that a peak needs

interface Platform {
  readonly Worker?: new (
    script: URL,
    options: { readonly type: 'module' },
  ) => { postMessage(message: unknown, transferred: MessagePort[]): void; terminate(): unknown };
}
const Worker = (globalThis as Platform).Worker ?? (await import('node:worker_threads')).Worker;
const workers = [0, 1].map(() => {
  const worker = new Worker(new URL('./front-worker.js', import.meta.url), { type: 'module' });
  const { port1: port, port2 } = new MessageChannel();
  worker.postMessage({ task, port: port2 }, [port2] as never);
  return { worker, port };
});

let next = 0;
const open = new Map<number, { resolve(answer: never): void; reject(error: unknown): void }>();
for (const { port } of workers)
  port.onmessage = ({ data: { id, answer, error } }) => {
    if (error === undefined) open.get(id)!.resolve(answer as never);
    else open.get(id)!.reject(error);
    open.delete(id);
  };
const ask = <Answer>(name: string, ...values: unknown[]) =>
  new Promise<Answer>((resolve, reject) => {
    const id = next++;
    open.set(id, { resolve, reject });
    workers[id % workers.length]!.port.postMessage({ id, name, values });
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
  onProgress: ({ evaluations }) => {
    told = evaluations;
  },
});
console.log(whole.stop, whole.designs.length > 5, told > 0); // finished true true

const stopping = new AbortController();
setTimeout(() => stopping.abort(), 100);
const part = await findFront(shared, { seed: 1, evaluations: 1e9, signal: stopping.signal });
console.log(part.stop); // aborted
for (const { worker, port } of workers) {
  port.close();
  worker.terminate();
}
