import { isJudgingLoaded, loadJudging } from '#judging';
import { isHostLoaded, loadHost } from '../host/index.js';
import { asksForStrength, type ChannelTask } from './task.js';

/** What of a task says which parts it needs. */
export type LoadedTask = Pick<ChannelTask, 'joint' | 'objective' | 'strength'>;

const needsJudging = (task: LoadedTask): boolean => asksForStrength(task) || task.objective.size === 'conductance';

/**
 * Loads what a task asks for where parts of a bundle come on demand (see `loadHost`): its kind of host and, where it asks for strength or flow, what judges them. Evaluators do it
 * themselves; who makes a scorer, a profiler or a reporter of a task that another thread has made does before anything else: `await loadTask(task)`. Does
 * nothing elsewhere.
 */
export async function loadTask(task: LoadedTask): Promise<void> {
  await Promise.all([loadHost(task.joint), needsJudging(task) && loadJudging()]);
}

/** Whether there is nothing to load for a task. */
export const isTaskLoaded = (task: LoadedTask): boolean =>
  isHostLoaded(task.joint) && (!needsJudging(task) || isJudgingLoaded());
