/// <reference lib="webworker" />
// Reads the brief, reduces the joint and searches; the page stays free.
import { createTask, edgePart, encodeModel, readBrief, reduceJoint } from '@lumenfront/core';
import { createChannelEvaluator, findFront } from '@lumenfront/optimizer';
import type { News, Order } from './messages.js';

declare const self: DedicatedWorkerGlobalScope;
const tell = (news: News) => self.postMessage(news);
let running = new AbortController();

self.onmessage = async ({ data }: MessageEvent<Order>) => {
  // Comes through in the middle of a search: it lets the event loop run between batches.
  if (data === 'stop') return running.abort();
  running = new AbortController();
  try {
    const brief = await readBrief(data.start);
    const begun = performance.now();
    const model = reduceJoint(brief.joint, brief.channel, (reducing) => tell({ reducing }));
    const milliseconds = performance.now() - begun;
    const { joint, loads, cases, channel, strength, search } = brief;
    const parts = { joint, loads, cases, channel, strength, search };
    tell({ reduced: { model: encodeModel('page', edgePart(model)), brief: parts, milliseconds } });
    const { designs, stop } = await findFront(createChannelEvaluator(createTask(brief, model)), {
      ...search,
      signal: running.signal,
      onProgress: ({ evaluations }) => tell({ progress: evaluations / search.evaluations }),
    });
    tell({ found: designs, stop });
  } catch (error) {
    tell({ failed: error instanceof Error ? error.message : String(error) });
  }
};
