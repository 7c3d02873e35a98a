import { describe, expect, it } from 'vitest';
import { checkBounds, type Space, solution } from './problem.js';

const space: Space = { bounds: { lower: [0], upper: [1] }, objectives: 2, constraints: 2 };
const at = (objectives: number[], constraints: number[]) =>
  solution(space, Float64Array.of(0.5), { objectives, constraints });

describe('solution', () => {
  it('sums what exceeds zero of the constraints', () => {
    expect(at([1, 2], [-3, 0]).violation).toBe(0);
    expect(at([1, 2], [0.25, 0.5]).violation).toBe(0.75);
    expect(at([1, 2], [-5, 0.5]).violation).toBe(0.5);
    expect(at([1, 2], [Number.NEGATIVE_INFINITY, 0]).violation).toBe(0);
  });

  it('is infeasible beyond any other where a value is not finite', () => {
    expect(at([Number.NaN, 2], [-1, -1]).violation).toBe(Number.POSITIVE_INFINITY);
    expect(at([Number.NEGATIVE_INFINITY, 2], [-1, -1]).violation).toBe(Number.POSITIVE_INFINITY);
    expect(at([1, 2], [Number.NaN, -1]).violation).toBe(Number.POSITIVE_INFINITY);
  });

  it('refuses an evaluation that has not what the problem announced', () => {
    expect(() => at([1], [0, 0])).toThrow('1 objectives and 2 constraints; the problem announced 2 and 2');
    expect(() => solution(space, Float64Array.of(0), { objectives: [1, 2] })).toThrow('0 constraints');
  });
});

describe('checkBounds', () => {
  it('takes a fixed variable and an open side, and refuses the rest', () => {
    checkBounds({ lower: [0, Number.NEGATIVE_INFINITY], upper: [0, Number.POSITIVE_INFINITY] });
    expect(() => checkBounds({ lower: [], upper: [] })).toThrow(RangeError);
    expect(() => checkBounds({ lower: [0], upper: [1, 2] })).toThrow('received 1 and 2');
    expect(() => checkBounds({ lower: [0, 2], upper: [1, 1] })).toThrow('variable 1');
    expect(() => checkBounds({ lower: [Number.NaN], upper: [1] })).toThrow('received NaN and 1');
  });
});
