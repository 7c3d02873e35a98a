import { type BriefMark, formatVersion, markOf, type ResolvedBrief, type ResultKind } from '@lumenfront/core';
import type { Workplace } from './workplace.js';

/** What every result says first. */
export interface Header<Kind extends ResultKind> {
  readonly kind: Kind;
  readonly formatVersion: typeof formatVersion;
  readonly title: string;
  readonly brief: BriefMark;
  readonly materials: ResolvedBrief['materials'];
  readonly cautions: readonly string[];
  readonly versions: Readonly<Record<string, string>>;
}

export function headerOf<Kind extends ResultKind>(
  kind: Kind,
  brief: ResolvedBrief,
  { versions }: Workplace,
): Header<Kind> {
  const { title, materials, cautions } = brief;
  return { kind, formatVersion, title, brief: markOf(brief), materials, cautions, versions };
}
