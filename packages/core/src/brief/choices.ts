import { InputError, type InputProblem } from '../errors.js';
import {
  type BriefOrigin,
  type BriefPath,
  formatReceived,
  overlaps,
  ProblemList,
  readPath,
  withValue,
  writePath,
} from '../input/index.js';
import type { BriefChoice, ChoiceValues, ResolvedBrief } from './resolved.js';
import { mostChoices } from './section/choices.js';

/** Sections that hold what a front can choose; loads, cases and strengths are what it is judged by. */
const chosenFrom = ['host', 'channel', 'channels'];

/** One combination of the values that a brief leaves open. */
export interface OpenChoice {
  readonly values: ChoiceValues;
  readonly data: unknown;
}

/**
 * Every combination of a brief's `choices`, the last path fastest, each with the data of a brief of its own.
 *
 * @param data of a brief whose section `choices` keeps its schema
 * @throws InputError for paths that lead nowhere, into each other or out of what can be chosen, and for too many combinations
 */
export function openChoices(data: object, choices: Readonly<Record<string, readonly unknown[]>>, origin: BriefOrigin) {
  const problems = new ProblemList(data, origin);
  const { choices: _choices, ...rest } = data as { choices?: unknown };
  const open = Object.entries(choices).flatMap(([written, values]) =>
    pathOf(written, problems).map((path) => ({ path, written, values })),
  );
  open.forEach(({ path, written, values }, i) => {
    if (open.slice(0, i).some((other) => overlaps(path, other.path)))
      problems.add(['choices'], 'paths of which none lies within another', 'keep one of them', writePath(path));
    if (new Set(values.map((value) => JSON.stringify(value))).size < values.length)
      problems.add(['choices', written], 'each value once', 'remove the repeated one');
  });
  let combinations: OpenChoice[] = [{ values: {}, data: rest }];
  for (const { path, values } of open) {
    const name = writePath(path);
    combinations = combinations.flatMap((one) =>
      values.map((value) => ({ values: { ...one.values, [name]: value }, data: withValue(one.data, path, value) })),
    );
    if (combinations.length > mostChoices) break;
  }
  if (combinations.length > mostChoices)
    problems.add(
      ['choices'],
      `at most ${mostChoices} combinations`,
      'give fewer values, or search for some of them by themselves',
      'more',
    );
  if (open.length === 0 && problems.problems.length === 0)
    problems.add(['choices'], 'at least one path with its values', 'leave choices out, or name what is open');
  if (problems.problems.length > 0) throw new InputError(problems.problems);
  return combinations;
}

/** None, with a problem added, where it is no path of what can be chosen. */
function pathOf(written: string, problems: ProblemList): BriefPath[] {
  try {
    const { path, rest } = readPath(written, 'choices');
    if (rest === '' && path.length > 1 && chosenFrom.includes(String(path[0]))) return [path];
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
  }
  problems.add(
    ['choices', written],
    `the path of a key of ${chosenFrom.join(', ')}`,
    'write, for example, channels.number, channels.pitch or host.pocket.above',
    JSON.stringify(written.slice(0, 60)),
  );
  return [];
}

/** The origin of a combination: what was chosen stands in the section `choices`. */
export function originOf(origin: BriefOrigin, { values }: OpenChoice): BriefOrigin {
  const { lineOf } = origin;
  if (lineOf === undefined) return origin;
  const chosen = Object.keys(values).map((name) => ({ name, path: readPath(name, 'choices').path }));
  return {
    ...origin,
    lineOf(path) {
      const found = chosen.find((one) => one.path.every((step, i) => path[i] === step));
      return lineOf(found === undefined ? path : ['choices', found.name]);
    },
  };
}

/** `channels.number 2, host.pocket.above 4`. */
export function choiceText(values: ChoiceValues): string {
  return Object.entries(values)
    .map(([path, value]) => `${path} ${valueText(value)}`)
    .join(', ');
}

/** A chosen value in a few characters. */
export function valueText(value: unknown): string {
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') return String(value);
  const text = JSON.stringify(value, null, 1)
    .replace(/\s+/g, ' ')
    .replace(/([[{]) | ([\]}])/g, '$1$2');
  return text.length > 40 ? formatReceived(value) : text;
}

/** What is wrong with combinations, each problem once; one that not all have says whose it is. */
export function problemsOfChoices(
  failed: readonly { readonly values: ChoiceValues; readonly error: InputError }[],
  count: number,
): InputError {
  const found = new Map<string, { readonly problem: InputProblem; readonly of: ChoiceValues[] }>();
  for (const { values, error } of failed)
    for (const problem of error.problems) {
      const key = JSON.stringify(problem);
      const known = found.get(key);
      if (known === undefined) found.set(key, { problem, of: [values] });
      else known.of.push(values);
    }
  return new InputError(
    [...found.values()].map(({ problem, of }) =>
      of.length === count ? problem : { ...problem, received: `${problem.received}, with ${choiceText(of[0]!)}` },
    ),
    cautionsOfChoices(failed.map(({ values, error }) => ({ values, cautions: error.cautions }))),
  );
}

/** Cautions of several choices, each once; one that not all have says whose it is. */
export function cautionsOfChoices(
  told: readonly { readonly values: ChoiceValues; readonly cautions: readonly string[] }[],
): string[] {
  const isShared = (text: string) => told.every(({ cautions }) => cautions.includes(text));
  return [
    ...new Set(
      told.flatMap(({ values, cautions }) =>
        cautions.map((text) => (isShared(text) ? text : `${choiceText(values)}: ${text}`)),
      ),
    ),
  ];
}

/**
 * The brief of the first combination, with all of them.
 *
 * @throws InputError where they differ in what all are judged by
 */
export function briefOfChoices(choices: readonly BriefChoice[], origin: BriefOrigin): ResolvedBrief {
  const first = choices[0]!.brief;
  const refuse = (path: string, expected: string, received: string, remedy: string) => {
    const file = origin.file === undefined ? {} : { file: origin.file };
    throw new InputError({ path, expected, received, remedy, ...file });
  };
  for (const { brief, values } of choices) {
    if (brief.allow !== first.allow)
      refuse(
        'allow',
        'one allowed peak for all choices',
        `${first.allow} and ${brief.allow} MPa, the strengths of their materials, with ${choiceText(values)}`,
        'give allow',
      );
    if ((brief.channel.row === undefined) !== (first.channel.row === undefined))
      refuse(
        'choices',
        'rows only, or no row: the channels of a row are counted in a metre of width',
        choiceText(values),
        'search for the row by itself, with its pitches as the choice (channels.pitch)',
      );
  }
  const cautions = cautionsOfChoices(choices.map(({ brief, values }) => ({ values, cautions: brief.cautions })));
  return { ...first, cautions, choices };
}

/** The brief of one combination, searched and allowed as that of all is. */
export function briefOfChoice({ search, allow }: ResolvedBrief, { brief }: BriefChoice): ResolvedBrief {
  return { ...brief, search, allow };
}

/** The combination of given values; `undefined` where there is none. */
export function findChoice({ choices = [] }: ResolvedBrief, values: ChoiceValues): BriefChoice | undefined {
  const key = keyOf(values);
  return choices.find((one) => keyOf(one.values) === key);
}

/** Equal for equal values, in whatever order they are given. */
const keyOf = (values: ChoiceValues): string =>
  JSON.stringify(Object.entries(values).sort(([a], [b]) => (a < b ? -1 : 1)));
