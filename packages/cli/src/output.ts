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
