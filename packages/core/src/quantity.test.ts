import { describe, expect, it } from 'vitest';
import { describeQuantity, problemsOf, type Quantity } from './quantity.js';

const sentence = 'Something.';

describe('numbers that a user gives', () => {
  it.each<[Quantity, readonly number[], readonly number[], string]>([
    [{ unit: 'mm', sentence, above: 0, below: 2 }, [1e-9, 1.99], [0, 2, Number.NaN], 'a number above 0 and below 2 mm'],
    [{ unit: '1', sentence, atLeast: 0, atMost: 1 }, [0, 1], [-1e-9, 1.001], 'a number at least 0 and at most 1'],
    [{ unit: '1', sentence, atLeast: 2, integer: true }, [2, 900], [1, 2.5, 2 ** 53], 'a whole number at least 2'],
    [{ unit: 'K', sentence, below: 0 }, [-1, Number.NEGATIVE_INFINITY], [0, 5], 'a number below 0 K'],
  ])('lie within their range or are refused with it: %o', (quantity, within, beyond, expected) => {
    expect(describeQuantity(quantity)).toBe(expected);
    for (const size of within) expect(problemsOf({ size }, { size: quantity }, 'agent')).toEqual([]);
    for (const size of beyond)
      expect(problemsOf({ size }, { size: quantity }, 'agent')).toEqual([
        { path: 'agent.size', expected, received: String(size), remedy: 'change it to a number in this range' },
      ]);
  });

  it('may be left out only where that is said', () => {
    const quantities = { size: { unit: 'mm', sentence, above: 0 } };
    const record: { size?: number } = {};
    expect(problemsOf(record, quantities, 'agent', ['size'])).toEqual([]);
    expect(problemsOf(record, quantities, 'agent')[0]).toMatchObject({ path: 'agent.size', received: 'undefined' });
  });
});
