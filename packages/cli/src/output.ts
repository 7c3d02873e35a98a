import { describeProblem, InputError, UnmetError } from '@lumenfront/core';

/** 0 done, 1 the brief cannot be met, 2 bad input, 3 internal error. */
export const exitCodes = { done: 0, unmet: 1, badInput: 2, internal: 3 } as const;

export interface Streams {
  readonly stdout: NodeJS.WritableStream;
  readonly stderr: NodeJS.WritableStream;
}

/**
 * Where a command speaks. Results go to standard output, once: text for people or, with `--json`, one JSON document.
 * Everything else goes to standard error.
 */
export interface Output {
  readonly json: boolean;
  readonly quiet: boolean;
  /** The result; `text` is called only if it is wanted. */
  result(document: unknown, text: () => string): void;
  /** Something worth knowing; silenced by `--quiet`. */
  note(text: string): void;
}

export function createOutput(options: { readonly json?: boolean; readonly quiet?: boolean }, streams: Streams): Output {
  const json = options.json === true;
  const quiet = options.quiet === true;
  const line = (text: string) => (text.endsWith('\n') ? text : `${text}\n`);
  return {
    json,
    quiet,
    result: (document, text) => {
      streams.stdout.write(line(json ? JSON.stringify(document, null, 2) : text()));
    },
    note: (text) => {
      if (!quiet) streams.stderr.write(line(text));
    },
  };
}

/**
 * What failed, for standard error, and the exit code. With `json` one JSON document,
 * `{ error: { kind, exitCode, message, problems } }`, `problems` with path, expected, received, remedy, file and line each.
 */
export function describeFailure(error: unknown, json: boolean): { readonly text: string; readonly exitCode: number } {
  const { kind, exitCode, message } = classify(error);
  const problems = error instanceof InputError ? error.problems : [];
  if (json) return { text: `${JSON.stringify({ error: { kind, exitCode, message, problems } }, null, 2)}\n`, exitCode };
  return { text: `${message}\n`, exitCode };
}

function classify(error: unknown): { kind: string; exitCode: number; message: string } {
  if (error instanceof InputError) {
    const message = error.problems.map(describeProblem).join('\n');
    return { kind: 'bad input', exitCode: exitCodes.badInput, message };
  }
  if (error instanceof UnmetError)
    return { kind: 'cannot be met', exitCode: exitCodes.unmet, message: `cannot be met: ${error.message}` };
  const trace = error instanceof Error ? (error.stack ?? error.message) : String(error);
  const message = `internal error, a fault of this program and not of your input; please report it with your brief:\n${trace}`;
  return { kind: 'internal error', exitCode: exitCodes.internal, message };
}
