import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { browserPath, noteMissingBrowser, openBrowser, servePage } from './fixtures/browser.js';
import { createPackedProject, filesIn, type PackedProject } from './fixtures/packed.js';

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

describe.each(names)('%s as it is packed', { tags: 'long' }, (name) => {
  it('is what package managers and bundlers expect', async () => {
    const { buffer, byteOffset, length } = project.tarballs[name]!;
    const tarball = buffer.slice(byteOffset, byteOffset + length) as ArrayBuffer;
    const { messages, pkg } = await publint({ pack: { tarball }, strict: true });
    expect(messages.map((message) => formatMessage(message, pkg))).toEqual([]);
  });

  it('stands alone: versions for its dependencies, README and licence, the sources that its maps name, no tests', () => {
    const { dependencies, version, keywords } = manifestOf(name);
    for (const [other, range] of Object.entries(dependencies))
      expect(range, other).toMatch(other.startsWith('@lumenfront/') ? new RegExp(`^${version}$`) : /^(\^?\d|~)/);
    expect(keywords.length).toBeGreaterThan(3);
    const folder = join(project.folder, 'node_modules', name);
    const files = new Set(filesIn(folder).filter((file) => !file.startsWith('node_modules')));
    expect(files).toContain('README.md');
    expect(files).toContain('LICENSE');
    expect([...files].filter((file) => file.includes('.test.') || file.includes('/test/'))).toEqual([]);
    const { sources } = JSON.parse(readFileSync(join(folder, 'dist/index.js.map'), 'utf8'));
    for (const source of sources) expect(files).toContain(join('dist', source));
  });
});

it('installs the queue only for who asks for it', { tags: 'long' }, () => {
  const { dependencies, optionalDependencies, peerDependenciesMeta } = manifestOf('lumenfront');
  expect(dependencies.bullmq ?? optionalDependencies?.bullmq).toBeUndefined();
  expect(peerDependenciesMeta.bullmq).toEqual({ optional: true });
});

it('is a command of the system by npm i -g from its tarballs', { tags: 'long', timeout: 300_000 }, (context) => {
  const prefix = join(project.folder, 'global');
  const files = readdirSync(project.folder).filter((file) => file.endsWith('.tgz'));
  const install = ['install', '--global', '--prefix', prefix, '--no-audit', '--no-fund', ...files];
  const { status, stderr } = spawnSync('npm', install, { cwd: project.folder, encoding: 'utf8' });
  // What the packages depend on comes from a registry.
  if (/ENOTFOUND|ECONNREFUSED|ETIMEDOUT|EAI_AGAIN/.test(stderr)) context.skip('no registry within reach');
  expect(status, stderr).toBe(0);
  const help = execFileSync(join(prefix, 'bin/lumenfront'), ['--help'], { encoding: 'utf8' });
  expect(help).toMatch(/^Usage: lumenfront /);
});

describe('types', { tags: 'long' }, () => {
  const strict = { noEmit: true, strict: true, skipLibCheck: false, target: ts.ScriptTarget.ES2022 };
  /** What the compiler says of what the packages are typed by, and of `files`; not of the language's own libraries. */
  const complaints = (options: ts.CompilerOptions, imports: readonly string[], files: readonly string[] = []) => {
    const lines = imports.map((name, i) => `import * as part${i} from '${name}';\nexport { part${i} };`);
    writeFileSync(join(project.folder, 'use.ts'), lines.join('\n'));
    const roots = ['use.ts', ...files].map((file) => join(project.folder, file));
    const all = { ...strict, ...options, typeRoots: [join(project.folder, 'node_modules/@types')] };
    const program = ts.createProgram(roots, all);
    const own = program
      .getSourceFiles()
      .filter((file) => !program.isSourceFileDefaultLibrary(file) && !file.fileName.includes('/@types/node/'));
    expect(own.length).toBeGreaterThan(roots.length);
    return [
      ...program.getOptionsDiagnostics(),
      ...own.flatMap((file) => [...program.getSyntacticDiagnostics(file), ...program.getSemanticDiagnostics(file)]),
    ].map(({ file, messageText }) => `${file?.fileName}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`);
  };

  it('of the engine are right under nodenext, without DOM and without Node', () => {
    const { NodeNext: module } = ts.ModuleKind;
    const moduleResolution = ts.ModuleResolutionKind.NodeNext;
    const options = { module, moduleResolution, lib: ['lib.es2023.d.ts'], types: [] };
    expect(complaints(options, names.slice(0, 2))).toEqual([]);
  });

  it('of everything are right under bundler, as programs use it', () => {
    const parts = ['', '/draw', '/picture', '/report'].map((part) => `lumenfront${part}`);
    const options = {
      module: ts.ModuleKind.ESNext,
      moduleResolution: ts.ModuleResolutionKind.Bundler,
      lib: ['lib.es2023.d.ts', 'lib.dom.d.ts', 'lib.dom.iterable.d.ts'],
      types: ['node'],
    };
    const programs = programNames.map((name) => `programs/${name}.ts`);
    expect(complaints(options, [...names, ...parts.slice(1)], programs)).toEqual([]);
  });
});

