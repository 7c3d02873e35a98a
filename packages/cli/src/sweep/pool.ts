import { type CaseOutcome, type CaseRequest, failedOutcome } from '@lumenfront/optimizer';

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
 */
export async function createCasePool(workers: number, workerFile: URL = builtWorker): Promise<CasePool> {
  const { Piscina } = await import('piscina');
  const pool = new Piscina<CaseRequest, CaseOutcome>({
    filename: workerFile.href,
    minThreads: workers,
    maxThreads: workers,
    concurrentTasksPerWorker: 1,
  });
  let closed = false;
  return {
    workers,
    perform: async (request) => {
      try {
        return await pool.run(request);
      } catch (error) {
        if (closed) throw error;
        return failedOutcome(error);
      }
    },
    close: async () => {
      closed = true;
      await pool.destroy();
    },
  };
}
