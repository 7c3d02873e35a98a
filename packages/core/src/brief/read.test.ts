import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { InputError } from '../errors.js';
import { briefSizeLimit, readBriefText, starterBrief } from './index.js';
import { quoteLayups } from './quote-layups.js';

async function refusal(text: string) {
  const error = await readBriefText(text, { file: 'joint.yaml' }).catch((reason: unknown) => reason);
  if (!(error instanceof InputError)) throw new Error(`expected an InputError, got ${JSON.stringify(error)}`);
  return error.problems;
}

const aliasBomb = ['a0: &a0 [x, x, x, x, x, x, x, x, x]']
  .concat(Array.from({ length: 9 }, (_, i) => `a${i + 1}: &a${i + 1} [${Array(9).fill(`*a${i}`).join(', ')}]`))
  .join('\n');

describe('text that is no brief', () => {
  const table: readonly [name: string, text: string, line: number | undefined, says: RegExp][] = [
    ['empty file', '', undefined, /an empty file/],
    ['comments only', '# nothing\n', undefined, /an empty file/],
    ['binary', 'title: a\n\u0000\u0001\u0002', 2, /control character 0/],
    ['broken encoding', 'title: caf\ufffd', 1, /not UTF-8/],
    [
      'a quote left open',
      'title: "a\nallow: 1\n',
      2,
      /well-formed YAML or JSON, .*"allow: 1" \(a quote or bracket .* is not closed/,
    ],
    ['a bracket left open', 'host: { kind: tee\nallow: 1\n', 2, /a quote or bracket .* is not closed/],
    ['a list left open', 'a:\n  b: [x\n  c: 1\n', 3, /is not closed|a comma or a closing bracket is missing/],
    ['a text that needs quotes', 'title: @a\n', 1, /"title: @a" \(a text that begins with @ needs quotes\)/],
    ['a second colon', 'title: a: b\n', 1, /a second colon: .* a text with a colon that needs quotes/],
    ['a key indented too far', 'allow: 1\n title: a\n', 2, /a second colon: other indentation than before/],
    ['something behind a bracket', 'a: [1, 2]x\n', 1, /something behind a closed bracket/],
    ['a list that is a key', '? [a]\n: 2\n', 1, /a key that is a list/],
    ['a key twice before another mistake', 'allow: 1\nallow: 2\ntitle: @a\n', 2, /each key once, received "allow: 2"/],
    ['tabs as indentation', 'host:\n\tkind: tee\n', 2, /blanks, received a tab/],
    ['duplicate key', 'allow: 1\ntitle: b\nallow: 2\n', 3, /each key once, received "allow: 2"/],
    ['two documents', 'allow: 1\n---\nallow: 2\n', 2, /one brief in a file/],
    ['two documents, each with its mark', '# a\n---\nallow: 1\n---\n', 4, /one brief in a file/],
    ['unknown tag', 'allow: !pressure 3\n', 1, /unknown scalar tag/],
    ['a number that is none', 'allow: !!int x\n', 1, /well-formed YAML/],
    ['alias without anchor', 'allow: *stress\n', undefined, /after its anchor/],
    ['an alias within its own anchor', 'a: &a [*a]\n', undefined, /after its anchor/],
    ['aliases that multiply', aliasBomb, undefined, /at most 100 aliases/],
    ['one alias too many', `a: &a 1\nb: &b [${Array(100).fill('*a')}]\nc: *b\n`, undefined, /at most 100 aliases/],
    ['an alias that is a key', 'a: &a x\n? *a\n: 2\n', 1, /a key that is a list, a mapping or an alias/],
    ['more than 1 MiB', `title: ${'a'.repeat(briefSizeLimit)}`, undefined, /at most 1048576 characters/],
    // Deep nesting once took the whole process down inside the parser.
    ['deep brackets', `title: a\nhost: ${'['.repeat(100_000)}`, 2, /a few levels deep/],
    ['deep braces', '{a: '.repeat(10_000), 1, /a few levels deep/],
    ['deep sequences', '- '.repeat(10_000), 1, /a few levels deep/],
    ['deep keys', '? '.repeat(10_000), 1, /a few levels deep/],
    [
      'deep indentation',
      Array.from({ length: 1000 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'),
      102,
      /a few levels deep/,
    ],
  ];

  it.each(table)('%s', async (_name, text, line, says) => {
    const [problem] = await refusal(text);
    expect(problem?.file).toBe('joint.yaml');
    expect(problem?.line).toBe(line);
    expect(`expected ${problem?.expected}, received ${problem?.received}; ${problem?.remedy}`).toMatch(says);
  });
});

// Another library is the judge.
describe('holds what another reader finds in', () => {
  const folder = fileURLToPath(new URL('../../../../test/examples', import.meta.url));
  const examples = readdirSync(folder).filter((name) => name.endsWith('.yaml'));
  const texts: readonly [string, string][] = [
    ['the starter brief', starterBrief],
    ...examples.map((name): [string, string] => [name, readFileSync(`${folder}/${name}`, 'utf8')]),
    [
      'numbers',
      'a: 0x10\nb: 0o7\nc: 1e3\nd: .5\ne: yes\nf: ~\ng: -.inf\nh: +1\ni: 01\nj: 1_000\nk: 2001-01-01\nl: 1:30\nm: True\n',
    ],
    ['texts', "a: 'it''s'\nb: \"\\u00e9\\n\"\nc: |\n  x\n   y\nd: >-\n  c\n  d\ne: a # b\nf: a#b\ng: !!str 5\n"],
    ['aliases', 'a: &x { b: 1 }\nc: *x\nd: [*x, &y 2, *y]\n'],
    ['JSON', '{"a": [1, 2.5e-3, null, true], "b": { "c d": "\\ud83d\\ude00" }}'],
    ['keys of prototypes', '__proto__: { a: 1 }\nconstructor: 1\n'],
    ['merge keys, which are none in YAML 1.2', '<<: { a: 1 }\nb: 2\n'],
  ];
  it.each(texts)('%s', async (_, text) => {
    const { data } = await readBriefText(text);
    expect(data).toEqual(parse(quoteLayups(text), { logLevel: 'error' }));
    expect(({} as { a?: number }).a).toBeUndefined();
  });
});

describe('lines', () => {
  it('are those of the key, or of the innermost value that exists', async () => {
    const { origin } = await readBriefText('a:\n  b: [1,\n    2]\n  c: &x { d: 1 }\ne: *x\n');
    expect(origin.lineOf?.(['a', 'b'])).toBe(2);
    expect(origin.lineOf?.(['a', 'b', 1])).toBe(3);
    expect(origin.lineOf?.(['a', 'absent', 'deeper'])).toBe(1);
    expect(origin.lineOf?.(['e', 'd'])).toBe(4);
    expect(origin.lineOf?.(['e'])).toBe(5);
    expect(origin.lineOf?.([])).toBe(1);
  });

  it('survive a mark of byte order and Windows line ends', async () => {
    const { data, origin } = await readBriefText('\ufeffa: 1\r\nb: 2\r\n');
    expect(data).toEqual({ a: 1, b: 2 });
    expect(origin.lineOf?.(['b'])).toBe(2);
  });
});
