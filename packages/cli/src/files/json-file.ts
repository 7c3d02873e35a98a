import { InputError } from '@lumenfront/core';
import { readTextFile } from './read-text.js';

export type JsonObject = Readonly<Record<string, unknown>>;

export function isJsonObject(value: unknown): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** A front of a thousand splines takes less. */
const SIZE_LIMIT = 16 * 1024 * 1024;

/**
 * The content of a JSON file that a command wrote.
 *
 * @param what in words, for messages: `a channel`
 * @throws InputError if there is no such file, or no JSON in it
 */
export function readJsonFile(path: string, what: string): unknown {
  const text = readTextFile(path, { what, limit: SIZE_LIMIT });
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new InputError({
      path,
      expected: `${what} as JSON`,
      received: (error as SyntaxError).message,
      remedy: 'give a file that a command wrote with --json',
    });
  }
}
