import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { markOf, readBrief, starterBrief } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { runCommand } from './fixtures/command.js';

const root = fileURLToPath(new URL('..', import.meta.url));
const readme = readFileSync(new URL('../README.md', import.meta.url), 'utf8');
const blocks = (text: string, language: string) =>
  text.split('```').flatMap((block) => (block.startsWith(`${language}\n`) ? [block.slice(language.length + 1)] : []));
const run = (...args: string[]) => execFileSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
const helpOf = async (command: string) => (await runCommand(command, '--help')).stdout;

describe('README', () => {
  it('opens with the commands that package.json has', () => {
    const { scripts } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'));
    for (const [, name] of readme.matchAll(/^npm run (\w+)/gm)) expect(scripts).toHaveProperty(name!);
    expect(scripts).toHaveProperty('test');
  });

  it('shows pictures of the starter brief as it is', async () => {
    const files = [...readme.matchAll(/!\[[^\]]*\]\((.*?)\)/g)].map(([, file]) => file);
    expect(files).toHaveLength(2);
    for (const file of files) expect(readFileSync(new URL(`../${file}`, import.meta.url), 'utf8')).toContain('<svg');
    const drawnOf = readFileSync(new URL('../packages/cli/guide/pictures/of-brief.txt', import.meta.url), 'utf8');
    expect(drawnOf.trim(), 'draw them anew: node scripts/pictures.js').toBe(
      markOf(await readBrief(starterBrief)).fingerprint,
    );
  });

  it('names the commands that there are, all of them', () => {
    const help = run('packages/cli/bin/lumenfront.js', '--help');
    const known = [...help.matchAll(/^ {2}(\w+) {2,}/gm)].map(([, name]) => name).filter((name) => name !== 'help');
    const named = [...readme.matchAll(/^\| `(\w+)` +\|/gm)].map(([, name]) => name);
    expect(named.sort()).toEqual(known.sort());
  });

  it.each(['README.md', 'packages/cli/README.md', 'packages/cli/guide/joint.md', 'packages/cli/guide/sweeps.md'])(
    'names options that the commands have: %s',
    async (file) => {
      const page = readFileSync(new URL(`../${file}`, import.meta.url), 'utf8');
      for (const [, command, options] of page.matchAll(/^(?:npx )?lumenfront (\w+)(.*)$/gm)) {
        const help = await helpOf(command!);
        for (const [option] of options!.matchAll(/--[a-z-]+/g)) expect(help, command).toContain(option);
      }
    },
  );

  it.each(['README.md', 'packages/core/README.md'])(
    'shows examples of the library that print what they say: %s',
    { tags: 'long' },
    (file) => {
      const examples = blocks(readFileSync(new URL(`../${file}`, import.meta.url), 'utf8'), 'js');
      expect(examples.length).toBeGreaterThan(0);
      for (const example of examples) {
        const said = [...example.matchAll(/console\.log\(.*\); \/\/ (.*)/g)].map(([, output]) => output);
        expect(said).toHaveLength(1);
        expect(run('--input-type=module', '--eval', example).trim()).toBe(said[0]);
      }
    },
  );
});
