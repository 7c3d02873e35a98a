/** Where a value stands in a brief: `['host', 'overlaminate', 'layup', 2]`. */
export type BriefPath = readonly (string | number)[];

/** What is known about where a brief came from; a brief made by a program has neither. */
export interface BriefOrigin {
  readonly file?: string;
  /** Line (from 1) of a value, or of the nearest value around it that exists. */
  readonly lineOf?: (path: BriefPath) => number | undefined;
  /** Text of a file that the brief names, as its name stands there. Throws InputError where there is no such text. */
  readonly textOf?: (file: string) => string;
}

/** `host.overlaminate.layup[2]`. */
export function formatPath(path: BriefPath): string {
  let text = '';
  for (const step of path) {
    if (typeof step === 'number') text += `[${step}]`;
    else if (/^[\p{L}\p{N}_-]+$/u.test(step)) text += text === '' ? step : `.${step}`;
    else text += `[${JSON.stringify(shorten(step))}]`;
  }
  return text === '' ? 'brief' : text;
}

/** The other way round, for paths of plain words and numbers. */
export function parsePath(text: string): BriefPath {
  return (text.match(/[^.[\]]+/g) ?? []).map((step) => (/^\d+$/.test(step) ? Number(step) : step));
}

/** A received value in a few characters. */
export function formatReceived(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return 'nothing (null)';
  if (typeof value === 'string') return JSON.stringify(shorten(value));
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : `a list of ${value.length}`;
  if (typeof value === 'object') {
    const keys = Object.keys(value);
    return keys.length === 0 ? 'an empty mapping' : `a mapping of ${shorten(keys.slice(0, 8).join(', '))}`;
  }
  return `a ${typeof value}`;
}

const shorten = (text: string) => (text.length > 60 ? `${text.slice(0, 57)}...` : text);

/** The value at a path, `undefined` where there is none. */
export function valueAt(data: unknown, path: BriefPath): unknown {
  let value = data;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}
