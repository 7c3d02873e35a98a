import type { Workplace } from '@lumenfront/optimizer';
import { createMeshing, createScoring } from './pool/index.js';
import { prepareTask } from './prepare/index.js';
import { readVersion } from './version.js';

/** A mesh takes some 100 MB, ten times a scoring worker: half the threads keep a run small, and four are soon done. */
const mostMeshing = 4;

/**
 * This machine: reduced models are kept on its disk, and so many threads evaluate.
 *
 * @param note is told what is worth knowing on the way
 * @param ahead of a search for a front, see `createScoring`
 */
export function openWorkplace(workers: number, note: (text: string) => void, ahead?: { idle: number }): Workplace {
  return {
    prepare: (brief) => prepareTask(brief, note),
    evaluate: (task) => createScoring(task, workers, ahead),
    mesh: (host, channels) => createMeshing(host, Math.min(Math.floor(workers / 2), mostMeshing, channels)),
    note,
    versions: { lumenfront: readVersion(), node: process.versions.node },
  };
}
