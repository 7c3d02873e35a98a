import { InputError } from '@lumenfront/core';
import { type CaseOutcome, type CaseRequest, failedOutcome, type SweepCase } from '@lumenfront/optimizer';
import { makeFolder } from '../files/index.js';
import type { CaseEngine } from './engine.js';
import { type CaseFigures, figuresOf } from './figures.js';
import { lockFolder } from './lock.js';
import { openResults, recordOf, resultsFile, type Shard } from './results.js';

export interface SweepRequest {
  readonly cases: readonly SweepCase[];
  /** Of the results; made if there is none. */
  readonly folder: string;
  readonly version: string;
  readonly shard?: Shard;
  /** Run cases again that failed before. */
  readonly retry: boolean;
  readonly engine: CaseEngine;
  readonly signal: AbortSignal;
  /** Told how many cases are missing, before the first of them is run. */
  readonly onStart?: (total: number) => Promise<void>;
  /** Told after each. */
  readonly onProgress?: (done: number, failed: number, unmet: number) => void;
}

export interface SweepEnd {
  /** One per case that was asked for, in their order; of a sweep that was stopped only those that have one. */
  readonly figures: readonly CaseFigures[];
  /** How many of them this run made. */
  readonly computed: number;
  /** Whether all have one. */
  readonly complete: boolean;
}

/**
 * Runs the cases that the folder holds no result of, and appends each result to it as soon as there is one. May be killed at any
 * moment: called again, it goes on with what is missing.
 *
 * @throws InputError if the folder is taken, foreign or cannot be written
 */
export async function runSweep(request: SweepRequest): Promise<SweepEnd> {
  const { folder, version, shard, retry, engine, signal } = request;
  makeFolder(folder);
  const file = resultsFile(shard);
  const release = lockFolder(folder, file, { shared: shard !== undefined });
  try {
    const results = openResults(folder, file, { forgetFailed: retry });
    try {
      const cases = partOf(request.cases, shard);
      const missing = new Map<string, SweepCase>();
      for (const one of cases) {
        if (results.status(one.id) === undefined) missing.set(one.id, one);
        else results.adopt(one.id);
      }
      let done = 0;
      let failed = 0;
      let unmet = 0;
      const tell = (id: string, outcome: CaseOutcome) => {
        results.append(recordOf(missing.get(id)!, outcome, version));
        missing.delete(id);
        done++;
        if (outcome.status === 'failed') failed++;
        if (outcome.status === 'unmet') unmet++;
        request.onProgress?.(done, failed, unmet);
      };
      await request.onStart?.(missing.size);
      const requests: CaseRequest[] = [];
      for (const { id, kind, brief } of [...missing.values()]) {
        if (brief instanceof InputError) tell(id, failedOutcome(brief));
        else requests.push({ id, kind, brief });
      }
      await engine.run(requests, ({ id }, outcome) => tell(id, outcome), signal);
      const figures = cases
        .filter(({ id }) => results.status(id) !== undefined)
        .map(({ id, vary }) => figuresOf(vary, results.read(id)));
      return { figures, computed: done, complete: missing.size === 0 };
    } finally {
      results.close();
    }
  } finally {
    release();
  }
}

/** Every `count`th of the cases that differ, so that each part has easy and hard ones. Together the parts are the whole. */
function partOf(cases: readonly SweepCase[], shard: Shard | undefined): readonly SweepCase[] {
  if (shard === undefined) return cases;
  const ids = [...new Set(cases.map(({ id }) => id))];
  const part = new Set(ids.filter((_, i) => i % shard.count === shard.number - 1));
  return cases.filter(({ id }) => part.has(id));
}
