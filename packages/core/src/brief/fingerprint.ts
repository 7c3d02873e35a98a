import { canonicalJson, textsByHash } from './canonical.js';
import type { ChannelGroup, ResolvedBrief } from './resolved.js';
import { sha256Hex } from './sha256.js';

/** What a result says of the brief that it belongs to. */
export interface BriefMark {
  /** SHA-256 of `decides` as canonical JSON. */
  readonly fingerprint: string;
  /** What of the brief decides the figures of a given channel. */
  readonly decides: Readonly<Record<string, unknown>>;
}

/**
 * Marks what of a brief decides the figures of a given channel: joint, loads, cases, how strength is judged, and how many there are. What is looked for, what is
 * allowed, how channels scatter and what they deliver may be changed between a search and what follows it.
 */
export function markOf(brief: ResolvedBrief): BriefMark {
  const { choices } = brief;
  if (choices === undefined) return marked(decidedBy(brief));
  const marks = choices.map((one) => ({ ...one.values, fingerprint: marked(decidedBy(one.brief)).fingerprint }));
  return marked({ ...decidedBy(brief), choices: marks });
}

const marked = (decides: BriefMark['decides']): BriefMark => ({
  fingerprint: sha256Hex(canonicalJson(decides)),
  decides,
});

function decidedBy({ joint, loads, cases, strength, channel }: ResolvedBrief): BriefMark['decides'] {
  const { edge, cuspDistance, fatigue } = strength;
  return {
    host: textsByHash(joint),
    loads,
    cases,
    ...(channel.group === undefined ? {} : { channels: groupMark(channel.group) }),
    strength: { edge, ...(cuspDistance === undefined ? {} : { cuspDistance }), fatigue },
  };
}

/** More than two stand a pitch apart; of two the outline says how far. */
const groupMark = ({ number, pitch }: ChannelGroup) => (number === 2 ? { number } : { number, pitch });

/** One value that differs between two briefs: `loads.pull.force`. */
export interface BriefDifference {
  readonly path: string;
  readonly before: unknown;
  readonly after: unknown;
}

/** Where two briefs decide differently; none for equal ones. */
export function differencesOf(before: BriefMark, after: BriefMark): readonly BriefDifference[] {
  const found: BriefDifference[] = [];
  const isTree = (value: unknown): value is Readonly<Record<string, unknown>> =>
    typeof value === 'object' && value !== null;
  const compare = (path: string, a: unknown, b: unknown) => {
    if (isTree(a) && isTree(b) && Array.isArray(a) === Array.isArray(b)) {
      if (Array.isArray(a) && Array.isArray(b) && a.length !== b.length)
        found.push({ path, before: `${a.length} entries`, after: `${b.length} entries` });
      else
        for (const key of new Set([...Object.keys(a), ...Object.keys(b)]))
          compare(Array.isArray(a) ? `${path}[${key}]` : path === '' ? key : `${path}.${key}`, a[key], b[key]);
    } else if (a !== b) found.push({ path, before: a, after: b });
  };
  compare('', before.decides, after.decides);
  return found;
}
