import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runInNewContext } from 'node:vm';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';

const here = dirname(fileURLToPath(import.meta.url));
const entry = {
  contents: `import { nelderMead } from './fmin.js'; globalThis.kind = typeof nelderMead;`,
  resolveDir: here,
  loader: 'ts',
} as const;

describe('fmin is found', () => {
  it('in a bundle, run as a page runs it and as a CommonJS script', async () => {
    const bundled = await build({ stdin: entry, bundle: true, format: 'iife', write: false, logLevel: 'error' });
    const code = bundled.outputFiles[0]!.text;
    for (const globals of [{}, { exports: {}, module: { exports: {} } }]) {
      runInNewContext(code, globals);
      expect(globals).toHaveProperty('kind', 'function');
    }
  });

  it('in plain Node, as a module and from node --eval', async () => {
    const folder = mkdtempSync(join(here, '../../node_modules/.fmin-'));
    try {
      const outfile = join(folder, 'out.mjs');
      await build({ stdin: entry, bundle: true, format: 'esm', external: ['fmin'], outfile, logLevel: 'error' });
      const code = `import(${JSON.stringify(outfile)}).then(() => console.log(globalThis.kind))`;
      for (const kind of ['module', 'commonjs']) {
        const output = execFileSync(process.execPath, [`--input-type=${kind}`, '--eval', code], { encoding: 'utf8' });
        expect(output.trim()).toBe('function');
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
