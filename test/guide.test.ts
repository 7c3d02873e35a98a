import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { run } from 'lumenfront';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const page = readFileSync(new URL('../packages/cli/guide/joint.md', import.meta.url), 'utf8');
const rib = readFileSync(new URL('examples/thin-rib.yaml', import.meta.url), 'utf8');
/** Sweeps have a guide and tests of their own. */
const commands = [...page.matchAll(/^lumenfront (?!sweep|brief --out)(.*)$/gm)].map(([, line]) => line!);

let folder: string;
const before = process.cwd();
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-guide-'));
  writeFileSync(join(folder, 'joint.yaml'), rib.replace(/evaluations: \d+/, 'evaluations: 300'));
  writeFileSync(join(folder, 'round.json'), /`(\{ "family".*?)`/.exec(page)![1]!);
  process.chdir(folder);
});
afterAll(() => {
  process.chdir(before);
  rmSync(folder, { recursive: true });
});

describe('the guide through one joint', { tags: 'long' }, () => {
  it('has the commands of the whole way', () => {
    expect(new Set(commands.map((line) => line.split(' ')[0]))).toEqual(
      new Set(['brief', 'check', 'front', 'pick', 'deliver', 'scatter', 'draw', 'report']),
    );
  });

  it.each(commands)('%s', async (line) => {
    const streams = { stdout: new PassThrough(), stderr: new PassThrough() };
    streams.stdout.resume();
    // So few outlines as are tried here find none within what the guide allows.
    const code = await run([...line.replace('--allow 40', '--allow 60').split(' '), '--quiet'], streams);
    expect(String(streams.stderr.read() ?? '')).toBe('');
    expect(code).toBe(0);
  });
});
