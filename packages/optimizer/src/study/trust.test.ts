import { describe, expect, it } from 'vitest';
import { doubtsOf, trustedOf } from './trust.js';

const sure = { accuracy: 0.004, change: -0.009 };
const coarse = { accuracy: 0.004, change: 0.02 };
const off = { accuracy: 0.03, change: 0.001 };

describe('what the fast model is trusted with', () => {
  it('leaves out what it is off by more than 1 %, and says how much', () => {
    const { kept, cautions } = trustedOf([sure, off, sure, coarse]);
    expect(kept).toEqual([sure, sure]);
    expect(cautions).toEqual([expect.stringMatching(/2 of 4 channels .* up to 3\.0 %, beyond 1 %.*channel\.wall/)]);
  });

  it('keeps all where nothing else is left, and says so', () => {
    const { kept, cautions } = trustedOf([off, coarse]);
    expect(kept).toEqual([off, coarse]);
    expect(cautions).toEqual([expect.stringContaining('check')]);
  });

  it('has no doubts about a model without an estimate, nor about what is within 1 %', () => {
    expect(trustedOf([sure, { change: 0 }]).cautions).toEqual([]);
    expect(doubtsOf(sure)).toEqual([]);
    expect(doubtsOf(off)).toHaveLength(1);
    expect(doubtsOf({ change: Number.NaN })).toHaveLength(1);
  });
});
