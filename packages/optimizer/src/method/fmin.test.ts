import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runInNewContext } from 'node:vm';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const here = dirname(fileURLToPath(import.meta.url));
/** The least of (x - 1)^2 by whole runs; says too whether fmin was there, and what was left behind. */
const entry = {
  contents: `
    import { loadFmin } from './fmin.js';
    import { nelderMead } from './whole-run.js';
    const problem = {
      bounds: { lower: [-4], upper: [4] }, objectives: 1, constraints: 0,
      evaluate: ([x]) => ({ objectives: [(x - 1) ** 2] }),
    };
    export const answer = (async () => {
      const { front } = await nelderMead(problem, [0], { evaluations: 100 });
      return [front[0].x[0].toFixed(3), (await loadFmin()) !== undefined, 'fmin' in globalThis].join(' ');
    })();`,
  resolveDir: here,
  loader: 'ts',
} as const;

describe('fmin is found, used, and leaves nothing behind', () => {
  let folder: string;
  let module: string;
  beforeAll(async () => {
    folder = mkdtempSync(join(here, '../../node_modules/.fmin-'));
    module = join(folder, 'out.mjs');
    await build({ stdin: entry, bundle: true, format: 'esm', external: ['fmin'], outfile: module, logLevel: 'error' });
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  /** What a program prints that runs unbundled, after `before`. */
  const inNode = (kind: 'module' | 'commonjs', before = '') => {
    const code = `${before}; import(${JSON.stringify(module)}).then(({ answer }) => answer).then(console.log)`;
    return execFileSync(process.execPath, [`--input-type=${kind}`, '--eval', code], { encoding: 'utf8' }).trim();
  };

  it('in a bundle, as a page runs it', async () => {
    const bundled = await build({
      stdin: entry,
      bundle: true,
      format: 'iife',
      globalName: 'found',
      write: false,
      logLevel: 'error',
    });
    const globals: { found?: { answer: Promise<string> } } = {};
    runInNewContext(bundled.outputFiles[0]!.text, globals);
    expect(await globals.found!.answer).toBe('1.000 true false');
  });

  it('in plain Node, and puts back what was there under its name', () => {
    expect(inNode('module')).toBe('1.000 true false');
    expect(inNode('module', 'globalThis.fmin = 7')).toBe('1.000 true true');
  });

  it('does without it beside an AMD loader, in a CommonJS script and with a frozen globalThis', {
    tags: 'long',
  }, () => {
    const amd = "globalThis.define = () => { throw new Error('taken'); }; globalThis.define.amd = {}";
    expect(inNode('module', amd)).toBe('1.000 false false');
    expect(inNode('module', 'Object.freeze(globalThis)')).toBe('1.000 false false');
    expect(inNode('commonjs')).toBe('1.000 false false');
  });
});