/** Solves the joint that the programs share but once. */
const sharing = `
import { reduceJoint as reduce } from '@lumenfront/core';
export * from '@lumenfront/core';
const models = new Map();
export function reduceJoint(...given) {
  const key = JSON.stringify(given);
  if (!models.has(key)) models.set(key, reduce(...given));
  return models.get(key);
}
`;

/** Runs modules one after the other, and prints what each printed. */
const running = `
const printed = {};
for (const name of process.argv.slice(2)) {
  printed[name] = [];
  console.log = (...values) => printed[name].push(values.join(' '));
  await import('./' + name + '.js');
}
process.stdout.write(JSON.stringify(printed));
`;

describe('programs on the packed packages print what they say', { tags: 'long' }, () => {
  const saidBy = (name: string) =>
    [...readFileSync(join(programFolder, `${name}.ts`), 'utf8').matchAll(/console\.log\(.*\); \/\/ (.*)/g)].map(
      ([, text]) => text,
    );
  const inPrograms = (file: string) => join(project.folder, 'programs', file);
  const source = (name: string) => inPrograms(`${name}.ts`);

  beforeAll(async () => {
    const outdir = inPrograms('');
    await build({ entryPoints: programNames.map(source), outdir, format: 'esm', target: 'node20', logLevel: 'error' });
  });

  it('in Node', () => {
    const names = programNames.filter((name) => name !== 'front-worker');
    writeFileSync(inPrograms('sharing.js'), sharing);
    writeFileSync(inPrograms('running.js'), running);
    for (const name of names) {
      const built = readFileSync(inPrograms(`${name}.js`), 'utf8');
      writeFileSync(inPrograms(`${name}.js`), built.replace('"@lumenfront/core"', '"./sharing.js"'));
    }
    const printed = execFileSync(process.execPath, [inPrograms('running.js'), ...names], { encoding: 'utf8' });
    expect(JSON.parse(printed)).toEqual(Object.fromEntries(names.map((name) => [name, saidBy(name)])));
  });

  noteMissingBrowser();
  it.runIf(browserPath !== undefined)(
    'in Chromium',
    async () => {
      const { outputFiles } = await build({
        entryPoints: programNames.map(source),
        ...{ outdir: '/', bundle: true, format: 'esm', write: false, external: ['node:*'], logLevel: 'error' },
      });
      const scripts = new Map(outputFiles.map(({ path, text }) => [path, text]));
      for (const name of ['own-host', 'kept-model', 'front-with-workers']) {
        const { server, address } = servePage(scripts, `<script type="module" src="/${name}.js"></script>`);
        const browser = await openBrowser();
        try {
          const page = await browser.newPage();
          const printed: string[] = [];
          // What a page logs besides is of its address bar's picture.
          page.on('console', (message) => message.type() === 'log' && printed.push(message.text()));
          page.on('pageerror', ({ message }) => printed.push(message));
          await page.goto(address);
          await expect.poll(() => printed, { timeout: 60_000 }).toHaveLength(saidBy(name).length);
          expect(printed, name).toEqual(saidBy(name));
        } finally {
          await browser.close();
          server.close();
        }
      }
    },
    120_000,
  );
});
