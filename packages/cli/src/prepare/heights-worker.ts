import { type MessagePort, workerData } from 'node:worker_threads';
import { planHeights } from '@lumenfront/core';
import type { HeightsWork } from './reduce-heights.js';

const { joint, channel, heights, done, port } = workerData as HeightsWork & { readonly port: MessagePort };
try {
  const plan = planHeights(joint, channel)!;
  port.postMessage(heights.map((height) => plan.reduce(height)));
} finally {
  Atomics.store(done, 0, 1);
  Atomics.notify(done, 0);
}
