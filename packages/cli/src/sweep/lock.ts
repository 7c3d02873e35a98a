import { randomUUID } from 'node:crypto';
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { InputError } from '@lumenfront/core';
import { replaceFile, writeRefusal } from '../files/index.js';

interface Holder {
  readonly host: string;
  readonly pid: number;
  /** Tells a process from a later one of the same number, where the system says. */
  readonly started: string | null;
  /** The file that it writes. */
  readonly target: string;
  /** Whether it stands others that write to another target. */
  readonly shared: boolean;
}

/** Locks of this process, by path. */
const held = new Set<string>();

/**
 * Takes a folder for one file of results, so that two runs never mix in it. Whole sweeps merge the files of shards: they exclude
 * every other run; shards exclude only themselves.
 *
 * Every run lays down a file of its own and then looks for those of others. Whoever comes later sees the earlier one; two that
 * come at the same moment may both be refused, never both be let in. What a dead process of this machine left is cleared away.
 *
 * @param target name of the file that is going to be written
 * @param options.shared whether other targets may be written at the same time
 * @returns releases the folder
 * @throws InputError if another run has it
 */
export function lockFolder(folder: string, target: string, options: { readonly shared: boolean }): () => void {
  const { shared } = options;
  const own = join(folder, `.sweep-${randomUUID()}.lock`);
  const started = startOf(process.pid) ?? null;
  const holder: Holder = { host: hostname(), pid: process.pid, started, target, shared };
  // By way of another name: a lock is never seen half written.
  try {
    replaceFile(own, JSON.stringify(holder));
  } catch (error) {
    throw writeRefusal(folder, error);
  }
  held.add(own);
  const release = () => {
    held.delete(own);
    rmSync(own, { force: true });
  };
  try {
    for (const name of readdirSync(folder)) {
      const path = join(folder, name);
      if (!/^\.sweep-.*\.lock$/.test(name) || path === own) continue;
      const other = readHolder(path);
      if (other === undefined) continue;
      if (other.host === holder.host && !isAlive(other, path)) rmSync(path, { force: true });
      else if (!(shared && other.shared && other.target !== target))
        throw new InputError({
          path: '--out',
          expected: 'a folder that no other sweep writes to',
          received: `${folder}, which process ${other.pid} on ${other.host} has`,
          remedy: `wait for it or choose another folder; if it is no longer running, delete ${path}`,
        });
    }
  } catch (error) {
    release();
    throw error;
  }
  return release;
}

/**
 * Undefined where it was released meanwhile.
 *
 * @throws InputError if that is no lock
 */
function readHolder(path: string): Holder | undefined {
  try {
    const { host, pid, started, target, shared } = JSON.parse(readFileSync(path, 'utf8')) as Record<string, unknown>;
    if (
      typeof host === 'string' &&
      typeof target === 'string' &&
      Number.isInteger(pid) &&
      (started === null || typeof started === 'string')
    )
      return { host, pid: pid as number, started, target, shared: shared === true };
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    if (!(error instanceof SyntaxError || error instanceof TypeError)) throw writeRefusal(path, error);
  }
  throw new InputError({
    path: '--out',
    expected: 'a folder whose locks sweeps have written',
    received: `${path}, which is damaged`,
    remedy: 'delete it if no other sweep writes to this folder',
  });
}

function isAlive({ pid, started }: Holder, path: string): boolean {
  if (pid === process.pid) return held.has(path);
  const now = startOf(pid);
  if (now !== undefined) return started === null || now === started;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // No permission to signal it: it is there.
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/**
 * When a process started, in ticks since the machine did, from Linux's proc(5) `stat`: field 22. One that has ended but was not
 * waited for (state Z, field 3) started never. Undefined on other systems, and for a process that is not there.
 */
function startOf(pid: number): string | undefined {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The name of the program, field 2, stands in brackets and may itself hold blanks and brackets.
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    return fields[0] === 'Z' ? 'never' : fields[19];
  } catch {
    return undefined;
  }
}
