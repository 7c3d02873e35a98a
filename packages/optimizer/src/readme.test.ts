import { readFileSync } from 'node:fs';
import * as core from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import * as optimizer from './index.js';

const readme = readFileSync(new URL('../README.md', import.meta.url), 'utf8');
const examples = readme.split(/^## /m).flatMap((section) => {
  const title = section.slice(0, section.indexOf('\n'));
  return section
    .split('```')
    .filter((block) => block.startsWith('js\n'))
    .map((block) => ({ title, code: block.slice(3) }));
});

describe('examples of the README', () => {
  it('are found', () => {
    expect(examples.map(({ title }) => title)).toEqual([
      'A front',
      'One objective',
      "One's own loop",
      'Polish',
      'The channel search',
    ]);
  });

  for (const { title, code } of examples) {
    it(`${title}: prints what it says`, { tags: 'long' }, async () => {
      const said = [...code.matchAll(/console\.log\(.*\); \/\/ (.*)/g)].map(([, output]) => output);
      const printed: string[] = [];
      const print = { log: (...values: unknown[]) => void printed.push(values.join(' ')) };
      const script = code.replaceAll(/import \{(.*)\} from '@lumenfront\/(\w+)';/g, 'const {$1} = $2;');
      const run = new Function('core', 'optimizer', 'console', `return (async () => {${script}})();`);
      await run(core, optimizer, print);
      expect(said.length).toBeGreaterThan(0);
      expect(printed).toEqual(said);
    });
  }
});
