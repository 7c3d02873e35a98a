import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { brokenRules, houseOf, unwieldy } from './fixtures/house-rules.js';

const root = fileURLToPath(new URL('..', import.meta.url));
const developers = readFileSync(`${root}DEVELOPERS.md`, 'utf8');
const house = houseOf(developers);

/** Files of the project, whether committed or not. */
function tracked(...patterns: string[]): string[] {
  const argv = ['ls-files', '--cached', '--others', '--exclude-standard', ...patterns];
  const paths = execFileSync('git', argv, { cwd: root, encoding: 'utf8' });
  return paths.split('\n').filter((path) => path !== '' && existsSync(root + path));
}

const readJson = (path: string) => JSON.parse(readFileSync(path, 'utf8'));

describe('the house', () => {
  it('keeps its rules: folders are entered by their index.ts, and nothing imports upward', () => {
    const files = tracked('*.ts', '*.js').filter((path) => /\w(?<!\.d)\.[jt]s$/.test(path));
    expect(files.length).toBeGreaterThan(300);
    expect(
      brokenRules(
        files.map((path) => ({ path, text: readFileSync(root + path, 'utf8') })),
        house,
      ),
    ).toEqual([]);
  });

  it('raises to no power that engines round each in its own way', () => {
    const code = tracked('packages/core/src/**.ts', 'packages/optimizer/src/**.ts').filter(
      (path) => !/\.test\.ts$|\/test\//.test(path),
    );
    const rounded = code.flatMap((path) =>
      readFileSync(root + path, 'utf8')
        .replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '')
        .split('\n')
        .filter((line) => /Math\.pow|(?<!\b2 )\*\*(?! 2\b)/.test(line))
        .map((line) => `${path}: ${line.trim()}`),
    );
    expect(rounded).toEqual([]);
  });

  it('has no function of more than 100 lines or 5 arguments', () => {
    const code = tracked('packages/*/src/**.ts').filter((path) => !/\.test\.ts$|\/test\//.test(path));
    expect(unwieldy(code.map((path) => ({ path, text: readFileSync(root + path, 'utf8') })))).toEqual([]);
  });

  it('builds the check on nothing that the fast model is made of', () => {
    const { core } = house;
    for (const fast of ['edge', 'mesh/quad', 'host', 'stress'])
      expect(core!.indexOf('mesh/triangle'), fast).toBeLessThan(core!.indexOf(fast));
  });
});

describe('the page of dependencies', () => {
  it.each(['core', 'optimizer', 'cli'])('names what %s brings, and its licence as installed', (name) => {
    const folder = `${root}packages/${name}`;
    const { dependencies, optionalDependencies, peerDependencies } = readJson(`${folder}/package.json`);
    const brought = Object.keys({ ...dependencies, ...optionalDependencies, ...peerDependencies });
    const others = brought.filter((dependency) => !dependency.startsWith('@lumenfront/'));
    const rows = [...developers.matchAll(/^\| `(\S+)` \| (\w+)[^|]*\|[^|]*\| (\S+) \|/gm)].filter(
      (row) => row[2] === name,
    );
    expect(rows.map((row) => row[1]).sort()).toEqual(others.sort());
    for (const [, dependency, , licence] of rows)
      expect(readJson(`${folder}/node_modules/${dependency}/package.json`).license, dependency).toBe(licence);
  });
});

describe('unwieldy', () => {
  const told = (text: string) => unwieldy([{ path: 'a.ts', text }]);

  it('tells functions of more than 5 arguments, or 100 lines', () => {
    expect(told('function a(b, c, d, e, f) {}')).toEqual([]);
    expect(told('function a(b, c, d, e, f, g) {}')).toEqual(['a.ts a']);
    expect(told('const a = (b, c, d, e, f, g) => b;')).toEqual(['a.ts a']);
    expect(told('interface A { a(b, c, d, e, f, g): void }')).toEqual([]);
    const long = (lines: number) => `function a() {${'\n'.repeat(lines - 1)}}`;
    expect(told(long(100))).toEqual([]);
    expect(told(long(101))).toEqual(['a.ts a']);
  });
});

describe('brokenRules', () => {
  const small = { core: ['ground', 'room', 'roof'] };
  const room = [
    { path: 'packages/core/src/ground/index.ts', text: "export { a } from './a.js';" },
    { path: 'packages/core/src/ground/a.ts', text: 'export const a = 1;' },
    { path: 'packages/core/src/room/index.ts', text: "export { b } from './b.js';" },
    { path: 'packages/core/src/index.ts', text: "export * from './room/index.js';" },
  ];
  const broken = (path: string, text: string) => brokenRules([...room, { path, text }], small);

  it.each([
    ['a room below', 'packages/core/src/room/b.ts', "import { a } from '../ground/index.js';"],
    ['a neighbour in its own room', 'packages/core/src/ground/b.ts', "import { a } from './a.js';"],
    ['from a cellar of its own room', 'packages/core/src/ground/cellar/b.ts', "import { a } from '../a.js';"],
    ['upward in a test', 'packages/core/src/ground/a.test.ts', "import { b } from '../room/index.js';"],
    ['a room from outside', 'test/b.ts', "import { a } from '../packages/core/src/ground/index.js';"],
    ['packages', 'packages/core/src/room/b.ts', "import { z } from 'zod';"],
  ])('lets pass %s', (_, path, text) => {
    expect(broken(path, text)).toEqual([]);
  });

  it.each([
    [
      'past a door',
      'packages/core/src/room/b.ts',
      "import { a } from '../ground/a.js';",
      /ground\/a.ts, not .*ground\/index/,
    ],
    [
      'past a door, types only',
      'packages/core/src/room/b.ts',
      "import type { A } from '../ground/a.js';",
      /not .*index/,
    ],
    ['past a door, handed on', 'packages/core/src/room/b.ts', "export { a } from '../ground/a.js';", /not .*index/],
    ['past a door, later', 'packages/core/src/room/b.ts', "await import('../ground/a.js');", /not .*index/],
    ['past a door in a test', 'packages/core/src/room/b.test.ts', "import { a } from '../ground/a.js';", /not .*index/],
    ['past a door from outside', 'test/b.ts', "import { a } from '../packages/core/src/ground/a.js';", /not .*index/],
    [
      'past a door when built',
      'benchmarks/b.js',
      "import { a } from '../packages/core/dist/ground/a.js';",
      /not .*index/,
    ],
    ['upward', 'packages/core/src/ground/b.ts', "import { b } from '../room/index.js';", /imports upward: .*room/],
    ['upward to the index of all', 'packages/core/src/room/b.ts', "import { b } from '../index.js';", /imports upward/],
    ['from a room without a name', 'packages/core/src/attic/b.ts', '', /attic\/b.ts stands in no room/],
  ])('tells an import %s', (_, path, text, message) => {
    expect(broken(path, text)).toEqual([expect.stringMatching(message)]);
  });
});
