import {
  type BriefChoice,
  briefOfChoice,
  type ChannelObjective,
  type ComparedChoice,
  cautionsOfChoices,
  choiceText,
  type DesignDocument,
  type FrontDocument,
  hostOf,
  type PickDocument,
  type ResolvedBrief,
  UnmetError,
} from '@lumenfront/core';
import { bestBySize, hypervolume } from '../front/index.js';
import { headerOf } from './header.js';
import { costOf, meets, sizeOf } from './objective.js';
import type { RunOptions } from './session.js';

/** What one combination of a brief's choices gave; `unmet`: why there is no result. */
interface Outcome<Result> {
  readonly choice: BriefChoice;
  readonly result: Result | undefined;
  readonly unmet: UnmetError | undefined;
}

/**
 * Runs one search for every combination that a brief leaves open, in its order, with the same seed and as many evaluations each, their progress as that of one.
 * Called off, it gives those that have begun.
 *
 * @throws UnmetError where none of them finds a channel
 */
async function overChoices<Result extends FrontDocument | PickDocument>(
  brief: ResolvedBrief,
  options: RunOptions,
  run: (brief: ResolvedBrief, options: RunOptions) => Promise<Result>,
): Promise<readonly Outcome<Result>[]> {
  const { choices = [] } = brief;
  const outcomes: Outcome<Result>[] = [];
  let before = 0;
  let designs = 0;
  for (const choice of choices) {
    const { onProgress } = options;
    options.workplace.note(`choice ${outcomes.length + 1} of ${choices.length}: ${choiceText(choice.values)}`);
    let now = { evaluations: 0, designs: 0 };
    try {
      const result = await run(briefOfChoice(brief, choice), {
        ...options,
        onProgress(progress) {
          now = progress;
          onProgress?.({ evaluations: before + now.evaluations, designs: designs + now.designs });
        },
      });
      outcomes.push({ choice, result, unmet: undefined });
    } catch (error) {
      if (!(error instanceof UnmetError)) throw error;
      outcomes.push({ choice, result: undefined, unmet: error });
    }
    before += now.evaluations;
    designs += now.designs;
    if (options.signal?.aborted) break;
  }
  if (outcomes.every(({ result }) => result === undefined))
    throw new UnmetError(
      `no choice can be met: ${outcomes.map(({ choice, unmet }) => `${choiceText(choice.values)}: ${unmet!.message}`).join('; ')}`,
      Math.min(...outcomes.map(({ unmet }) => unmet!.leastPeak ?? Number.POSITIVE_INFINITY)),
    );
  return outcomes;
}

/**
 * One front over all that a brief leaves open, each design with its choice, and the choices side by side. Of equal channels the first choice's stays.
 *
 * @throws UnmetError where no choice has a channel
 */
export async function frontOfChoices(
  brief: ResolvedBrief,
  options: RunOptions,
  run: (brief: ResolvedBrief, options: RunOptions) => Promise<FrontDocument>,
): Promise<FrontDocument> {
  const outcomes = await overChoices(brief, options, run);
  const { objective } = brief.search;
  const found = outcomes.flatMap(({ choice, result }) =>
    result === undefined ? [] : [{ front: result, choose: chosen(choice), values: choice.values }],
  );
  const best = (designs: readonly DesignDocument[]) =>
    bestBySize(
      designs,
      (one) => sizeOf(objective, one),
      (one) => costOf(objective, one),
    );
  const designs = best(found.flatMap(({ front, choose }) => front.designs.map(choose)));
  const names = [...new Set(found.flatMap(({ front }) => Object.keys(front.families)))];
  const first = found[0]!;
  const { referencePoint } = first.front.search;
  const points = designs.map((one) => [-sizeOf(objective, one), costOf(objective, one)]);
  return {
    ...headerOf('front', brief, options.workplace),
    cautions: [
      ...cautionsOfChoices(found.map(({ front, values }) => ({ values, cautions: front.cautions }))),
      ...unmetCautions(outcomes),
    ],
    designs,
    families: Object.fromEntries(
      names.map((name) => [name, best(found.flatMap(({ front, choose }) => (front.families[name] ?? []).map(choose)))]),
    ),
    reference: first.choose(first.front.reference),
    choices: outcomes.map((outcome) => comparedWith(outcome, designs, brief)),
    allow: brief.allow,
    search: {
      seed: brief.search.seed,
      evaluations: found.reduce((sum, { front }) => sum + front.search.evaluations, 0),
      objective,
      hypervolume: hypervolume(points, [-referencePoint[0], referencePoint[1]]),
      referencePoint,
      runs: found.flatMap(({ front }) => front.search.runs),
    },
  };
}

