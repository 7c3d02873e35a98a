import { InputError } from '../errors.js';
import { formatReceived, ProblemList } from '../input/index.js';
import { formatVersion } from './header.js';
import { loadResultSchema, type ResultKind, type ResultOf } from './schema.js';

type Content = Readonly<Record<string, unknown>>;

/** Keys that older versions wrote, and what they are called now. */
const olderKeys: ReadonlyMap<string, string> = new Map([['flowFactor', 'conductance']]);

/** By what a result is known that does not say its kind. */
const signs: ReadonlyArray<readonly [kind: ResultKind, key: string]> = [
  ['sweep-line', 'case'],
  ['scatter-front', 'drawn'],
  ['scatter', 'nominal'],
  ['deliver', 'ratio'],
  ['check', 'fast'],
  ['pick', 'design'],
  ['front', 'designs'],
];

function isContent(data: unknown): data is Content {
  return typeof data === 'object' && data !== null && !Array.isArray(data);
}

/** The kind of a result; `undefined` for what is none. */
export function resultKindOf(data: unknown): ResultKind | undefined {
  if (!isContent(data)) return undefined;
  const { kind } = data;
  return signs.find(([known, key]) => (kind === undefined ? Object.hasOwn(data, key) : kind === known))?.[0];
}

/**
 * Checks the content of a result file. Keys beyond the schema's are left out; words that older versions wrote are read.
 *
 * @param kinds that will do
 * @param file name for messages
 * @throws InputError for any other content, with every key that is damaged
 */
export async function readResult<Kind extends ResultKind>(
  data: unknown,
  kinds: readonly Kind[],
  file: string,
): Promise<{ [Each in Kind]: { readonly kind: Each; readonly result: ResultOf<Each> } }[Kind]> {
  const wanted = kinds.join(' or ');
  const refuse = (path: string, expected: string, received: string, remedy: string) =>
    new InputError({ path, file, expected, received, remedy });
  const kind = resultKindOf(data);
  if (kind === undefined || !(kinds as readonly ResultKind[]).includes(kind))
    throw refuse(
      'result',
      `a result of ${wanted}`,
      kind === undefined ? formatReceived(data) : `a result of ${kind}`,
      `give what ${wanted} wrote with --json or --out`,
    );
  const { formatVersion: version = formatVersion } = data as Content;
  if (version !== formatVersion)
    throw refuse(
      'formatVersion',
      String(formatVersion),
      formatReceived(version),
      'read it with the version of lumenfront that wrote it, or run the command again',
    );
  const parsed = (await loadResultSchema(kind)).safeParse(kind === 'deliver' ? withPresentKeys(data) : data);
  if (parsed.success) return { kind, result: parsed.data } as never;
  const problems = new ProblemList(data, { file });
  problems.addIssues(parsed.error.issues);
  throw new InputError(problems.problems);
}

function withPresentKeys(data: unknown): unknown {
  if (Array.isArray(data)) return data.map(withPresentKeys);
  if (!isContent(data)) return data;
  return Object.fromEntries(
    Object.entries(data).map(([key, part]) => [olderKeys.get(key) ?? key, withPresentKeys(part)]),
  );
}
