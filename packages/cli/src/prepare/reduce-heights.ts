import { availableParallelism } from 'node:os';
import { MessageChannel, receiveMessageOnPort, Worker } from 'node:worker_threads';
import { planHeights, type ReducedModel, type ResolvedBrief, reduceJoint } from '@lumenfront/core';

/** What the other thread is given. */
export interface HeightsWork extends Pick<ResolvedBrief, 'joint' | 'channel'> {
  readonly heights: readonly number[];
  /** Becomes 1 when `port` has its answer: a model a height, or none where it failed. */
  readonly done: Int32Array;
}

const workerFile = new URL('../../dist/prepare/heights-worker.js', import.meta.url);

/**
 * The reduced model of a joint; where its pocket follows its channel, half of the heights are reduced in another thread. This one waits for it
 * without turning to anything else, so that it serves where `reduceJoint` does.
 */
export function reduceHeights({ joint, channel }: Pick<ResolvedBrief, 'joint' | 'channel'>): ReducedModel {
  const plan = planHeights(joint, channel);
  if (plan === undefined || availableParallelism() < 2) return reduceJoint(joint, channel);
  const others = plan.heights.filter((_, k) => k % 2 === 1);
  const done = new Int32Array(new SharedArrayBuffer(4));
  const { port1, port2 } = new MessageChannel();
  const work: HeightsWork = { joint, channel, heights: others, done };
  const worker = new Worker(workerFile, { workerData: { ...work, port: port2 }, transferList: [port2] });
  worker.unref();
  try {
    const own = plan.heights.filter((_, k) => k % 2 === 0).map((height) => plan.reduce(height));
    Atomics.wait(done, 0, 0);
    const found = (receiveMessageOnPort(port1)?.message ?? []) as readonly ReducedModel[];
    // What fails there fails here, with its reason.
    const rest = found.length === others.length ? found : others.map((height) => plan.reduce(height));
    return plan.join(plan.heights.map((_, k) => (k % 2 === 0 ? own[k / 2]! : rest[(k - 1) / 2]!)));
  } finally {
    port1.close();
    void worker.terminate();
  }
}
