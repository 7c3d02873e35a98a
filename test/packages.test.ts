import { execFile, execFileSync } from 'node:child_process';
import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { build } from 'esbuild';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { browserPath, noteMissingBrowser, openBrowser } from './fixtures/browser.js';
import { createPackedProject, filesIn, type PackedProject } from './fixtures/packed.js';

const compiler = fileURLToPath(new URL('../node_modules/typescript/bin/tsc', import.meta.url));

const programFolder = fileURLToPath(new URL('examples/programs', import.meta.url));
const programNames = readdirSync(programFolder).flatMap((file) => (file.endsWith('.ts') ? [file.slice(0, -3)] : []));

let project: PackedProject;
beforeAll(() => {
  project = createPackedProject();
  cpSync(programFolder, join(project.folder, 'programs'), { recursive: true });
});
afterAll(() => project?.remove());

const names = ['@lumenfront/core', '@lumenfront/optimizer', 'lumenfront'];
const manifestOf = (name: string) =>
  JSON.parse(readFileSync(join(project.folder, 'node_modules', name, 'package.json'), 'utf8'));

describe.each(names)('%s as it is packed', (name) => {
  it('is what package managers and bundlers expect', async () => {
    const { buffer, byteOffset, length } = project.tarballs[name]!;
    const tarball = buffer.slice(byteOffset, byteOffset + length) as ArrayBuffer;
    const { messages, pkg } = await publint({ pack: { tarball }, strict: true });
    expect(messages.map((message) => formatMessage(message, pkg))).toEqual([]);
  });

  it('stands alone: versions for its dependencies, a README, the sources that its maps name, no tests', () => {
    const { dependencies, version, keywords } = manifestOf(name);
    for (const [other, range] of Object.entries(dependencies))
      expect(range, other).toMatch(other.startsWith('@lumenfront/') ? new RegExp(`^${version}$`) : /^(\^?\d|~)/);
    expect(keywords.length).toBeGreaterThan(3);
    const folder = join(project.folder, 'node_modules', name);
    const files = new Set(filesIn(folder).filter((file) => !file.startsWith('node_modules')));
    expect(files).toContain('README.md');
    expect([...files].filter((file) => file.includes('.test.') || file.includes('/test/'))).toEqual([]);
    const { sources } = JSON.parse(readFileSync(join(folder, 'dist/index.js.map'), 'utf8'));
    for (const source of sources) expect(files).toContain(join('dist', source));
  });
});

it('installs the queue only for who asks for it', () => {
  const { dependencies, optionalDependencies, peerDependenciesMeta } = manifestOf('lumenfront');
  expect(dependencies.bullmq ?? optionalDependencies?.bullmq).toBeUndefined();
  expect(peerDependenciesMeta.bullmq).toEqual({ optional: true });
});

describe('types', () => {
  const strict = { noEmit: true, strict: true, skipLibCheck: false, target: 'es2022' };
  const compile = (options: object, imports: readonly string[], files: readonly string[] = []) => {
    const lines = imports.map((name, i) => `import * as part${i} from '${name}';\nexport { part${i} };`);
    writeFileSync(join(project.folder, 'use.ts'), lines.join('\n'));
    writeFileSync(
      join(project.folder, 'tsconfig.json'),
      JSON.stringify({ compilerOptions: { ...strict, ...options }, files: ['use.ts', ...files] }),
    );
    return execFileSync(process.execPath, [compiler, '-p', project.folder], { encoding: 'utf8' });
  };

  it('of the engine are right under nodenext, without DOM and without Node', () => {
    const options = { module: 'nodenext', moduleResolution: 'nodenext', lib: ['es2023'], types: [] };
    expect(compile(options, names.slice(0, 2))).toBe('');
  });

  it('of everything are right under bundler, as programs use it', () => {
    const parts = ['', '/draw', '/picture', '/report'].map((part) => `lumenfront${part}`);
    const options = {
      module: 'esnext',
      moduleResolution: 'bundler',
      lib: ['es2023', 'dom', 'dom.iterable'],
      types: ['node'],
    };
    const programs = programNames.map((name) => `programs/${name}.ts`);
    expect(compile(options, [...names, ...parts.slice(1)], programs)).toBe('');
  });
});

describe('programs on the packed packages print what they say', () => {
  const saidBy = (name: string) =>
    [...readFileSync(join(programFolder, `${name}.ts`), 'utf8').matchAll(/console\.log\(.*\); \/\/ (.*)/g)].map(
      ([, text]) => text,
    );
  const source = (name: string) => join(project.folder, 'programs', `${name}.ts`);

  beforeAll(async () => {
    const outdir = join(project.folder, 'programs');
    await build({ entryPoints: programNames.map(source), outdir, format: 'esm', target: 'node20', logLevel: 'error' });
  });

  it.each(programNames.filter((name) => name !== 'front-worker'))('%s, in Node', async (name) => {
    const { stdout } = await promisify(execFile)(process.execPath, [join(project.folder, 'programs', `${name}.js`)]);
    expect(stdout.trim().split('\n')).toEqual(saidBy(name));
  });

  noteMissingBrowser();
  it.runIf(browserPath !== undefined).each(['own-host', 'kept-model'])('%s, in Chromium', async (name) => {
    const bundled = await build({
      entryPoints: [source(name)],
      bundle: true,
      format: 'esm',
      write: false,
      logLevel: 'error',
    });
    const browser = await openBrowser();
    try {
      const page = await browser.newPage();
      const printed: string[] = [];
      page.on('console', (message) => printed.push(message.text()));
      page.on('pageerror', ({ message }) => printed.push(message));
      await page.addScriptTag({ type: 'module', content: bundled.outputFiles[0]!.text });
      await expect.poll(() => printed, { timeout: 60_000 }).toHaveLength(saidBy(name).length);
      expect(printed).toEqual(saidBy(name));
    } finally {
      await browser.close();
    }
  });
});
