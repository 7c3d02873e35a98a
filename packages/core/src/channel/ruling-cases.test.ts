import { describe, expect, it } from 'vitest';
import type { LoadCase } from '../host/index.js';
import { rulingCases } from './ruling-cases.js';

const of = (...factors: LoadCase['factors'][]) =>
  rulingCases(factors.map((one, k) => ({ name: `${k}`, factors: one })));

describe('rulingCases', () => {
  it('leaves out what lies between two others', () => {
    expect(of({ cure: 1 }, { cure: 1, pull: 0.5 }, { cure: 1, pull: 1 })).toEqual([0, 2]);
    expect(of({ cure: 1, pull: 0.3 }, { cure: 1 }, { cure: 1, pull: 1 }, { cure: 1, pull: 0.6 })).toEqual([1, 2]);
  });

  it('keeps what lies beyond, beside or alone', () => {
    expect(of({ pull: 1 })).toEqual([0]);
    expect(of({ cure: 1 }, { pull: 1 }, { cure: 1, pull: 1 })).toEqual([0, 1, 2]);
    expect(of({ pull: 0 }, { pull: 1 }, { pull: 1.01 })).toEqual([0, 2]);
    expect(of({ cure: 1 }, { cure: 1, pull: 0.5 }, { cure: 1.001, pull: 1 })).toEqual([0, 1, 2]);
  });

  it('keeps one of those that are the same', () => {
    expect(of({ pull: 1 }, { pull: 1 })).toEqual([0]);
    expect(of({ pull: 1 }, { pull: 1 }, { cure: 1 }, { pull: 1, cure: 0 })).toEqual([2, 3]);
  });
});
