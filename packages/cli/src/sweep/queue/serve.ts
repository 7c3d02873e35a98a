import { type CaseOutcome, type CaseRequest, failedOutcome, identifyCase } from '@lumenfront/optimizer';
import type { CasePool } from '../pool.js';
import { loadQueueLibrary, type QueueAddress, queueConnection } from './connect.js';

/** A case that has taken so many workers with it is given up. */
const mostDeaths = 3;

export interface ServeOptions {
  readonly version: string;
  /** Seconds after which a worker that gave no sign is taken for dead, and its cases go to others. */
  readonly lease: number;
  readonly note: (text: string) => void;
  readonly onReady: () => void;
  readonly onDone: (outcome: CaseOutcome) => void;
  readonly signal: AbortSignal;
}

/**
 * Runs cases of a queue, as many at a time as the pool has workers, until the signal; then those that are running are finished.
 *
 * @throws InputError if there is no queue to serve
 */
export async function serveQueue(address: QueueAddress, pool: CasePool, options: ServeOptions): Promise<void> {
  const { version, lease, note, onReady, onDone, signal } = options;
  const { Worker } = await loadQueueLibrary();
  const { options: connection, ready } = queueConnection(address, note);
  const worker = new Worker<CaseRequest, CaseOutcome>(
    address.name,
    async ({ data }) => {
      const outcome = await performSound(data, pool, version);
      onDone(outcome);
      return outcome;
    },
    {
      connection,
      autorun: false,
      concurrency: pool.workers,
      lockDuration: lease * 1000,
      stalledInterval: lease * 1000,
      maxStalledCount: mostDeaths - 1,
    },
  );
  await ready(worker);
  try {
    const running = worker.run();
    onReady();
    await new Promise<void>((resolve) => {
      if (signal.aborted) resolve();
      signal.addEventListener('abort', () => resolve(), { once: true });
    });
    await worker.close();
    await running;
  } finally {
    await worker.close();
  }
}

/** What came through the queue is run only if it is what its name says. */
async function performSound(request: CaseRequest, pool: CasePool, version: string): Promise<CaseOutcome> {
  const { brief, kind, id } = request;
  if (identifyCase(brief, kind, version) !== id)
    return failedOutcome('the brief in the queue is not the one that was put there');
  return pool.perform(request);
}
