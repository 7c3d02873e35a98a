import { InputError, readResult } from '@lumenfront/core';
import { type CaseOutcome, type CaseRequest, failedOutcome } from '@lumenfront/optimizer';
import type { Queue, QueueEvents } from 'bullmq';
import type { CaseEngine } from '../engine.js';
import { loadQueueLibrary, type QueueAddress, queueConnection } from './connect.js';

/**
 * Between two looks at all that is outstanding: at least so long, ms, and so many times what a look takes. Events tell sooner;
 * the looks find what no event told.
 */
const PAUSE = 2000;
const PAUSE_PER_LOOK = 20;

/** Cases that are sent, or looked at, together. */
const TOGETHER = 100;

/** A result that nobody has fetched after so long is forgotten, s; whoever wants it has it made again. */
const KEPT = 7 * 24 * 3600;

/** The server keeps so many events, results in them. */
const EVENTS = 1000;

/**
 * Has cases run by the workers of a queue, wherever they are.
 *
 * A case is in the queue under its own name, once, however often it is put there. Its result stays until it was told, so whoever
 * collects may be killed at any moment as well: the next one finds what was made meanwhile. What the server has lost is put
 * there again.
 */
export function createQueueEngine(address: QueueAddress, note: (text: string) => void): CaseEngine {
  return {
    run: async (requests, tell, signal) => {
      if (requests.length === 0) return;
      const { Queue, QueueEvents } = await loadQueueLibrary();
      const { options: connection, ready } = queueConnection(address, note);
      const queue: CaseQueue = new Queue(address.name, { connection, streams: { events: { maxLen: EVENTS } } });
      const events = new QueueEvents(address.name, { connection, autorun: false });
      await Promise.all([ready(queue), ready(events)]);
      try {
        const outstanding = new Map(requests.map((request) => [request.id, request]));
        const look = lookIn(queue, outstanding, tell, signal);
        for (const some of chunks(requests)) if (!signal.aborted) await put(queue, some);
        await hearAndLook(events, outstanding, look, noteUnserved(queue, note), signal);
      } finally {
        await Promise.all([events.close(), queue.close()]);
      }
    },
  };
}

type CaseQueue = Queue<CaseRequest, CaseOutcome, string>;

/** Says when nobody serves the queue: once, until somebody does again. */
function noteUnserved(queue: CaseQueue, note: (text: string) => void): () => Promise<void> {
  let told = false;
  return async () => {
    const unserved = (await queue.getWorkersCount()) === 0;
    if (unserved && !told)
      note('no worker serves this queue: start, on any machine, lumenfront sweep --serve with the same --queue');
    told = unserved;
  };
}

function put(queue: CaseQueue, requests: readonly CaseRequest[]): Promise<unknown> {
  const kept = { age: KEPT };
  return queue.addBulk(
    requests.map((data) => ({
      name: data.kind,
      data,
      opts: { jobId: data.id, removeOnComplete: kept, removeOnFail: kept },
    })),
  );
}

/** Looks at one outstanding case: tells its outcome, or puts it there again if it is lost. */
function lookIn(
  queue: CaseQueue,
  outstanding: Map<string, CaseRequest>,
  tell: (request: CaseRequest, outcome: CaseOutcome) => void,
  signal: AbortSignal,
): (id: string) => Promise<void> {
  return async (id) => {
    const request = outstanding.get(id);
    if (request === undefined) return;
    const state = await queue.getJobState(id);
    if (state === 'unknown') await put(queue, [request]);
    if (state !== 'completed' && state !== 'failed') return;
    const job = await queue.getJob(id);
    if (job === undefined) return;
    const outcome =
      state === 'completed'
        ? await soundOutcome(request, job.returnvalue)
        : failedOutcome(`no outcome: ${job.failedReason}`);
    // Seen by two looks at once: the first one has it.
    if (signal.aborted || !outstanding.delete(id)) return;
    tell(request, outcome);
    // False where another who collects has had it made again meanwhile: then it is theirs.
    await queue.remove(id);
  };
}

/** What came through the queue is an outcome only if it is what a worker of this version writes. */
async function soundOutcome({ id, kind }: CaseRequest, outcome: CaseOutcome): Promise<CaseOutcome> {
  try {
    await readResult({ case: id, version: '', run: kind, vary: {}, ...outcome }, ['sweep-line'], 'the queue');
    return outcome;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return failedOutcome('what came back through the queue is no result');
  }
}

/** Looks at what events name, and now and then at everything, until nothing is outstanding or the signal comes. */
function hearAndLook(
  events: QueueEvents,
  outstanding: ReadonlyMap<string, CaseRequest>,
  look: (id: string) => Promise<void>,
  watch: () => Promise<void>,
  signal: AbortSignal,
): Promise<void> {
  return new Promise((resolve, reject) => {
    let timer: NodeJS.Timeout | undefined;
    const fail = (error: unknown) => {
      clearTimeout(timer);
      reject(error);
    };
    const endIfDone = () => {
      if (outstanding.size > 0 && !signal.aborted) return;
      clearTimeout(timer);
      resolve();
    };
    const lookAtAll = async () => {
      const started = performance.now();
      if (outstanding.size > 0) await watch();
      for (const some of chunks([...outstanding.keys()])) if (!signal.aborted) await Promise.all(some.map(look));
      timer = setTimeout(
        () => lookAtAll().catch(fail),
        Math.max(PAUSE, PAUSE_PER_LOOK * (performance.now() - started)),
      );
      endIfDone();
    };
    const hear = ({ jobId }: { jobId: string }) => look(jobId).then(endIfDone, fail);
    signal.addEventListener('abort', endIfDone, { once: true });
    events.on('completed', hear);
    events.on('failed', hear);
    events.run().catch(fail);
    lookAtAll().catch(fail);
  });
}

function chunks<Entry>(entries: readonly Entry[]): Entry[][] {
  return Array.from({ length: Math.ceil(entries.length / TOGETHER) }, (_, i) =>
    entries.slice(i * TOGETHER, (i + 1) * TOGETHER),
  );
}
