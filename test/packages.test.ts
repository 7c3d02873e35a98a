import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createPackedProject, filesIn, type PackedProject } from './fixtures/packed.js';

const compiler = fileURLToPath(new URL('../node_modules/typescript/bin/tsc', import.meta.url));

let project: PackedProject;
beforeAll(() => {
  project = createPackedProject();
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
  const compile = (options: object, imports: readonly string[]) => {
    const lines = imports.map((name, i) => `import * as part${i} from '${name}';\nexport { part${i} };`);
    writeFileSync(join(project.folder, 'use.ts'), lines.join('\n'));
    writeFileSync(
      join(project.folder, 'tsconfig.json'),
      JSON.stringify({ compilerOptions: { ...strict, ...options }, files: ['use.ts'] }),
    );
    return execFileSync(process.execPath, [compiler, '-p', project.folder], { encoding: 'utf8' });
  };

  it('of the engine are right under nodenext, without DOM and without Node', () => {
    const options = { module: 'nodenext', moduleResolution: 'nodenext', lib: ['es2023'], types: [] };
    expect(compile(options, names.slice(0, 2))).toBe('');
  });

  it('of everything are right under bundler', () => {
    const parts = ['', '/draw', '/picture', '/report'].map((part) => `lumenfront${part}`);
    const options = {
      module: 'esnext',
      moduleResolution: 'bundler',
      lib: ['es2023', 'dom', 'dom.iterable'],
      types: ['node'],
    };
    expect(compile(options, [...names, ...parts.slice(1)])).toBe('');
  });
});
