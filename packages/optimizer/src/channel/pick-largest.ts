import {
  areaAgainstPeak,
  type ChannelTask,
  channelRoom,
  createChannelReporter,
  curvatureFamily,
  curvatureParameters,
  InputError,
  type OutlineData,
  outlineOf,
  type SearchRun,
} from '@lumenfront/core';
import { checkedEvaluator } from './checked-evaluator.js';
import { closeIn, closingCost } from './close-in.js';
import type { ChannelEvaluator } from './evaluator.js';
import { wideBudget } from './families-known.js';
import type { DescentStart, FamilySearch, Owned } from './family-search.js';
import { costOf, foundChannel, sizeOf } from './family-space.js';
import { isRefined, nearestOf, refinedFrom, refinePlan } from './find-front.js';
import { followFront } from './follow-front.js';
import { mostValues } from './refined.js';
import { type ChannelPick, type PickedChannel, type SearchOptions, type SearchStop, searchStop } from './result.js';
import { type FamilySearches, searchFamilies } from './search-families.js';

/** Share of the budget that looks at the whole front before the descents aim at the allowed peak. */
const frontShare = 0.5;
/** A search's peaks and a report's, with twice the nodes, differ a little: descents aim so much below what is allowed. */
const aimBelow = 0.002;
/** Descents of one round, and the rounds' first radii of trust. */
const starts = 6;
const radii = [0.05, 0.03, 0.02, 0.02, 0.01] as const;
const slopes = 12;

/**
 * Searches the largest channel whose peak stays within `allow`, MPa: first the front, then descents towards the largest area at
 * that peak from the designs nearest to it, the family that holds the lead last and with what is left of the budget.
 *
 * What it gives was evaluated again as for a report, and stays within `allow` there. Never smaller than what the front has.
 *
 * @throws InputError for a task that trades anything else than area against the peak
 */
export async function pickLargest(
  given: ChannelEvaluator,
  options: SearchOptions & { readonly allow: number },
): Promise<ChannelPick> {
  const { allow, evaluations } = options;
  const evaluator = checkedEvaluator(given);
  const { task } = evaluator;
  refuseOtherObjective(task);
  if (isRefined(task, evaluations - closingCost(mostValues))) return pickRefined(evaluator, options);
  const all = await searchFamilies(evaluator, options, { evaluations: Math.floor(frontShare * evaluations) });
  const peak = allow * (1 - aimBelow);
  const byLead = [...all.searches].sort((a, b) => leadOf(a, allow) - leadOf(b, allow));
  let goingOn = all.goOn();
  for (const [i, search] of byLead.entries()) {
    const share = Math.floor((evaluations - all.spent()) / (i === byLead.length - 1 ? 1 : 2 * (byLead.length - i)));
    const begun = search.evaluations;
    for (const radius of radii) {
      const left = share - (search.evaluations - begun);
      if (left <= 0 || !goingOn) break;
      await search.descend(startsAt(search, allow, peak), { radius, slopes, most: left }, all.acceptor(search));
      goingOn = all.goOn();
    }
  }

  return pickOf(all, verifiedFamilies(all, task, allow), [], [], searchStop(options));
}

/** From the refined front: around the allowed peak it is followed, then the area closes in on it. */
async function pickRefined(
  evaluator: ChannelEvaluator,
  options: SearchOptions & { readonly allow: number },
): Promise<ChannelPick> {
  const { allow, evaluations } = options;
  const { task } = evaluator;
  const all = await searchFamilies(evaluator, options, { evaluations: wideBudget(evaluations), onlyWide: true });
  const runs: SearchRun[] = [];
  const plan = refinePlan(all, evaluator, options, runs);
  const reserved = { ...plan, left: () => plan.left() - closingCost(mostValues) };
  const { found } = await followFront(await refinedFrom(all, evaluator, options, reserved), reserved, allow);
  const families = verifiedFamilies(all, task, allow);
  const report = createChannelReporter(task);
  const room = channelRoom(task);
  const closed = await closeIn(found, allow, plan, (design) => {
    const outline = { family: curvatureFamily, parameters: curvatureParameters(design) };
    const { area, peak } = report(outlineOf(outline, room)).design;
    return { ...outline, area, peak };
  });
  const free = families[curvatureFamily];
  if (closed !== undefined && !(free !== undefined && free.area > closed.area)) families[curvatureFamily] = closed;
  return pickOf(
    all,
    families,
    runs,
    found.map(({ cost }) => cost),
    searchStop(options),
  );
}

type Families = Record<string, PickedChannel | undefined>;

/** Each family's largest within what is allowed, as a report sees it. */
function verifiedFamilies(all: FamilySearches, task: ChannelTask, allow: number): Families {
  const verify = verifier(task, allow);
  return Object.fromEntries(
    all.searches.map((search) => {
      const members = search.front.front().map((found): Owned => ({ ...found, owner: search }));
      return [search.family.name, verify(members)];
    }),
  );
}

function pickOf(
  all: FamilySearches,
  families: Families,
  runs: readonly SearchRun[],
  costs: readonly number[],
  stop: SearchStop,
): ChannelPick {
  const found = Object.values(families).filter((one) => one !== undefined);
  const best = found.length === 0 ? undefined : found.reduce((a, b) => (b.area > a.area ? b : a));
  return {
    best,
    families,
    stop,
    evaluations: all.spent() + runs.reduce((sum, { evaluations }) => sum + evaluations, 0),
    runs: [...all.searches.flatMap((search) => search.runs), ...runs],
    nearest: best === undefined && all.common.front().length === 0 ? nearestOf(all.searches) : undefined,
    leastPeak: Math.min(...all.common.front().map(costOf), ...costs),
  };
}

function refuseOtherObjective({ objective: { size, cost } }: ChannelTask): void {
  if (size === areaAgainstPeak.size && cost === areaAgainstPeak.cost) return;
  throw new InputError({
    path: 'search.objective',
    expected: 'area against the peak, which is all that a pick is about',
    received: `${size} against ${typeof cost === 'string' ? cost : cost.name}`,
    remedy: 'make its task with areaAgainstPeak as the objective',
  });
}

/** Largest area within the allowed peak that a family has found so far. */
function leadOf({ front }: FamilySearch, allow: number): number {
  return Math.max(
    0,
    ...front
      .front()
      .filter((found) => costOf(found) <= allow)
      .map(sizeOf),
  );
}

/** The designs on both sides of the allowed peak, nearest first. */
function startsAt({ front }: FamilySearch, allow: number, peak: number): DescentStart[] {
  return [...front.front()]
    .sort((a, b) => Math.abs(costOf(a) - allow) - Math.abs(costOf(b) - allow))
    .slice(0, starts)
    .map((from) => ({ from, goal: { cost: peak } }));
}

/** Finds the largest of a family's designs whose peak is allowed when it is evaluated as for a report. */
function verifier(task: ChannelTask, allow: number): (members: readonly Owned[]) => PickedChannel | undefined {
  const report = createChannelReporter(task);
  const room = channelRoom(task);
  return (members) => {
    const candidates = members
      .filter((found) => costOf(found) <= allow * (1 + aimBelow))
      .sort((a, b) => sizeOf(b) - sizeOf(a));
    for (const found of candidates) {
      const { family, parameters } = foundChannel(found.owner.family, found);
      const { design } = report(outlineOf({ family, parameters } satisfies OutlineData, room));
      if (design.peak <= allow) return { family, parameters, area: design.area, peak: design.peak };
    }
    return undefined;
  };
}
