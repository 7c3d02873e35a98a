import { closeSync, existsSync, fsyncSync, ftruncateSync, openSync, readdirSync, readSync, writeSync } from 'node:fs';
import { basename, join } from 'node:path';
import { formatVersion, InputError, type SweepLine } from '@lumenfront/core';
import type { CaseOutcome, SweepCase } from '@lumenfront/optimizer';
import { replaceFile, writeRefusal } from '../files/index.js';
import { readLines } from './lines.js';

export function recordOf({ id, kind, vary }: SweepCase, outcome: CaseOutcome, version: string): SweepLine {
  return { kind: 'sweep-line', formatVersion, case: id, version, run: kind, vary, ...outcome };
}

/** Part `number`, from 1, of `count` parts of a sweep. */
export interface Shard {
  readonly number: number;
  readonly count: number;
}

const resultsName = /^results(?:-\d+-of-\d+)?\.ndjson$/;

/** `results.ndjson`, or `results-2-of-8.ndjson` for a shard. */
export function resultsFile(shard?: Shard): string {
  return shard === undefined ? 'results.ndjson' : `results-${shard.number}-of-${shard.count}.ndjson`;
}

/** The results in a folder, one file of them open for appending. Records stay on the disk: fronts are long. */
export interface Results {
  /** How a case ended, in this file or in another one of the folder; undefined for one that has not been run. */
  status(id: string): CaseOutcome['status'] | undefined;
  read(id: string): SweepLine;
  /** Puts a record on the disk before it returns. */
  append(record: SweepLine): void;
  /** Copies the record of a case from another file of the folder, unless this file holds it. */
  adopt(id: string): void;
  close(): void;
}

/** Where a record stands. */
interface Place {
  readonly path: string;
  readonly start: number;
  readonly end: number;
  readonly status: CaseOutcome['status'];
}

/**
 * Opens the results of a folder. A last line without its end, left by a run that was killed, is cut off.
 *
 * @param name of the file that is written to
 * @param options.forgetFailed take failed cases for cases that have not been run
 * @throws InputError if there is anything else in it than results, or if it cannot be written
 */
export function openResults(folder: string, name: string, options: { readonly forgetFailed: boolean }): Results {
  const path = join(folder, name);
  const places = new Map<string, Place>();
  const others = readdirSync(folder).filter((other) => resultsName.test(other) && other !== name);
  for (const other of others.sort()) indexRecords(join(folder, other), places);
  let length = existsSync(path) ? indexRecords(path, places) : 0;
  if (options.forgetFailed && [...places.values()].some(({ status }) => status === 'failed')) {
    for (const [id, { status }] of places) if (status === 'failed') places.delete(id);
    length = keepRecords(path, places);
  }

  const file = writing(path, () => openSync(path, 'a'));
  ftruncateSync(file, length);
  fsyncFolder(folder);
  const write = (id: string, status: Place['status'], line: Buffer) => {
    writing(path, () => {
      for (let written = 0; written < line.length; ) written += writeSync(file, line, written);
      fsyncSync(file);
    });
    places.set(id, { path, start: length, end: length + line.length - 1, status });
    length += line.length;
  };
  const read = (id: string) => readBytes(places.get(id)!);
  return {
    status: (id) => places.get(id)?.status,
    read: (id) => JSON.parse(read(id).toString('utf8')),
    append: (record) => write(record.case, record.status, Buffer.from(`${JSON.stringify(record)}\n`)),
    adopt: (id) => {
      const place = places.get(id)!;
      if (place.path !== path) write(id, place.status, Buffer.concat([read(id), Buffer.from('\n')]));
    },
    close: () => closeSync(file),
  };
}

function writing<Made>(path: string, action: () => Made): Made {
  try {
    return action();
  } catch (error) {
    throw writeRefusal(path, error);
  }
}

/** Rewrites a file with those of its records that have a place, and gives its new length. */
function keepRecords(path: string, places: Map<string, Place>): number {
  const kept = [...places].filter(([, place]) => place.path === path);
  replaceFile(path, Buffer.concat(kept.map(([, place]) => Buffer.concat([readBytes(place), Buffer.from('\n')]))));
  return indexRecords(path, places);
}

/** Without this, a file that was just made may be missing after the machine has stopped. Not every system can. */
function fsyncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  fsyncSync(handle);
  closeSync(handle);
}

function readBytes({ path, start, end }: Place): Buffer {
  const bytes = Buffer.alloc(end - start);
  const file = openSync(path, 'r');
  for (let read = 0; read < bytes.length; ) read += readSync(file, bytes, read, bytes.length - read, start + read);
  closeSync(file);
  return bytes;
}

/** Notes where in a file the records stand, and gives the bytes that they take together. */
function indexRecords(path: string, places: Map<string, Place>): number {
  let length = 0;
  let number = 0;
  for (const { text, start, end } of readLines(path)) {
    number++;
    const record = parseRecord(text);
    if (record === undefined)
      throw new InputError({
        path: 'results',
        file: path,
        line: number,
        expected: 'one result of a sweep in JSON on each line',
        received: JSON.stringify(text.slice(0, 60)),
        remedy: `correct or delete the line, or choose another folder; only sweep writes to ${basename(path)}`,
      });
    places.set(record.case, { path, start, end, status: record.status });
    length = end + 1;
  }
  return length;
}

function parseRecord(line: string): SweepLine | undefined {
  try {
    const record = JSON.parse(line) as SweepLine;
    const sound = /^[0-9a-f]{64}$/.test(record.case) && ['done', 'unmet', 'failed'].includes(record.status);
    return sound ? record : undefined;
  } catch {
    return undefined;
  }
}
