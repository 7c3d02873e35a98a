import { type CaseOutcome, type CaseRequest, failedOutcome } from '@lumenfront/optimizer';
import { openThreads } from '../pool/index.js';

/** Somebody who runs cases, several at a time. */
export interface CasePool {
  readonly workers: number;
  /** Rejects only once the pool is closed: a worker that breaks down is the outcome of its case. */
  perform(request: CaseRequest): Promise<CaseOutcome>;
  /** Stops at once; cases that are running have no outcome. */
  close(): Promise<void>;
}

/** Workers run the built file, whether this one runs from `src` or from `dist`. */
const builtWorker = new URL('../../dist/sweep/worker.js', import.meta.url);

/**
 * A pool of worker threads, each with one case at a time. To be closed after use: it keeps the process alive.
 *
 * @param workerFile module whose default export takes a `CaseRequest` and gives a `CaseOutcome`
 * @throws whatever loading it throws: no worker could run a case then, and none may be taken for failed
 */
export async function createCasePool(workers: number, workerFile: URL = builtWorker): Promise<CasePool> {
  await import(workerFile.href);
  const threads = await openThreads<CaseRequest, CaseOutcome>({ workerFile, workers });
  let closed = false;
  return {
    workers,
    perform: async (request) => {
      try {
        return await threads.run(request);
      } catch (error) {
        if (closed) throw error;
        return failedOutcome(error);
      }
    },
    close: async () => {
      closed = true;
      await threads.close();
    },
  };
}
