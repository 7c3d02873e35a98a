import { InputError, resolveBrief, UnmetError } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { failedOutcome, identifyCase, openCase, performCase } from './case.js';

const sheet = {
  host: { kind: 'plate' },
  loads: { farField: { sx: 2, sy: 1, txy: 0 } },
  channel: { families: ['ellipse'], edgeRadius: 0.1, largest: { width: 2, height: 2 } },
};
const vary = { 'channel.edgeRadius': 0.1 };

describe('a case of a sweep', () => {
  it('is its resolved brief, told apart by all that can change its result', async () => {
    const one = await openCase({ vary, data: sheet }, 'front', '1');
    expect(one).toMatchObject({ kind: 'front', vary });
    expect(one.brief).not.toBeInstanceOf(InputError);
    expect((await openCase({ vary: {}, data: structuredClone(sheet) }, 'front', '1')).id).toBe(one.id);
    const others = await Promise.all([
      openCase({ vary, data: { ...sheet, search: { seed: 2 } } }, 'front', '1'),
      openCase({ vary, data: sheet }, 'pick', '1'),
      openCase({ vary, data: sheet }, 'front', '2'),
    ]);
    expect(new Set([one, ...others].map(({ id }) => id)).size).toBe(4);
  });

  it('that does not resolve has failed already, and says why', async () => {
    const data = { ...sheet, host: { kind: 'sphere' } };
    const { brief, id } = await openCase({ vary, data }, 'front', '1');
    expect(brief).toBeInstanceOf(InputError);
    expect((brief as InputError).problems[0]).toMatchObject({ path: 'host.kind', received: '"sphere"' });
    expect(id).toBe(identifyCase({ data }, 'front', '1'));
  });

  it('passes on what is no fault of the brief', async () => {
    const data = Object.defineProperty({ ...sheet }, 'title', {
      enumerable: true,
      get() {
        throw new TypeError('of the program');
      },
    });
    await expect(openCase({ vary, data }, 'front', '1')).rejects.toThrow('of the program');
  });

  it('has an outcome whatever is thrown', async () => {
    const brief = await resolveBrief(sheet);
    const thrown = (error: unknown) => performCase(() => Promise.reject(error), { id: 'a', kind: 'front', brief });
    expect(await thrown(new UnmetError('too high', 31))).toEqual({
      status: 'unmet',
      error: { kind: 'cannot be met', message: 'too high' },
      leastPeak: 31,
    });
    expect(await thrown(new UnmetError('none'))).toEqual({
      status: 'unmet',
      error: { kind: 'cannot be met', message: 'none' },
    });
    const fault = { path: 'allow', expected: 'a stress', received: '-1', remedy: 'raise it' };
    expect(await thrown(new InputError(fault))).toMatchObject({
      status: 'failed',
      error: { kind: 'bad input', problems: [fault] },
    });
    for (const error of [new Error('odd'), 'odd'])
      expect(failedOutcome(error)).toEqual({ status: 'failed', error: { kind: 'internal error', message: 'odd' } });
    const result = { kind: 'front' } as never;
    expect(await performCase(async () => result, { id: 'a', kind: 'front', brief })).toEqual({
      status: 'done',
      result,
    });
  });
});