const chosen =
  ({ values }: BriefChoice) =>
  ({ family, parameters, ...rest }: DesignDocument): DesignDocument => ({
    family,
    parameters,
    choice: values,
    ...rest,
  });

const unmetCautions = (outcomes: readonly Outcome<unknown>[]): string[] =>
  outcomes.flatMap(({ choice, unmet }) =>
    unmet === undefined ? [] : [`${choiceText(choice.values)}: ${unmet.message}`],
  );

/** What a choice gave, beside the front of all. */
function comparedWith(
  { choice: { values, brief }, result, unmet }: Outcome<FrontDocument>,
  front: readonly DesignDocument[],
  { allow, search: { objective } }: ResolvedBrief,
): ComparedChoice {
  const own = result?.designs ?? [];
  const places = new Map(front.flatMap((one, i) => (one.choice === values ? [[nameOf(one), i + 1] as const] : [])));
  const told = (design: DesignDocument) => {
    const number = places.get(nameOf(design));
    return {
      ...figuresOf(design, hostOf(brief.joint).judgesSection),
      ...(number === undefined ? {} : { design: number }),
    };
  };
  // Both ends of a front: sizes grow along it, and costs.
  const largest = own.findLast((one) => meets(one, allow, objective));
  const leastCost = own[0];
  return {
    choice: values,
    designs: places.size,
    ...(largest === undefined ? {} : { largest: told(largest) }),
    ...(leastCost === undefined ? {} : { leastCost: told(leastCost) }),
    ...(own.length === 0 ? {} : { front: own.map(told) }),
    evaluations: result?.search.evaluations ?? 0,
    ...(unmet === undefined ? {} : { unmet: unmet.message }),
  };
}

const nameOf = ({ family, parameters }: DesignDocument): string => JSON.stringify([family, parameters]);

function figuresOf(design: DesignDocument, judged: boolean): Omit<NonNullable<ComparedChoice['largest']>, 'design'> {
  const { peak, strength } = design;
  const size = (of: ChannelObjective['size']) => sizeOf({ size: of, cost: 'peak' }, design);
  return {
    ...{ area: size('area'), conductance: size('conductance'), peak },
    ...(judged && strength !== undefined ? { loadFactor: strength.loadFactor, retained: strength.retained } : {}),
  };
}

/**
 * The largest channel within the allowed peak, of all that a brief leaves open.
 *
 * @throws UnmetError where no choice has one
 */
export async function pickOfChoices(
  brief: ResolvedBrief,
  options: RunOptions,
  run: (brief: ResolvedBrief, options: RunOptions) => Promise<PickDocument>,
): Promise<PickDocument> {
  const outcomes = await overChoices(brief, options, run);
  const found = outcomes.flatMap(({ choice, result }) => (result === undefined ? [] : [{ choice, result }]));
  const area = ({ result: { design } }: (typeof found)[0]) => sizeOf({ size: 'area', cost: 'peak' }, design);
  const largest = found.reduce((a, b) => (area(b) > area(a) ? b : a));
  const choose = chosen(largest.choice);
  const { result } = largest;
  return {
    ...result,
    ...headerOf('pick', brief, options.workplace),
    cautions: [...result.cautions, ...unmetCautions(outcomes)],
    design: choose(result.design),
    families: Object.fromEntries(Object.entries(result.families).map(([name, one]) => [name, choose(one)])),
    reference: choose(result.reference),
    search: {
      ...result.search,
      evaluations: found.reduce((sum, one) => sum + one.result.search.evaluations, 0),
      runs: found.flatMap((one) => one.result.search.runs),
    },
  };
}
