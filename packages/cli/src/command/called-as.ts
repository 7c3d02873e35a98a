import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';

/**
 * This program as its user may type it again: by `npx` only where that finds an installed one, since it would fetch a package of that name from a
 * registry otherwise.
 *
 * @param folder in which it was called
 * @param script as the process was started with
 */
export function calledAs(folder: string, script: string): string {
  for (let at = resolve(folder); ; at = dirname(at)) {
    if (existsSync(join(at, 'node_modules', '.bin', 'lumenfront'))) return 'npx lumenfront';
    if (at === dirname(at)) break;
  }
  return script.endsWith('.js') ? `node ${quoted(script)}` : 'lumenfront';
}

/** A name as a shell takes it. */
export const quoted = (name: string) => (/^[\w./@%+=:,-]+$/.test(name) ? name : `'${name.replaceAll("'", `'\\''`)}'`);
