import { describeProblem, InputError, nearestName, UnmetError } from '@lumenfront/core';
import { CommanderError } from 'commander';
import { exitCodes } from './exit-codes.js';

/** The fast model and the independent mesh differ by more than they may. */
export class DisagreementError extends Error {
  override readonly name = 'DisagreementError';
}

/** A search was asked to end before its time. */
export class StoppedError extends Error {
  override readonly name = 'StoppedError';
}

/**
 * What failed, for standard error, and the exit code. With `--json` one JSON document,
 * `{ error: { kind, exitCode, message, problems, cautions } }`, `problems` with path, expected, received, remedy, file and line each, `cautions`
 * about what is hardly meant beside them.
 *
 * @param thrown anything
 * @param names of the commands there are
 */
export function describeFailure(
  thrown: unknown,
  argv: readonly string[],
  names: readonly string[],
): { readonly text: string; readonly exitCode: number } {
  const error = asInputError(thrown, argv, names);
  const { kind, exitCode, message } = classify(error);
  const { problems, cautions } = error instanceof InputError ? error : { problems: [], cautions: [] };
  if (argv.includes('--json'))
    return {
      text: `${JSON.stringify({ error: { kind, exitCode, message, problems, cautions } }, null, 2)}\n`,
      exitCode,
    };
  const notes = argv.includes('--quiet') ? [] : cautions.map((caution) => `note: ${caution}`);
  return { text: `${[message, ...notes].join('\n')}\n`, exitCode };
}

function classify(error: unknown): { kind: string; exitCode: number; message: string } {
  if (error instanceof InputError) {
    const message = error.problems.map(describeProblem).join('\n');
    return { kind: 'bad input', exitCode: exitCodes.badInput, message };
  }
  if (error instanceof UnmetError)
    return { kind: 'cannot be met', exitCode: exitCodes.unmet, message: `cannot be met: ${error.message}` };
  if (error instanceof DisagreementError)
    return { kind: 'disagreement', exitCode: exitCodes.disagreement, message: error.message };
  if (error instanceof StoppedError) return { kind: 'stopped', exitCode: exitCodes.stopped, message: error.message };
  const trace = error instanceof Error ? (error.stack ?? error.message) : String(error);
  const message = `internal error, a fault of this program and not of your input; please report it with your brief:\n${trace}`;
  return { kind: 'internal error', exitCode: exitCodes.internal, message };
}

/** Mistakes in the command line, in the form of all other mistakes. */
function asInputError(error: unknown, argv: readonly string[], names: readonly string[]): unknown {
  if (!(error instanceof CommanderError)) return error;
  const named = names.includes(argv[0] ?? '') ? ` ${argv[0]}` : '';
  // `help nonsense` has no message of its own.
  const message = error.code === 'commander.help' ? argv.join(' ') : error.message;
  return new InputError({
    path: 'command line',
    expected: named === '' ? `a command out of ${names.join(', ')}` : `arguments and options of${named}`,
    received: message
      .replace(/^error: /, '')
      .replace(/\s*\(Did you mean .*\)\.?/s, '')
      .replace(/\s*\n\s*/g, ' '),
    remedy: `${meant(error, argv, names)}see lumenfront${named} --help`,
  });
}

/** What was probably meant, where that can be said. */
function meant({ code, message }: CommanderError, argv: readonly string[], names: readonly string[]): string {
  const quoted = (name: string | undefined) => (name === undefined ? '' : `did you mean '${name}'? Otherwise `);
  if (code === 'commander.help') return quoted(nearestName(argv.at(-1) ?? '', names));
  if (argv[0] === 'brief' && code === 'commander.excessArguments')
    return `to check a brief write lumenfront brief --check ${argv.find((word, i) => i > 0 && !word.startsWith('-'))}; `;
  if (code === 'commander.unknownCommand' && /\.(ya?ml|json)$/i.test(argv[0] ?? ''))
    return `a brief comes after a command: lumenfront front ${argv[0]}; otherwise `;
  if (/unknown option '--evaluations'/.test(message)) return 'it stands in the brief (search.evaluations); otherwise ';
  const required = /required option '(--[\w-]+)/.exec(message)?.[1];
  if (required !== undefined)
    return quoted(argv.some((word) => word.startsWith('--') && nearestName(word, [required])) ? required : undefined);
  const [, given, choices] = /argument '(.*)' is invalid\. Allowed choices are (.*)\./.exec(message) ?? [];
  if (given !== undefined) return quoted(nearestName(given, choices!.split(', ')));
  return quoted(/Did you mean (?:one of )?([^,?)]+)/.exec(message)?.[1]);
}
