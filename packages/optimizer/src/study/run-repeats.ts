import {
  type FrontDocument,
  type PickDocument,
  type RepeatsDocument,
  type ResolvedBrief,
  UnmetError,
} from '@lumenfront/core';
import { hypervolume } from '../front/index.js';
import { costOf, sizeOf } from './objective.js';
import { runFront } from './run-front.js';
import { runInTurn } from './run-in-turn.js';
import { runPick } from './run-pick.js';
import type { RunOptions } from './session.js';

/**
 * Searches the front of a brief so many times, with its seed and those that follow, to tell what chance does to it. The result
 * is the front of the brief's own seed (of the first that finds one), with the spread over all that do.
 *
 * @throws UnmetError if none of the seeds finds one
 */
export async function runRepeats(brief: ResolvedBrief, repeats: number, options: RunOptions): Promise<FrontDocument> {
  const fronts = await repeated(runFront, brief, repeats, options);
  const front = fronts[0]!;
  return { ...front, search: { ...front.search, repeats: spreadOf(fronts) } };
}

/**
 * The same of the largest channel within the allowed peak; the result is the largest of all.
 *
 * @throws UnmetError if none of the seeds finds one, of that which came closest
 */
export async function runPickRepeats(
  brief: ResolvedBrief,
  repeats: number,
  options: RunOptions,
): Promise<PickDocument> {
  const picks = await repeated(runPick, brief, repeats, options);
  const largest = picks.reduce((a, b) => (b.design.area > a.design.area ? b : a));
  const seeds = picks.map(({ search: { seed }, design: { area } }) => ({ seed, area }));
  return { ...largest, search: { ...largest.search, repeats: { seeds, ...middleOf(seeds.map(({ area }) => area)) } } };
}

/** Searches with one seed after the other. */
async function repeated<Result extends FrontDocument | PickDocument>(
  run: (brief: ResolvedBrief, options: RunOptions) => Promise<Result>,
  brief: ResolvedBrief,
  repeats: number,
  options: RunOptions,
): Promise<Result[]> {
  const { search } = brief;
  const briefs = Array.from({ length: repeats }, (_, k) => ({
    ...brief,
    search: { ...search, seed: search.seed + k },
  }));
  const results: Result[] = [];
  const unmet: { readonly seed: number; readonly error: UnmetError }[] = [];
  for (const { found, brief: one } of await runInTurn(run, briefs, options))
    if (found instanceof UnmetError) unmet.push({ seed: one.search.seed, error: found });
    else results.push(found);
  const missed = ({ error }: (typeof unmet)[number]) => error.leastPeak ?? Number.POSITIVE_INFINITY;
  if (results.length === 0) throw unmet.reduce((a, b) => (missed(b) < missed(a) ? b : a)).error;
  const told = unmet.map(({ seed, error }) => `the search with seed ${seed} found none: ${error.message}`);
  return results.map((result) => ({ ...result, cautions: [...result.cautions, ...told] }));
}

/** Fronts of one brief share its reference point; where it has none, the widest of theirs is taken. */
function spreadOf(fronts: readonly FrontDocument[]): RepeatsDocument {
  const cost = Math.max(...fronts.map(({ search }) => search.referencePoint[1]));
  const seeds = fronts.map(({ designs, search: { seed, objective } }) => ({
    seed,
    hypervolume: hypervolume(
      designs.map((design) => [-sizeOf(objective, design), costOf(objective, design)]),
      [0, cost],
    ),
  }));
  return { referencePoint: [0, cost], seeds, ...middleOf(seeds.map((one) => one.hypervolume)) };
}

function middleOf(values: readonly number[]): { least: number; median: number; most: number } {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  const median = (sorted[Math.floor(middle)]! + sorted[Math.ceil(middle)]!) / 2;
  return { least: sorted[0]!, median, most: sorted.at(-1)! };
}
