import { closeSync, openSync, readSync } from 'node:fs';

/** A line of a file, without its end, and its bytes: from `start` to before `end`, where its end of line stands. */
export interface Line {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

const CHUNK = 1024 * 1024;

/** The complete lines of a file of any size, one after the other. A last line without its end is none. */
export function* readLines(path: string): Generator<Line> {
  const file = openSync(path, 'r');
  try {
    let pending = Buffer.alloc(0);
    let start = 0;
    for (;;) {
      const chunk = Buffer.allocUnsafe(CHUNK);
      const read = readSync(file, chunk, 0, CHUNK, null);
      if (read === 0) return;
      pending = Buffer.concat([pending, chunk.subarray(0, read)]);
      let from = 0;
      for (let to = pending.indexOf(10); to >= 0; to = pending.indexOf(10, from)) {
        yield { text: pending.toString('utf8', from, to), start: start + from, end: start + to };
        from = to + 1;
      }
      pending = pending.subarray(from);
      start += from;
    }
  } finally {
    closeSync(file);
  }
}
