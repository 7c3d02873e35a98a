import { describe, expect, it, vi } from 'vitest';
import { InputError } from '../errors.js';
import { briefSizeLimit, readBriefText } from './index.js';

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
    ['syntax', 'title: "a\nallow: 1\n', 3, /well-formed YAML or JSON/],
    ['tabs as indentation', 'host:\n\tkind: tee\n', 2, /blanks, received a tab/],
    ['duplicate key', 'allow: 1\ntitle: b\nallow: 2\n', 3, /each key once, received "allow: 2"/],
    ['two documents', 'allow: 1\n---\nallow: 2\n', 2, /one brief in a file/],
    ['unknown tag', 'allow: !pressure 3\n', 1, /Unresolved tag/],
    ['alias without anchor', 'allow: *stress\n', undefined, /after its anchor/],
    ['aliases that multiply', aliasBomb, undefined, /at most 100 aliases/],
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

// The parser once printed a warning of its own about such keys, in the middle of a command's output.
it('prints nothing about a key that is a mapping', async () => {
  const warn = vi.spyOn(process, 'emitWarning').mockImplementation(() => {});
  await readBriefText('? { a: 1 }\n: 2\n');
  expect(warn).not.toHaveBeenCalled();
  warn.mockRestore();
});

describe('lines', () => {
  it('are those of the key, or of the innermost value that exists', async () => {
    const { origin } = await readBriefText('a:\n  b: [1,\n    2]\n  c: &x { d: 1 }\ne: *x\n');
    expect(origin.lineOf?.(['a', 'b'])).toBe(2);
    expect(origin.lineOf?.(['a', 'b', 1])).toBe(3);
    expect(origin.lineOf?.(['a', 'absent', 'deeper'])).toBe(1);
    expect(origin.lineOf?.(['e', 'd'])).toBe(4);
    expect(origin.lineOf?.([])).toBe(1);
  });

  it('survive a mark of byte order and Windows line ends', async () => {
    const { data, origin } = await readBriefText('\ufeffa: 1\r\nb: 2\r\n');
    expect(data).toEqual({ a: 1, b: 2 });
    expect(origin.lineOf?.(['b'])).toBe(2);
  });
});
