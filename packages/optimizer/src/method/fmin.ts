import * as namespace from 'fmin';

// Set where the code runs as a CommonJS script: in a bundle made for one, and in `node --eval`.
declare const exports: unknown;

/**
 * fmin's `nelderMead`, wherever its UMD file has put it. The file is in a package that is marked as an ES module: bundlers
 * that look into it find exports; Node and browsers run it and find a global; run within CommonJS it takes the script's own
 * `exports` for its own.
 */
export const nelderMead = find();

function find() {
  const { fmin } = globalThis as { readonly fmin?: unknown };
  for (const place of [namespace, fmin, typeof exports === 'undefined' ? undefined : exports]) {
    const found = (place as Partial<typeof namespace> | undefined)?.nelderMead;
    if (found !== undefined) return found;
  }
  throw new Error('fmin was loaded, but its function nelderMead was not found');
}
