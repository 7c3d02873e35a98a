import type { Document, LineCounter, Node, Pair, YAMLParseError, YAMLWarning } from 'yaml';
import { InputError, type InputProblem } from '../errors.js';
import type { BriefOrigin, BriefPath } from '../input/index.js';
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

  const yaml = await import('./yaml-library.js');
  const lineCounter = new yaml.LineCounter();
  const document = yaml.parseDocument(quoteLayups(text), { lineCounter, prettyErrors: false, logLevel: 'error' });
  const complaints = [...document.errors, ...document.warnings];
  if (complaints.length > 0) {
    const lineOfComplaint = (complaint: (typeof complaints)[number]) => lineCounter.linePos(complaint.pos[0]).line;
    const textOf = (line: number) => (text.split(/\r?\n/, line)[line - 1] ?? '').trim().slice(0, 60);
    const [first] = complaints.filter(({ code }) => code !== 'DUPLICATE_KEY').sort(byPlace);
    const twice = complaints.filter(
      (one) => one.code === 'DUPLICATE_KEY' && (first === undefined || byPlace(one, first) < 0),
    );
    // A parser that has lost its way complains of everything that follows: only the first complaint is worth telling.
    throw new InputError([
      ...twice.slice(0, 10).map((complaint) => {
        const line = lineOfComplaint(complaint);
        return refuse('each key once', JSON.stringify(textOf(line)), 'remove one of the two, or rename it', line);
      }),
      ...(first === undefined ? [] : [syntaxProblem(first, lineOfComplaint(first))]),
    ]);

    function syntaxProblem({ code, message }: YAMLParseError | YAMLWarning, line: number): InputProblem {
      if (code === 'TAB_AS_INDENT')
        return refuse('indentation by blanks', 'a tab', 'replace every tab at the beginning of a line by blanks', line);
      if (code === 'MULTIPLE_DOCS')
        return refuse('one brief in a file', 'a further document (---)', 'put each brief into a file of its own', line);
      const received = `${JSON.stringify(textOf(line))} (${message.split('\n')[0]})`;
      return refuse('well-formed YAML or JSON', received, 'correct the syntax here or in the line before', line);
    }
  }

  let data: unknown;
  try {
    data = document.toJS({ maxAliasCount: 100 });
  } catch (error) {
    // The library's word for an alias without anchor, and for aliases that multiply without bound.
    if (!(error instanceof ReferenceError)) throw error;
    throw new InputError(
      refuse(
        'at most 100 aliases, each after its anchor',
        error.message,
        'write the values out instead of using aliases',
      ),
    );
  }
  if (data === null || data === undefined)
    throw new InputError(
      refuse('a brief', 'an empty file', "start from the starter brief that 'lumenfront brief' writes"),
    );
  return {
    data,
    origin: { ...(file === undefined ? {} : { file }), lineOf: (path) => lineOf(document, lineCounter, path, yaml) },
  };
}

const byPlace = (a: { readonly pos: [number, number] }, b: { readonly pos: [number, number] }) => a.pos[0] - b.pos[0];

type Yaml = typeof import('./yaml-library.js');

/** Line of the key of the last step of a path, or of the innermost step that exists. */
function lineOf(document: Document, lineCounter: LineCounter, path: BriefPath, yaml: Yaml): number | undefined {
  let node: unknown = document.contents;
  let offset = document.contents?.range?.[0];
  for (const step of path) {
    if (yaml.isAlias(node)) node = node.resolve(document);
    if (yaml.isMap(node)) {
      const pair = node.items.find((item: Pair) => keyText(item.key, yaml) === String(step));
      if (pair === undefined) break;
      offset = (pair.key as Node | null)?.range?.[0] ?? offset;
      node = pair.value;
    } else if (yaml.isSeq(node) && typeof step === 'number' && node.items[step] !== undefined) {
      node = node.items[step];
      offset = (node as Node).range?.[0] ?? offset;
    } else break;
  }
  return offset === undefined ? undefined : lineCounter.linePos(offset).line;
}

const keyText = (key: unknown, yaml: Yaml) => (yaml.isScalar(key) ? String(key.value) : undefined);

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
