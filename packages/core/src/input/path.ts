import { InputError } from '../errors.js';
import type { BriefPath } from './place.js';

const steps =
  /^(?:(?<first>[^.[\]="\s][^.[\]="]*)|\.(?<name>[^.[\]="\s][^.[\]="]*)|\[(?<index>\d+)\]|\[(?<text>"(?:[^"\\]|\\.)*")\])/u;

/**
 * Reads a path as messages about briefs write it, up to an equals sign or the end: `host.bendRadius`,
 * `host.overlaminate.layup[2]`, `materials["carbon 2.0"].E1`.
 *
 * @param place where it was written, for messages: `--vary`
 * @returns the path and what stands after it
 * @throws InputError for anything else
 */
export function readPath(written: string, place: string): { readonly path: BriefPath; readonly rest: string } {
  const path: (string | number)[] = [];
  let rest = written.trimStart();
  while (rest !== '' && !/^\s*=/.test(rest)) {
    const { first, name, index, text } = steps.exec(rest)?.groups ?? {};
    const step = path.length === 0 ? first : (name ?? (index === undefined ? undefined : Number(index)));
    if (step !== undefined) path.push(typeof step === 'string' ? step.trimEnd() : step);
    else if (text !== undefined && path.length > 0) path.push(JSON.parse(text) as string);
    else break;
    rest = rest.slice(steps.exec(rest)![0].length);
  }
  if (path.length === 0 || (rest !== '' && !/^\s*=/.test(rest)))
    throw new InputError({
      path: place,
      expected: 'the path of a value of the brief',
      received: JSON.stringify(written.slice(0, 60)),
      remedy: 'write, for example, host.bendRadius, host.overlaminate.layup[2] or materials["carbon 2.0"].E1',
    });
  return { path, rest: rest.trimStart() };
}

/** The other way round. */
export function writePath(path: BriefPath): string {
  return path.reduce<string>((text, step) => {
    if (typeof step === 'number') return `${text}[${step}]`;
    if (!/^[\p{L}\p{N}_+-][\p{L}\p{N}_+ -]*$/u.test(step) || step !== step.trim())
      return `${text}[${JSON.stringify(step)}]`;
    return text === '' ? step : `${text}.${step}`;
  }, '');
}

/** Whether one path leads to the other, or both to the same place. */
export function overlaps(a: BriefPath, b: BriefPath): boolean {
  return Array.from({ length: Math.min(a.length, b.length) }, (_, i) => a[i] === b[i]).every(Boolean);
}

/** A copy of plain data with one value replaced; mappings on the way that are missing are made. */
export function withValue(data: unknown, path: BriefPath, value: unknown): unknown {
  const [step, ...further] = path;
  if (step === undefined) return value;
  if (Array.isArray(data) && typeof step === 'number') {
    const copy: unknown[] = [...data];
    copy[step] = withValue(data[step], further, value);
    return copy;
  }
  const parts = typeof data === 'object' && data !== null ? (data as Record<string, unknown>) : {};
  return { ...parts, [step]: withValue(Object.hasOwn(parts, step) ? parts[step] : undefined, further, value) };
}
