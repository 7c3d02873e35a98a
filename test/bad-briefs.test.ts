import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { starterBrief } from '@lumenfront/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runCommand } from './fixtures/command.js';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-bad-briefs-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const check = (file: string) => runCommand('brief', '--check', file);

/** The same in a process of its own, as a user meets it. */
function checkBuilt(file: string) {
  const command = fileURLToPath(new URL('../packages/cli/bin/lumenfront.js', import.meta.url));
  return spawnSync(process.execPath, [command, 'brief', '--check', file], { encoding: 'utf8' });
}

function checkText(content: string | Uint8Array) {
  const file = join(folder, 'brief.yaml');
  writeFileSync(file, content);
  return check(file);
}

const edit = (from: string | RegExp, to: string) => {
  const edited = starterBrief.replace(from, to);
  if (edited === starterBrief) throw new Error(`${from} is not in the starter brief`);
  return edited;
};

/** Line, path, what was expected, what was received, what to do. */
type BadBrief = readonly [
  name: string,
  text: string | Uint8Array,
  line: string,
  path: string,
  expected: RegExp,
  received: RegExp,
  remedy: RegExp,
];

const lineOf = (key: string) =>
  `:${starterBrief.split('\n').findIndex((line) => line.trimStart().startsWith(key)) + 1}`;

const table: readonly BadBrief[] = [
  [
    'an unknown key',
    edit('wall: 0.2 ', 'wal: 0.2 '),
    lineOf('wall:'),
    'channel.wal',
    /one of the keys .*wall/,
    /'?wal/,
    /did you mean 'wall'/,
  ],
  [
    'a wrong type',
    edit('bendRadius: 8', 'bendRadius: [8]'),
    lineOf('bendRadius:'),
    'host.bendRadius',
    /a number above 0 .* mm/,
    /a list of 1/,
    /number/,
  ],
  [
    'a negative thickness',
    edit('thickness: 5', 'thickness: -5'),
    lineOf('thickness:'),
    'host.skin.thickness',
    /above 0/,
    /-5/,
    /range/,
  ],
  [
    'a bend tighter than its laminate',
    edit('bendRadius: 8', 'bendRadius: 2.7'),
    lineOf('bendRadius:'),
    'host.bendRadius',
    /more than .* 2.7 mm/,
    /2.7 mm/,
    /larger bend radius/,
  ],
  [
    'no outline families',
    edit('[ellipse, teardrop, spline]', '[]'),
    lineOf('families:'),
    'channel.families',
    /a list of 1 to 4/,
    /an empty list/,
    /add/,
  ],
  [
    'a reference outside the filler',
    edit('at: [0, 2] ', 'at: [0, 12] '),
    lineOf('reference:'),
    'channel.reference',
    /inside the filler/,
    /\[0, 12\]/,
    /\[0, 2\]/,
  ],
  [
    'NaN',
    edit('E1: 39000', 'E1: .nan'),
    lineOf('E1:'),
    'materials.demo-glass-epoxy.E1',
    /a number above 0/,
    /NaN/,
    /number/,
  ],
  [
    'no room for a channel',
    edit('edgeRadius: 0.25', 'edgeRadius: 3'),
    lineOf('edgeRadius:'),
    'channel.edgeRadius',
    /below 1.92 mm/,
    /3.2 mm/,
    /no channel fits/,
  ],
  [
    'a case of an absent load',
    edit('cured: { cure: 1 }', 'cured: { side: 1 }'),
    lineOf('cured:'),
    'cases.cured.side',
    /pull, cure/,
    /side/,
    /add side under loads/,
  ],
  [
    'an absent material',
    edit('filler: { ply: demo-glass-epoxy }', 'filler: { ply: foam }'),
    lineOf('filler:'),
    'host.filler.ply',
    /a material out of/,
    /"foam"/,
    /under materials/,
  ],
  [
    'broken syntax',
    edit('[ellipse, teardrop, spline]', '[ellipse'),
    '',
    'brief',
    /well-formed YAML or JSON/,
    /wall/,
    /syntax/,
  ],
  [
    'a key twice',
    `${starterBrief}allow: 3\n`,
    `:${starterBrief.split('\n').length}`,
    'brief',
    /each key once/,
    /allow: 3/,
    /remove one/,
  ],
  ['an empty file', '', '', 'brief', /a brief/, /an empty file/, /starter brief/],
  [
    'a picture',
    Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0x0d),
    '',
    '',
    /text file/,
    /not UTF-8/,
    /save it/,
  ],
  ['a bomb of brackets', '['.repeat(500_000), ':1', 'brief', /a few levels/, /nesting/, /starter brief/],
];

describe('a bad brief ends the command with exit code 2 and says', () => {
  it.each(table)('%s', async (_name, text, line, path, expected, received, remedy) => {
    const { status, stdout, stderr } = await checkText(text);
    expect(status).toBe(2);
    expect(stdout).toBe('');
    const lines = stderr.trimEnd().split('\n');
    expect(lines.length).toBeLessThan(5);
    const found = lines.find((one) => one.includes(`brief.yaml${line}`) && one.includes(`${path}: expected`));
    expect(found, stderr).toBeDefined();
    const [, whatExpected, whatReceived, whatToDo] = /: expected (.*), received (.*); (.*)$/.exec(found!)!;
    expect(whatExpected).toMatch(expected);
    expect(whatReceived).toMatch(received);
    expect(whatToDo).toMatch(remedy);
  });

  it('all of what is wrong at once', () => {
    const text = edit('bendRadius: 8', 'bendRadius: 0')
      .replace('support: clamped', 'support: glued')
      .replace('seed: 1', 'sed: 1');
    const file = join(folder, 'wrong.yaml');
    writeFileSync(file, text);
    const { status, stderr } = checkBuilt(file);
    expect(status).toBe(2);
    for (const path of ['host.bendRadius', 'host.support', 'search.sed']) expect(stderr).toContain(`${path}: expected`);
  });
});

describe('a file that is no brief ends the command with exit code 2', () => {
  it.each([
    ['is missing', () => join(folder, 'none.yaml'), /no such file; check the name/],
    ['is a folder', () => folder, /a folder; name a file in it/],
    ['never ends', () => '/dev/zero', /more than 1 MiB; check/],
    [
      'has 50 MB',
      () => {
        const file = join(folder, 'large.yaml');
        writeFileSync(file, '');
        truncateSync(file, 50_000_000);
        return file;
      },
      /a file of 47.7 MiB; check/,
    ],
  ])('that %s', async (_name, file, says) => {
    const { status, stdout, stderr } = await check(file());
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/expected a brief, a readable text file of at most 1 MiB, received/);
    expect(stderr).toMatch(says);
  });
});
