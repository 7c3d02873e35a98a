import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readBrief, starterBrief } from '@lumenfront/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';

/** The built command, in a process of its own: signals go to processes. */
const command = fileURLToPath(new URL('../../bin/lumenfront.js', import.meta.url));

let folder: string;
let brief: string;
beforeAll(async () => {
  preparedTask(await readBrief(starterBrief));
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-stop-'));
  brief = join(folder, 'joint.yaml');
  writeFileSync(brief, starterBrief.replace('evaluations: 20000', 'evaluations: 100000000'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Sends Ctrl-C some time after the joint is known: the search would take hours, and finds channels with its first outlines. */
function interrupted(...argv: readonly string[]) {
  return new Promise<{ code: number | null; stdout: string; stderr: string }>((resolve) => {
    const child = spawn(process.execPath, [command, ...argv], { stdio: ['ignore', 'pipe', 'pipe'] });
    let [stdout, stderr] = ['', ''];
    child.stdout.on('data', (chunk) => {
      stdout += chunk;
    });
    let timer: NodeJS.Timeout | undefined;
    child.stderr.on('data', (chunk) => {
      stderr += chunk;
      if (stderr.includes('joint solved before')) timer ??= setTimeout(() => child.kill('SIGINT'), 2500);
    });
    child.on('close', (code) => {
      clearTimeout(timer);
      resolve({ code, stdout, stderr });
    });
  });
}

describe('Ctrl-C during a search', { tags: 'long' }, () => {
  it.each([
    ['front', '1'],
    ['pick', '1'],
    ['front', '2'],
  ])('%s on %s threads tells and writes the best so far and exits with 130', async (name, workers) => {
    const out = join(folder, `${name}-${workers}.json`);
    const { code, stdout, stderr } = await interrupted(name, brief, '--workers', workers, '--out', out);
    expect(code, stderr).toBe(130);
    expect(stderr).toMatch(/stopped after \d+ of 100000000 outlines: this is the best so far/);
    expect(stderr).toMatch(/stopped before the search was done\n$/);
    expect(stdout).toMatch(/ref\./);
    expect(existsSync(out)).toBe(true);
    const written = JSON.parse(readFileSync(out, 'utf8'));
    expect(name === 'front' ? written.designs.length : written.design.area).toBeGreaterThan(0);
  });
});
