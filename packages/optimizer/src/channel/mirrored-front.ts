import type { ChannelTask } from '@lumenfront/core';
import { randomFrom } from '../random.js';
import { createChannelEvaluator } from './evaluator.js';
import { knownTo, wideBudget } from './families-known.js';
import { mirrored } from './mirrored-task.js';
import { refineFront } from './refine-front.js';
import type { Refined, RefinePlan } from './refined.js';
import type { SearchOptions } from './result.js';
import { searchFamilies } from './search-families.js';
import { smallOutlines } from './small-outlines.js';

/** Share of what is left that goes to mirror-symmetric outlines. */
const share = 0.5;

/**
 * The refined front of mirror-symmetric outlines, of a task that asks for outlines of any kind: with half the values they are found and refined first, so that what is followed
 * afterwards is never worse than they are.
 */
export async function mirroredFront(task: ChannelTask, options: SearchOptions, plan: RefinePlan): Promise<Refined[]> {
  const kept = (1 - share) * plan.left();
  const left = () => plan.left() - kept;
  // Quick beside what is refined: this thread does it.
  const evaluator = createChannelEvaluator(mirrored(task));
  const all = await searchFamilies(evaluator, options, {
    evaluations: wideBudget(left()),
    onlyWide: true,
  });
  plan.note({ reached: [], stop: 'mirror-symmetric families searched', evaluations: all.spent() });
  if (!plan.goOn()) return [];
  const small = await smallOutlines(evaluator, all, randomFrom(options.seed).split('small outlines'), plan);
  const [known, beside] = [knownTo(all), small].map((found) =>
    found.map((one) => ({ ...one, start: { ...one.start, mirrored: true } })),
  );
  return refineFront(known!, beside!, { ...plan, left });
}
