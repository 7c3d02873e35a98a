/** What a user did cannot be used; says where, what was expected, what was received and what to do. */
export interface InputProblem {
  /** `channel.wall`, or a file path where the whole file is meant. */
  readonly path: string;
  readonly expected: string;
  readonly received: string;
  readonly remedy: string;
  readonly file?: string;
  readonly line?: number;
}

/** One line per problem: `file:line: path: expected …, received …; remedy`. */
export function describeProblem(problem: InputProblem): string {
  const place =
    problem.file === undefined ? '' : `${problem.file}${problem.line === undefined ? '' : `:${problem.line}`}: `;
  return visible(
    `${place}${problem.path}: expected ${problem.expected}, received ${problem.received}; ${problem.remedy}`,
  );
}

/** Control characters, ends of lines and marks that turn the direction of writing. */
const unseen = /[\p{Cc}\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu;

/** Names and values come from files of others: what they hold must not steer the terminal that shows a message. */
const visible = (text: string): string =>
  text.replace(unseen, (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`);

/** Bad input (exit code 2 of the command). */
export class InputError extends Error {
  override readonly name = 'InputError';
  readonly problems: readonly InputProblem[];
  /** What may be used but is hardly meant, beside what cannot be used. */
  readonly cautions: readonly string[];

  constructor(problems: InputProblem | readonly InputProblem[], cautions: readonly string[] = []) {
    const list = Array.isArray(problems) ? (problems as readonly InputProblem[]) : [problems as InputProblem];
    super(list.map(describeProblem).join('\n'));
    this.problems = list;
    this.cautions = cautions;
  }
}

/** The brief is sound but cannot be met (exit code 1): says by which constraint and how closely. */
export class UnmetError extends Error {
  override readonly name = 'UnmetError';
  /** The least peak that was found where the allowed one is too low, MPa. */
  readonly leastPeak: number | undefined;

  constructor(message: string, leastPeak?: number) {
    super(message);
    this.leastPeak = leastPeak;
  }
}
