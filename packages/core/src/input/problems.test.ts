import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { formatPath, formatReceived, parsePath } from './place.js';
import { ProblemList } from './problems.js';

const fault = { path: 'host.plies[2].angle', expected: 'an angle', received: 'none', remedy: 'add it' };

describe('the problems of a brief', () => {
  it('are fifty at most, each place and expectation once', () => {
    const list = new ProblemList({}, {});
    for (let i = 0; i < 60; i++) list.add(['cases', `case ${i}`], 'a load', 'add one');
    list.add(['cases', 'case 0'], 'a load', 'add one');
    expect(list.problems).toHaveLength(50);
    expect(list.problems[49]!.path).toBe('cases["case 49"]');
  });

  it('take over what was refused elsewhere, with file and line of its place', () => {
    const list = new ProblemList({ host: {} }, { file: 'joint.yaml', lineOf: (path) => path.length });
    list.adopt(new InputError(fault));
    expect(list.problems).toEqual([{ ...fault, file: 'joint.yaml', line: 4 }]);
  });

  it('tell of files that are named: not handed over, not found; and pass on what is no fault of the brief', () => {
    const path = ['host', 'mesh'];
    const none = new ProblemList({ host: { mesh: 'tee.msh' } }, {});
    expect(none.textOf('tee.msh', path)).toBeUndefined();
    expect(none.problems[0]).toMatchObject({
      path: 'host.mesh',
      expected: 'a file that was handed over with the brief',
      received: '"tee.msh"',
    });
    const thrower = (error: Error) =>
      new ProblemList(
        {},
        {
          textOf: () => {
            throw error;
          },
        },
      );
    const missing = thrower(new InputError({ ...fault, path: '' }));
    expect(missing.textOf('tee.msh', path)).toBeUndefined();
    expect(missing.problems).toEqual([{ ...fault, path: 'host.mesh' }]);
    expect(() => thrower(new TypeError('of the program')).textOf('tee.msh', path)).toThrow('of the program');
    expect(new ProblemList({}, { textOf: (file) => `text of ${file}` }).textOf('a', path)).toBe('text of a');
  });
});

describe('a place in a brief', () => {
  it('is read as it was written', () => {
    expect(parsePath(fault.path)).toEqual(['host', 'plies', 2, 'angle']);
    expect(formatPath(parsePath(fault.path))).toBe(fault.path);
    expect(parsePath('')).toEqual([]);
    expect(formatPath([])).toBe('brief');
    expect(formatPath(['cases', 'x'.repeat(70)])).toBe(`cases.${'x'.repeat(70)}`);
    expect(formatPath(['cases', `${'x'.repeat(70)} y`])).toBe(`cases["${'x'.repeat(57)}..."]`);
  });

  it.each([
    [undefined, 'nothing'],
    [null, 'nothing (null)'],
    ['x'.repeat(61), `"${'x'.repeat(57)}..."`],
    [true, 'true'],
    [[], 'an empty list'],
    [[1, 2], 'a list of 2'],
    [{}, 'an empty mapping'],
    [{ a: 1, b: 2 }, 'a mapping of a, b'],
    [() => 1, 'a function'],
  ])('holds a value that is told in a few characters: %s', (value, told) => {
    expect(formatReceived(value)).toBe(told);
  });
});
