import { describe, expect, it } from 'vitest';
import { Minimax, type Profile } from './minimax.js';

type Functions = (x: Float64Array) => readonly number[];

/** Runs a descent to its end; the box is [-5, 5] in every variable. */
function descend(functions: Functions, constraints: Functions, start: readonly number[], gain = 0) {
  const bounds = { lower: start.map(() => -5), upper: start.map(() => 5) };
  const method = new Minimax(bounds, start, { radius: 0.1, smallest: 1e-7, gain });
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

  it('ends sooner where slopes must bring more, but not while a constraint is violated', () => {
    const valley: Functions = ([x, y]) => [Math.abs(10 * (y! - x! * x!)) + Math.abs(1 - x!)];
    const patient = descend(valley, none, [-1.2, 1]);
    const hasty = descend(valley, none, [-1.2, 1], 0.5);
    expect(hasty.evaluations).toBeLessThan(patient.evaluations);
    expect(hasty.stop).toBe('no more gain');
    const outside = descend(
      ([x]) => [x!],
      ([x]) => [2 - x!],
      [-4],
      0.9,
    );
    expect(outside.violation).toBeLessThan(1e-3);
  });

  it('takes more functions than a call takes arguments', () => {
    const method = new Minimax({ lower: [-1], upper: [1] }, [0.5], { radius: 0.1, smallest: 1e-7, gain: 0 });
    const many = (x: number) => new Float64Array(130_000).map((_, i) => x - 1e-9 * i);
    for (let step = 0; step < 2; step++)
      method.tell(method.ask().map(([x]) => ({ functions: many(x!), constraints: new Float64Array() })));
    expect(method.ask()[0]![0]).toBeCloseTo(0.3, 6);
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
    const method = new Minimax({ lower: [0], upper: [1] }, [0.5], { radius: 0.1, smallest: 1e-4, gain: 0 });
    method.tell([undefined]);
    expect(method.stop).toBe('start has no profile');
    expect(method.ask()).toEqual([]);
  });

  // Rosen & Suzuki (1965), from memory: -44 at (0, 1, 2, -1).
  const rosenSuzuki = ([a, b, c, d]: Float64Array) => ({
    value: a! ** 2 + b! ** 2 + 2 * c! ** 2 + d! ** 2 - 5 * a! - 5 * b! - 21 * c! + 7 * d!,
    limits: [
      a! ** 2 + b! ** 2 + c! ** 2 + d! ** 2 + a! - b! + c! - d! - 8,
      a! ** 2 + 2 * b! ** 2 + c! ** 2 + 2 * d! ** 2 - a! - d! - 10,
      2 * a! ** 2 + b! ** 2 + c! ** 2 + 2 * a! - b! - d! - 5,
    ],
  });

  it('solves the problem of Rosen and Suzuki as a minimax problem, from where every function is 0 or less', () => {
    const { value } = descend(
      (x) => {
        const { value: first, limits } = rosenSuzuki(x);
        return [first, ...limits.map((limit) => first + 10 * limit)];
      },
      none,
      [0, 0, 0, 0],
    );
    expect(value).toBeGreaterThan(-44.001);
    expect(value).toBeLessThan(-43.95);
  });

  it('solves it with its constraints, from a start where the only function is 0', () => {
    const { x, value, violation } = descend(
      (at) => [rosenSuzuki(at).value],
      (at) => rosenSuzuki(at).limits.map((limit) => limit / 10),
      [0, 0, 0, 0],
    );
    expect(violation).toBeLessThan(2e-4);
    expect(value).toBeLessThan(-43.9);
    for (const [k, best] of [0, 1, 2, -1].entries()) expect(Math.abs(x[k]! - best)).toBeLessThan(0.05);
  });

  it('raises the penalty until a steep bargain is refused', () => {
    // Least at x = 1, were it not for x <= 0: a hair of violation buys much.
    const { x, violation } = descend(
      ([a]) => [1000 + 100 * (1 - a!) ** 2],
      ([a]) => [a! / 100],
      [0.5],
    );
    expect(violation).toBeLessThan(2e-4);
    expect(x[0]).toBeLessThan(0.02);
  });

  it('stays within the bounds', () => {
    const asked: Float64Array[] = [];
    const { value } = descend(
      (x) => {
        asked.push(x);
        return [-x[0]!, -x[1]! / 2];
      },
      none,
      [4.9, -4.9],
    );
    expect(asked.every((x) => x.every((coordinate) => Math.abs(coordinate) <= 5))).toBe(true);
    expect(value).toBeCloseTo(-2.5, 3);
  });

  it('goes round points that have no profile', () => {
    const method = new Minimax({ lower: [-1, -1], upper: [1, 1] }, [-0.8, 0.8], {
      radius: 0.5,
      smallest: 1e-6,
      gain: 0,
    });
    for (let batch = 0; method.stop === undefined && batch < 300; batch++)
      method.tell(
        method
          .ask()
          .map(([x, y]) =>
            x! * x! + y! * y! < 0.25
              ? undefined
              : { functions: Float64Array.of((x! - 0.9) ** 2 + (y! - 0.9) ** 2), constraints: new Float64Array() },
          ),
      );
    expect(method.value).toBeLessThan(1e-3);
  });
});
