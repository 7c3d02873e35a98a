import { areaAgainstPeak, type PickDocument, type ResolvedBrief, UnmetError } from '@lumenfront/core';
import { pickLargest } from '../channel/index.js';
import { headerOf } from './header.js';
import { describeNearest } from './nearest.js';
import { type RunOptions, withSession } from './session.js';

/**
 * Searches the largest channel whose peak stays within what the brief allows.
 *
 * @throws UnmetError if there is none, with how closely it was missed
 */
export async function runPick(brief: ResolvedBrief, options: RunOptions): Promise<PickDocument> {
  const picking = { ...brief, search: { ...brief.search, objective: areaAgainstPeak } };
  return withSession(picking, options, async ({ reference, evaluator, search, design }) => {
    const found = await pickLargest(evaluator, { ...search, allow: brief.allow });
    if (found.best === undefined)
      throw found.nearest === undefined
        ? new UnmetError(describeLeastPeak(found.leastPeak, brief.allow), found.leastPeak)
        : new UnmetError(describeNearest(brief, found.nearest));
    return {
      ...headerOf('pick', brief, options.workplace),
      design: design(found.best),
      families: Object.fromEntries(
        Object.entries(found.families).flatMap(([name, member]) =>
          member === undefined ? [] : [[name, design(member)]],
        ),
      ),
      reference,
      allow: brief.allow,
      search: { seed: search.seed, evaluations: found.evaluations, runs: found.runs },
    };
  });
}

function describeLeastPeak(least: number, allow: number): string {
  const number = (value: number) => String(Number(value.toPrecision(4)));
  return (
    `no channel stays within the allowed peak of ${number(allow)} MPa: the least that was found is ${number(least)} MPa, ` +
    `${number(least - allow)} MPa (${number(100 * (least / allow - 1))} %) beyond; allow more (allow, --allow), lower the loads, ` +
    'or give channels more freedom (channel.families, channel.wall, channel.edgeRadius)'
  );
}
