import {
  areaAgainstPeak,
  type DesignDocument,
  type PickDocument,
  type ResolvedBrief,
  UnmetError,
} from '@lumenfront/core';
import { pickLargest } from '../channel/index.js';
import { headerOf } from './header.js';
import { describeNearest } from './nearest.js';
import { pickOfChoices } from './run-choices.js';
import { type RunOptions, withSession } from './session.js';
import { doubtsOf, isTrusted } from './trust.js';

/**
 * Searches the largest channel whose peak stays within what the brief allows, of all that the brief leaves open.
 *
 * @throws UnmetError if there is none, with how closely it was missed
 */
export async function runPick(brief: ResolvedBrief, options: RunOptions): Promise<PickDocument> {
  return brief.choices === undefined ? pickOfOne(brief, options) : pickOfChoices(brief, options, pickOfOne);
}

async function pickOfOne(brief: ResolvedBrief, options: RunOptions): Promise<PickDocument> {
  const picking = { ...brief, search: { ...brief.search, objective: areaAgainstPeak } };
  return withSession(picking, options, async ({ reference, evaluator, search, designs }) => {
    const found = await pickLargest(evaluator, { ...search, allow: brief.allow });
    if (found.best === undefined)
      throw found.nearest === undefined
        ? beyondAllowed(found.leastPeak, brief.allow)
        : new UnmetError(describeNearest(brief, found.nearest));
    const members = Object.entries(found.families).flatMap(([name, member]) =>
      member === undefined ? [] : [{ name, member }],
    );
    const [best, ...others] = await designs([found.best, ...members.map(({ member }) => member)]);
    const families = Object.fromEntries(members.map(({ name }, i) => [name, others[i]!]));
    const picked = isTrusted(best!) ? best : (largestTrusted(Object.values(families), brief.allow) ?? best!);
    const header = headerOf('pick', brief, options.workplace);
    return {
      ...header,
      cautions: [...header.cautions, ...doubtsOf(picked), ...(picked === best ? [] : [describeLeftOut(best!)])],
      design: picked,
      families,
      reference,
      allow: brief.allow,
      search: { seed: search.seed, evaluations: found.evaluations, runs: found.runs },
    };
  });
}

/** Of each family's largest, the largest whose figures count. */
function largestTrusted(designs: readonly DesignDocument[], allow: number): DesignDocument | undefined {
  return designs
    .filter((design) => isTrusted(design) && design.peak <= allow)
    .reduce<DesignDocument | undefined>(
      (best, one) => (best === undefined || one.area > best.area ? one : best),
      undefined,
    );
}

function describeLeftOut(design: DesignDocument): string {
  return `a channel of ${Number(design.area.toPrecision(4))} mm² was left out: around it the fast model is off by more than 1 %; ask for more channel.wall or channel.edgeRadius, or for a smaller channel`;
}

function beyondAllowed(least: number, allow: number): UnmetError {
  // A search that was stopped at once.
  if (!Number.isFinite(least)) return new UnmetError('no channel was judged');
  const number = (value: number) => String(Number(value.toPrecision(4)));
  return new UnmetError(
    `no channel stays within the allowed peak of ${number(allow)} MPa: the least that was found is ${number(least)} MPa, ` +
      `${number(least - allow)} MPa (${number(100 * (least / allow - 1))} %) beyond; allow more (allow, --allow), lower the loads, ` +
      'or give channels more freedom (channel.families, channel.wall, channel.edgeRadius)',
    least,
  );
}
