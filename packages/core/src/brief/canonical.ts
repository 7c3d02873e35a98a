import type { Joint } from '../host/index.js';
import type { Ply } from '../material/index.js';
import type { ResolvedBrief } from './resolved.js';
import { roomWish } from './room-wish.js';

/**
 * What of a brief fixes its reduced model, as canonical JSON: joint, stiffness of its materials, and what shapes the control contour (wall,
 * edge radius and the largest channel). Not its loads: the model holds a unit load of every kind; nor its strengths. The key of a cache.
 */
export function canonicalHost(brief: ResolvedBrief): string {
  const { joint, channel } = brief;
  const { wall, edgeRadius, largest } = roomWish(channel);
  return canonicalJson({ joint: withoutStrengths(joint), wall, edgeRadius, largest });
}

/** The same of a joint alone. */
export function canonicalJoint(joint: Joint): string {
  return canonicalJson(withoutStrengths(joint));
}

const strengths = ['transverseTension', 'interlaminarShear'] satisfies (keyof Ply)[];

function withoutStrengths(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutStrengths);
  if (typeof value !== 'object' || value === null) return value;
  if (isText(value)) return byHash(value);
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, part]) =>
      strengths.some((name) => name === key) ? [] : [[key, withoutStrengths(part)]],
    ),
  );
}

/** A text of a file, whose hash stands for it. */
const isText = (value: object): value is { readonly text: string; readonly sha256: string } =>
  'text' in value && 'sha256' in value;

const byHash = ({ text: _text, ...rest }: { readonly text: string; readonly sha256: string }) => rest;

/** Plain data in which the hash of every file's text stands for it, as in results: a mesh is a thousand times as long as all else. */
export function textsByHash<Of>(value: Of): Of {
  if (Array.isArray(value)) return value.map(textsByHash) as Of;
  if (typeof value !== 'object' || value === null) return value;
  const told = isText(value) ? byHash(value) : value;
  return Object.fromEntries(Object.entries(told).map(([key, part]) => [key, textsByHash(part)])) as Of;
}

/** All of a brief that can change a result, as canonical JSON: everything but its title, cautions and the names of its materials. */
export function canonicalBrief(brief: ResolvedBrief): string {
  const { title: _title, cautions: _cautions, materials: _materials, ...rest } = brief;
  return canonicalJson(textsByHash(rest));
}

/** JSON with sorted keys and no white space: equal data gives equal text. Arrays keep their order. */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    typeof part === 'object' && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}
