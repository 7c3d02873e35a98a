import { InputError, type InputProblem } from '../errors.js';
import type { BriefOrigin } from '../input/index.js';
import type { YamlFault } from './compose-yaml.js';
import { quoteLayups } from './quote-layups.js';

/** Longest brief that is read, in bytes of the file and in characters of the text. */
export const briefSizeLimit = 1024 * 1024;

/** Deeper nesting than this is refused before parsing: the parser is recursive and can take the process down. */
const deepestBrackets = 32;
const deepestIndent = 100;

/** The data of a brief's text and where its values stand. */
export interface BriefText {
  readonly data: unknown;
  readonly origin: BriefOrigin;
}

/**
 * Reads YAML (JSON is a subset) into plain data with line numbers.
 *
 * @param options `file`: name for messages
 * @throws InputError if the text is not one well-formed document
 */
export async function readBriefText(text: string, options: { readonly file?: string } = {}): Promise<BriefText> {
  const { file } = options;
  const refuse = (expected: string, received: string, remedy: string, line?: number): InputProblem => ({
    path: 'brief',
    expected,
    received,
    remedy,
    ...(file === undefined ? {} : { file }),
    ...(line === undefined ? {} : { line }),
  });

  if (text.length > briefSizeLimit)
    throw new InputError(
      refuse(
        `at most ${briefSizeLimit} characters`,
        `${text.length}`,
        'give the brief, not a result or a data file; a brief has a few dozen lines',
      ),
    );
  const control = findControlCharacter(text);
  if (control !== undefined)
    throw new InputError(
      refuse('a text file in UTF-8', control.what, 'save the brief as plain text in UTF-8', control.line),
    );
  const deep = findDeepNesting(text);
  if (deep !== undefined)
    throw new InputError(
      refuse(
        'a brief nested a few levels deep',
        `nesting beyond ${deepestBrackets} brackets or ${deepestIndent} columns`,
        'start from the starter brief',
        deep,
      ),
    );

  const { composeYaml, lineAt } = await import('./compose-yaml.js');
  const quoted = quoteLayups(text);
  const read = composeYaml(quoted);
  if ('faults' in read) throw new InputError(read.faults.slice(0, 10).map(problemOf));
  const { data, lineOf } = read;
  if (data === null || data === undefined)
    throw new InputError(
      refuse('a brief', 'an empty file', "start from the starter brief that 'lumenfront brief' writes"),
    );
  return { data, origin: { ...(file === undefined ? {} : { file }), lineOf } };

  function problemOf({ kind, said, at }: YamlFault): InputProblem {
    const line = at === undefined ? undefined : lineAt(quoted, at);
    const shown = line === undefined ? '' : JSON.stringify(text.split('\n')[line - 1]!.trim().slice(0, 60));
    switch (kind) {
      case 'key twice':
        return refuse('each key once', shown, 'remove one of the two, or rename it', line);
      case 'tab':
        return refuse('indentation by blanks', 'a tab', 'replace every tab at the beginning of a line by blanks', line);
      case 'documents':
        return refuse('one brief in a file', 'a further document (---)', 'put each brief into a file of its own', line);
      case 'aliases': {
        const expected = 'at most 100 aliases, each after its anchor';
        return refuse(expected, said, 'write the values out instead of using aliases');
      }
      default: {
        const remedy = 'correct the syntax here or in the line before';
        return refuse('well-formed YAML or JSON', `${shown} (${said})`, remedy, line);
      }
    }
  }
}

/** First character that no text file holds: a control character, or what stands for broken UTF-8. */
function findControlCharacter(text: string): { readonly what: string; readonly line: number } | undefined {
  let line = 1;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === 10) line++;
    if ((code < 32 && code !== 9 && code !== 10 && code !== 13) || code === 127 || code === 0xfffd) {
      const what = code === 0xfffd ? 'bytes that are not UTF-8' : `the control character ${code}`;
      return { what, line };
    }
  }
  return undefined;
}

/** Line at which brackets, indentation or leading dashes nest too deeply. Brackets in texts count too: no brief has so many. */
function findDeepNesting(text: string): number | undefined {
  let line = 1;
  let depth = 0;
  let column = 0;
  let leading = true;
  for (let i = 0; i < text.length; i++) {
    const character = text[i]!;
    if (character === '\n') {
      line++;
      column = 0;
      leading = true;
      continue;
    }
    if (character === '[' || character === '{') depth++;
    if (character === ']' || character === '}') depth = Math.max(0, depth - 1);
    // Blanks and the marks of sequence and key open one block level per column at most.
    leading &&= character === ' ' || character === '-' || character === '?' || character === '\t' || character === ':';
    if (leading) column++;
    if (depth > deepestBrackets || column > deepestIndent) return line;
  }
  return undefined;
}
