import { slopesCost } from '@lumenfront/core';
import { margin } from './outline-limits.js';
import { finerCost } from './refine.js';
import { type Refined, type RefinePlan, refinedOf } from './refined.js';
import type { PickedChannel } from './result.js';

/** Steps towards the allowed peak, each a secant along the multiplier of the area; slopes for each. */
const mostSteps = 10;
const slopes = 5;
const radius = 0.02;
/** Below what is allowed by no more than this share is near enough. */
const near = 1e-4;
/** Until a step goes too far, areas grow by this share, and by twice as much each time. */
const growth = 0.01;
/** Evaluations that this spends at most, of outlines of `values`. */
export const closingCost = (values: number): number =>
  mostSteps * ((slopes + 1) * (slopesCost(values) + 4) + finerCost);

/** A design with its figures as for a report. */
interface Reported {
  readonly design: Refined['design'];
  readonly picked: PickedChannel;
}

/**
 * The largest channel within an allowed peak, from the largest of a refined front that stays within it: areas grow, then follow the secant of the logarithm of the
 * reported peaks, each from the design that is nearer, until nothing is left between.
 */
export async function closeIn(
  found: readonly Refined[],
  allow: number,
  plan: RefinePlan,
  report: (design: Refined['design']) => PickedChannel,
): Promise<PickedChannel | undefined> {
  const bySize = [...found].sort((a, b) => b.size - a.size);
  const reported = ({ design }: Refined): Reported => ({ design, picked: report(design) });
  let within: Reported | undefined;
  for (const one of bySize.filter(({ cost }) => cost <= allow * (1 + 10 * near))) {
    within = reported(one);
    if (within.picked.peak <= allow) break;
    within = undefined;
  }
  if (within === undefined) return undefined;
  let beyond: Reported | undefined;
  let reach = growth;
  for (let step = 0; step < mostSteps && plan.goOn(); step++) {
    const { area, peak }: PickedChannel = within.picked;
    if (peak > allow * (1 - near)) break;
    // Other basins say nothing of how this one goes on: the first step that goes too far makes the other end of the secant.
    const wanted = Math.log((allow * (1 - near / 2)) / peak);
    const share = beyond === undefined ? 0 : wanted / Math.log(beyond.picked.peak / peak);
    const target: number = beyond === undefined ? (1 + reach) * area : area + share * (beyond.picked.area - area);
    const start: Reported = beyond !== undefined && share > 0.5 ? beyond : within;
    const most = (slopes + 1) * (slopesCost(start.design.values.length) + 4) + finerCost;
    if (plan.left() < most) break;
    const [result] = await plan.refine([
      {
        start: start.design,
        areas: [target / (1 + margin)],
        pieces: undefined,
        radius,
        slopes,
        slopesBeyond: 0,
        beside: [[]],
        most,
      },
    ]);
    plan.note(result!);
    const [one] = refinedOf(result!);
    if (one === undefined) {
      // Its limits were not met again within so few slopes.
      reach /= 4;
      continue;
    }
    const next = reported(one);
    if (next.picked.peak > allow) beyond = next;
    else {
      within = next;
      reach *= 2;
    }
  }
  return within.picked;
}
