import type { CaseOutcome, CaseRequest } from '@lumenfront/optimizer';
import type { CasePool } from './pool.js';

/** Runs cases somewhere, in any order. */
export interface CaseEngine {
  /**
   * Resolves when every case has had its outcome told, or soon after the signal; what `tell` throws ends it.
   *
   * @param tell puts an outcome into safety before it returns
   */
  run(
    requests: readonly CaseRequest[],
    tell: (request: CaseRequest, outcome: CaseOutcome) => void,
    signal: AbortSignal,
  ): Promise<void>;
}

/** Runs cases on this machine. Each worker has one case; the others wait here, where they take no room in a queue. */
export function createLocalEngine(openPool: () => Promise<CasePool>): CaseEngine {
  return {
    run: async (requests, tell, signal) => {
      if (requests.length === 0) return;
      const pool = await openPool();
      const stop = () => void pool.close();
      signal.addEventListener('abort', stop, { once: true });
      const waiting = requests.values();
      const keepBusy = async () => {
        for (const request of waiting) {
          const outcome = signal.aborted ? undefined : await pool.perform(request).catch(orAborted(signal));
          if (outcome === undefined) return;
          tell(request, outcome);
        }
      };
      try {
        await Promise.all(Array.from({ length: pool.workers }, keepBusy));
      } finally {
        signal.removeEventListener('abort', stop);
        await pool.close();
      }
    },
  };
}

const orAborted =
  (signal: AbortSignal) =>
  (error: unknown): undefined => {
    if (!signal.aborted) throw error;
  };
