import { describe, expect, it } from 'vitest';
import { Minimax, type Profile } from './minimax.js';

type Functions = (x: Float64Array) => readonly number[];

/** Runs a descent to its end; the box is [-5, 5] in every variable. */
function descend(functions: Functions, constraints: Functions, start: readonly number[]) {
  const bounds = { lower: start.map(() => -5), upper: start.map(() => 5) };
  const method = new Minimax(bounds, start, { radius: 0.1, smallest: 1e-7 });
  let evaluations = 0;
  while (method.stop === undefined && evaluations < 5000) {
    const batch = method.ask();
    evaluations += batch.length;
    method.tell(
      batch.map(
        (x): Profile => ({
          functions: Float64Array.from(functions(x)),
          constraints: Float64Array.from(constraints(x)),
        }),
      ),
    );
  }
  const { x, stop } = method;
  return { x, stop, value: Math.max(...functions(x)), violation: Math.max(0, ...constraints(x)), evaluations };
}

const none: Functions = () => [];

describe('Minimax', () => {
  // Test problems of Charalambous & Bandler (1976), values from memory: CB2 1.9522245, CB3 2.
  it.each([
    ['CB2', 1.9522245, (x: number, y: number) => x * x + y ** 4],
    ['CB3', 2, (x: number, y: number) => x ** 4 + y * y],
  ])('solves %s', (_name, least, first) => {
    const { value, evaluations, stop } = descend(
      ([x, y]) => [first(x!, y!), (2 - x!) ** 2 + (2 - y!) ** 2, 2 * Math.exp(y! - x!)],
      none,
      [2, 2],
    );
    expect(value).toBeCloseTo(least, 3);
    expect(stop).toBeDefined();
    expect(evaluations).toBeLessThan(500);
  });

  it('keeps constraints', () => {
    // Nearest point of the line x + y = 2 to the origin, as least largest coordinate.
    const { x, violation } = descend(
      ([a, b]) => [a!, b!],
      ([a, b]) => [2 - a! - b!],
      [3, 4],
    );
    expect(x[0]).toBeCloseTo(1, 3);
    expect(x[1]).toBeCloseTo(1, 3);
    expect(violation).toBeLessThan(1e-4);
  });

  it('comes back to what is admissible from outside', () => {
    const { violation } = descend(
      ([a]) => [a! * a!],
      ([a]) => [1 - a!],
      [-3],
    );
    expect(violation).toBeLessThan(1e-4);
  });

  it('says so where the start has no profile', () => {
    const method = new Minimax({ lower: [0], upper: [1] }, [0.5], { radius: 0.1, smallest: 1e-4 });
    method.tell([undefined]);
    expect(method.stop).toBe('start has no profile');
    expect(method.ask()).toEqual([]);
  });
});
