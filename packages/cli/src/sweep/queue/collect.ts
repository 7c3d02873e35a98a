import { type CaseOutcome, type CaseRequest, failedOutcome } from '../case.js';
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
      const queue = new Queue<CaseRequest, CaseOutcome, string>(address.name, {
        connection,
        streams: { events: { maxLen: EVENTS } },
      });
      const events = new QueueEvents(address.name, { connection, autorun: false });
      await Promise.all([ready(queue), ready(events)]);

      const outstanding = new Map(requests.map((request) => [request.id, request]));
      const put = (some: readonly CaseRequest[]) =>
        queue.addBulk(
          some.map((data) => ({
            name: data.kind,
            data,
            opts: { jobId: data.id, removeOnComplete: { age: KEPT }, removeOnFail: { age: KEPT } },
          })),
        );
      const look = async (id: string) => {
        const request = outstanding.get(id);
        if (request === undefined) return;
        const state = await queue.getJobState(id);
        if (state === 'unknown') await put([request]);
        if (state !== 'completed' && state !== 'failed') return;
        const job = await queue.getJob(id);
        // Seen by two looks at once: the first one has it.
        if (job === undefined || signal.aborted || !outstanding.delete(id)) return;
        tell(request, state === 'completed' ? job.returnvalue : failedOutcome(`no outcome: ${job.failedReason}`));
        await job.remove();
      };
      const lookAtAll = async () => {
        for (const some of chunks([...outstanding.keys()])) {
          if (signal.aborted) return;
          await Promise.all(some.map(look));
        }
      };

      try {
        await new Promise<void>((resolve, reject) => {
          let timer: NodeJS.Timeout | undefined;
          const settle = (error?: unknown) => {
            clearTimeout(timer);
            if (error === undefined) resolve();
            else reject(error);
          };
          const endIfDone = () => {
            if (outstanding.size === 0 || signal.aborted) settle();
          };
          const hear = ({ jobId }: { jobId: string }) => look(jobId).then(endIfDone, settle);
          const again = async () => {
            const started = performance.now();
            await lookAtAll();
            const pause = Math.max(PAUSE, PAUSE_PER_LOOK * (performance.now() - started));
            timer = setTimeout(() => again().catch(settle), pause);
            endIfDone();
          };
          signal.addEventListener('abort', endIfDone, { once: true });
          events.on('completed', hear);
          events.on('failed', hear);
          events.run().catch(settle);
          begin().then(again).catch(settle);
        });
      } finally {
        await Promise.all([events.close(), queue.close()]);
      }

      async function begin() {
        for (const some of chunks(requests)) {
          if (signal.aborted) return;
          await put(some);
        }
        if ((await queue.getWorkersCount()) === 0)
          note(
            'no worker serves this queue yet: start, on any machine, lumenfront sweep --serve with the same --queue',
          );
      }
    },
  };
}

function chunks<Entry>(entries: readonly Entry[]): Entry[][] {
  return Array.from({ length: Math.ceil(entries.length / TOGETHER) }, (_, i) =>
    entries.slice(i * TOGETHER, (i + 1) * TOGETHER),
  );
}
