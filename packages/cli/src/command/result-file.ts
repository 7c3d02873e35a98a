import {
  type BriefMark,
  type ChannelObjective,
  type ComparedChoice,
  type DesignDocument,
  differencesOf,
  InputError,
  markOf,
  type ResolvedBrief,
  readResult,
  type SearchDocument,
} from '@lumenfront/core';
import { readJsonFile } from '../files/index.js';
import type { Output } from '../output.js';

/** A front or a pick from a file. */
export interface ResultFile {
  readonly kind: 'front' | 'pick';
  /** Of a pick, it and the largest of the other families. */
  readonly designs: readonly DesignDocument[];
  /** What each family has by itself. */
  readonly families: Readonly<Record<string, readonly DesignDocument[]>>;
  readonly allow?: number;
  readonly reference: DesignDocument;
  /** A pick has no objective of its own. */
  readonly search: SearchDocument & { readonly objective?: ChannelObjective };
  readonly cautions: readonly string[];
  readonly versions: Readonly<Record<string, string>>;
  /** What the brief leaves open, side by side. */
  readonly choices?: readonly ComparedChoice[];
  /** Left out by older versions. */
  readonly brief?: BriefMark;
}

/**
 * What `front` or `pick` wrote with `--json`; keys beyond these are left alone.
 *
 * @throws InputError for any other file
 */
export async function readResultFile(path: string): Promise<ResultFile> {
  const read = await readResult(readJsonFile(path, 'a result'), ['front', 'pick'], path);
  if (read.kind === 'front') return { ...read.result, kind: 'front' };
  const { design, families } = read.result;
  const others = Object.values(families).filter(({ family }) => family !== design.family);
  return {
    ...read.result,
    kind: 'pick',
    designs: [design, ...others.sort((a, b) => b.area - a.area)],
    families: Object.fromEntries(Object.entries(families).map(([name, one]) => [name, [one]])),
  };
}

/** Differences that a message names. */
const mostNamed = 4;

/**
 * Refuses what was found for another brief; with `--force` it is only said.
 *
 * @param mark of the brief that the file belongs to; a channel by itself has none
 * @throws InputError with what differs
 */
export function refuseOtherBrief(
  path: string,
  mark: BriefMark | undefined,
  brief: ResolvedBrief,
  { force }: { readonly force?: boolean },
  { note }: Pick<Output, 'note'>,
): void {
  const own = markOf(brief);
  if (mark === undefined || mark.fingerprint === own.fingerprint) return;
  const differences = differencesOf(mark, own);
  const named = differences
    .slice(0, mostNamed)
    .map((one) => `${one.path} is ${shown(one.before)} there and ${shown(one.after)} in the brief`);
  const rest = differences.length - named.length;
  const what = `${named.join('; ')}${rest > 0 ? `; and ${rest} more` : ''}`;
  if (force !== true)
    throw new InputError({
      path,
      expected: 'a result of this brief',
      received: `one of another brief: ${what}`,
      remedy: 'give the brief that it was found for, or go on with --force',
    });
  note(`note: ${path} is a result of another brief: ${what}`);
}

function shown(value: unknown): string {
  const text = JSON.stringify(value);
  if (text === undefined) return 'not given';
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
