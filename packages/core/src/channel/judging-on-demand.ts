import { InputError } from '../errors.js';
import type { Judging } from './judging.js';

let loaded: Judging | undefined;

/** Stands for `judging.ts` where parts of a bundle come on demand: most fronts ask for neither strength nor flow. */
export function judging(): Judging {
  if (loaded === undefined)
    throw new InputError({
      path: 'task',
      expected: 'a task of area against stress, or what judges strength and flow',
      received: 'a task that asks for strength or flow, of which nothing is loaded',
      remedy: 'await loadTask(task) first, in every thread',
    });
  return loaded;
}

export const isJudgingLoaded = (): boolean => loaded !== undefined;

export async function loadJudging(): Promise<void> {
  loaded = (await import('./judging.js')).judging();
}
