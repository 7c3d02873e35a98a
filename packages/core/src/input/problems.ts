import type { z } from 'zod/mini';
import { InputError, type InputProblem } from '../errors.js';
import { suggestionIn } from './nearest-name.js';
import { type BriefOrigin, type BriefPath, formatPath, formatReceived, parsePath, valueAt } from './place.js';

/** More than this many problems in one brief are not listed: it is not a brief. */
const mostProblems = 50;

/** Collects what is wrong with one brief, each with its place. */
export class ProblemList {
  readonly problems: InputProblem[] = [];
  readonly #data: unknown;
  readonly #origin: BriefOrigin;

  constructor(data: unknown, origin: BriefOrigin) {
    this.#data = data;
    this.#origin = origin;
  }

  /** `received` is taken from the brief unless it is given. */
  add(path: BriefPath, expected: string, remedy: string, received = formatReceived(valueAt(this.#data, path))): void {
    if (this.problems.length >= mostProblems) return;
    // Several checks of one value may fail alike: a word where a list is meant has no length either.
    const place = formatPath(path);
    if (this.problems.some((one) => one.path === place && one.expected === expected)) return;
    const line = this.#origin.lineOf?.(path);
    this.problems.push({
      path: place,
      expected,
      received,
      remedy,
      ...(this.#origin.file === undefined ? {} : { file: this.#origin.file }),
      ...(line === undefined ? {} : { line }),
    });
  }

  /** Whether the brief itself gives a value, and not a default. */
  isGiven(path: BriefPath): boolean {
    return valueAt(this.#data, path) !== undefined;
  }

  /** Text of a file that the brief names; `undefined`, with a problem added, where there is none. */
  textOf(file: string, path: BriefPath): string | undefined {
    const { textOf } = this.#origin;
    if (textOf === undefined) {
      this.add(
        path,
        'a file that was handed over with the brief',
        'hand over its text: textOf of the origin of the brief',
      );
      return undefined;
    }
    try {
      return textOf(file);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      for (const { expected, received, remedy } of error.problems) this.add(path, expected, remedy, received);
      return undefined;
    }
  }

  /** Takes over what code that knows no files has refused. */
  adopt({ problems }: InputError): void {
    for (const { path, expected, remedy, received } of problems) this.add(parsePath(path), expected, remedy, received);
  }

  /** A misspelled key is one mistake: that the right one is missing needs no telling. */
  #forgetMissing(parent: BriefPath, remedy: string): void {
    const near = suggestionIn(remedy);
    if (near === undefined) return;
    const place = formatPath([...parent, near]);
    const at = this.problems.findIndex((one) => one.path === place && one.received === formatReceived(undefined));
    if (at >= 0) this.problems.splice(at, 1);
  }

  /** Takes over the issues of the schema, whose messages are made by `expectation` in `field.ts`. */
  addIssues(issues: readonly z.core.$ZodIssue[], parent: BriefPath = []): void {
    for (const issue of issues) {
      if (this.problems.length >= mostProblems) return;
      const path = [...parent, ...(issue.path as (string | number)[])];
      const [expected, ...remedies] = issue.message.split('\n') as [string, ...string[]];
      if (issue.code === 'unrecognized_keys')
        issue.keys.slice(0, mostProblems).forEach((key, i) => {
          const remedy = remedies[i]!;
          this.add([...path, key], expected, remedy, `the unknown key ${formatReceived(key)}`);
          this.#forgetMissing(path, remedy);
        });
      else if (issue.code === 'invalid_key') {
        const [keyExpected, keyRemedy] = issue.issues[0]!.message.split('\n') as [string, string];
        this.add(path, keyExpected, keyRemedy, `the name ${formatReceived(path.at(-1))}`);
      } else if (issue.code === 'invalid_union' && likeliestBranch(issue.errors)) {
        this.addIssues(likeliestBranch(issue.errors)!, path);
      } else this.add(path, expected, remedies[0]!);
    }
  }
}

/** The branch of a union that was meant: of those whose kind of value fits, the one with the fewest issues. */
function likeliestBranch(branches: readonly (readonly z.core.$ZodIssue[])[]): readonly z.core.$ZodIssue[] | undefined {
  const weight = (issues: readonly z.core.$ZodIssue[]) =>
    issues.reduce((sum, issue) => sum + (issue.code === 'unrecognized_keys' ? issue.keys.length : 1), 0);
  const fits = (issues: readonly z.core.$ZodIssue[]) =>
    issues.every((issue) => issue.path.length > 0 || issue.code === 'unrecognized_keys');
  return branches.filter(fits).sort((a, b) => weight(a) - weight(b))[0];
}
