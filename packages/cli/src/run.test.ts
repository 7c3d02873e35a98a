import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { InputError, readBrief, starterBrief, UnmetError } from '@lumenfront/core';
import { CommanderError } from 'commander';
import { describe, expect, it } from 'vitest';
import { describeFailure } from './failure.js';
import { run } from './run.js';

async function lumenfront(...argv: string[]) {
  const streams = { stdout: new PassThrough(), stderr: new PassThrough() };
  const exitCode = await run(argv, streams);
  return { exitCode, stdout: String(streams.stdout.read() ?? ''), stderr: String(streams.stderr.read() ?? '') };
}

describe('the command line', () => {
  it('shows its help, with the caution and the exit codes, also without arguments', async () => {
    const help = await lumenfront('--help');
    expect(help).toMatchObject({ exitCode: 0, stderr: '' });
    expect(help.stdout.replaceAll(/\s+/g, ' ')).toMatch(/verify them by test and by a qualified engineer/);
    expect(help.stdout).toMatch(/Exit codes: 0 done/);
    expect(await lumenfront()).toEqual(help);
  });

  it('shows the help of a command in two ways', async () => {
    const help = await lumenfront('brief', '--help');
    expect(help.exitCode).toBe(0);
    for (const option of ['--json', '--seed', '--quiet', '--schema']) expect(help.stdout).toContain(option);
    expect(await lumenfront('help', 'brief')).toEqual(help);
  });

  it.each([
    [['breif'], /unknown command 'breif'.*brief/],
    [['--verbose'], /unknown option '--verbose'; see lumenfront --help/],
    [['help', 'nonsense'], /received help nonsense/],
    [['brief', '--colour'], /unknown option '--colour'.*see lumenfront brief --help/],
    [['brief', 'joint.yaml'], /too many arguments.*; to check a brief write lumenfront brief --check joint\.yaml; see/],
    [['fron'], /unknown command 'fron'; did you mean 'front'\? Otherwise see lumenfront --help/],
    [['help', 'frnt'], /help frnt; did you mean 'front'\?/],
    [['front', '--ot', 'x'], /unknown option '--ot'; did you mean '--out'\?/],
    [['front', '--objective', 'pek'], /'pek' is invalid.*; did you mean 'peak'\?/],
    [['check', '--chanel', 'x'], /; did you mean '--channel'\?/],
    [['brief', '--out'], /argument missing/],
    [['brief', '--schema', '--check', 'a.yaml'], /cannot be used with/],
    [['brief', '--seed', '12abc'], /--seed: expected a whole number of at least 0, received "12abc"; write/],
    [['brief', '--seed', '-1'], /expected a whole number/],
    [['brief', '--seed', ''], /expected a whole number/],
  ])('refuses %j', async (argv, says) => {
    const { exitCode, stdout, stderr } = await lumenfront(...argv);
    expect(exitCode).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(says);
    expect(stderr).toMatch(/: expected .*, received .*; /);
  });

  it('says with --json what failed as one JSON document', async () => {
    const { exitCode, stdout, stderr } = await lumenfront('brief', '--check', 'none.yaml', '--json');
    expect([exitCode, stdout]).toEqual([2, '']);
    const { error } = JSON.parse(stderr);
    expect(error).toMatchObject({ kind: 'bad input', exitCode: 2 });
    expect(error.problems[0]).toMatchObject({ path: 'none.yaml', received: 'no such file' });
  });
});

describe('failures', () => {
  it.each([
    [new InputError({ path: 'a', expected: 'b', received: 'c', remedy: 'd' }), 2, /^a: expected b, received c; d\n$/],
    [new UnmetError('wall is missed by 0.1 mm'), 1, /^cannot be met: wall is missed by 0.1 mm\n$/],
    [new CommanderError(1, 'commander.unknownOption', "error: unknown option '-x'"), 2, /unknown option '-x'/],
    [new TypeError('oops'), 3, /^internal error.*\n.*TypeError: oops/],
    ['thrown text', 3, /^internal error.*\nthrown text\n$/],
  ])('%s ends with exit code %d', (error, exitCode, says) => {
    const failure = describeFailure(error, [], ['brief']);
    expect(failure.exitCode).toBe(exitCode);
    expect(failure.text).toMatch(says);
    expect(JSON.parse(describeFailure(error, ['--json'], ['brief']).text).error.exitCode).toBe(exitCode);
  });
});

describe('brief', () => {
  it('writes the starter brief, as text or JSON', async () => {
    expect(await lumenfront('brief')).toEqual({ exitCode: 0, stdout: starterBrief, stderr: '' });
    const { stdout } = await lumenfront('brief', '--json');
    expect(await readBrief(stdout)).toEqual(await readBrief(starterBrief));
  });

  it('takes a seed', async () => {
    expect((await readBrief((await lumenfront('brief', '--seed', '7')).stdout)).search.seed).toBe(7);
  });

  it('writes to a file, but never over one without --force', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'lumenfront-brief-'));
    try {
      const file = join(folder, 'brief.yaml');
      expect(await lumenfront('brief', '--out', file)).toEqual({ exitCode: 0, stdout: '', stderr: `wrote ${file}\n` });
      expect((await lumenfront('brief', '--schema', '--out', file)).exitCode).toBe(2);
      expect(readFileSync(file, 'utf8')).toBe(starterBrief);
      const forced = await lumenfront('brief', '--schema', '--out', file, '--force', '--quiet');
      expect(forced).toEqual({ exitCode: 0, stdout: '', stderr: '' });
      expect(JSON.parse(readFileSync(file, 'utf8')).$schema).toMatch(/2020-12/);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('checks a brief and says what it comes to', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'lumenfront-brief-'));
    try {
      const file = join(folder, 'brief.yaml');
      await lumenfront('brief', '--out', file);
      const { exitCode, stdout, stderr } = await lumenfront('brief', '--check', file, '--seed', '9');
      expect([exitCode, stderr]).toEqual([0, '']);
      expect(stdout).toMatch(/tee, bend radius 8 mm[\s\S]*case cured +1 x cure[\s\S]*seed 9/);
      const json = await lumenfront('brief', '--check', file, '--json');
      expect(JSON.parse(json.stdout)).toEqual(await readBrief(starterBrief));
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
