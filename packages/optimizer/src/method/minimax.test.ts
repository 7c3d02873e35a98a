import { describe, expect, it } from 'vitest';
import { Minimax, type Profile } from './minimax.js';

type Functions = (x: Float64Array) => { functions: number[]; constraints?: number[] };

function descend(profile: Functions, start: number[], half = 10, radius = 0.1) {
  const bounds = { lower: start.map(() => -half), upper: start.map(() => half) };
  const method = new Minimax(bounds, start, { radius, smallest: 1e-9 });
  let evaluations = 0;
  while (method.stop === undefined && evaluations < 2000) {
    const batch = method.ask();
    evaluations += batch.length;
    method.tell(
      batch.map((x): Profile => {
        const { functions, constraints = [] } = profile(x);
        return { functions: Float64Array.from(functions), constraints: Float64Array.from(constraints) };
      }),
    );
  }
  return { method, evaluations };
}

// Charalambous & Bandler (1976), their three functions of two variables in two versions, as collected by Luksan & Vlcek's test
// problems for minimax optimisation (from memory): 1.9522245 and 2 at (1, 1).
const firstOfBandler: Functions = ([x, y]) => ({
  functions: [x! ** 2 + y! ** 4, (2 - x!) ** 2 + (2 - y!) ** 2, 2 * Math.exp(y! - x!)],
});
const secondOfBandler: Functions = ([x, y]) => ({
  functions: [x! ** 4 + y! ** 2, (2 - x!) ** 2 + (2 - y!) ** 2, 2 * Math.exp(y! - x!)],
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

describe('minimax descent', () => {
  it.each([
    ['first', firstOfBandler, 1.9522245],
    ['second', secondOfBandler, 2],
  ] as const)("solves Charalambous and Bandler's %s problem", (_, profile, best) => {
    const { method, evaluations } = descend(profile, [1, -0.1]);
    expect(method.value).toBeGreaterThan(best - 1e-6);
    expect(method.value).toBeLessThan(best * 1.0005);
    expect(evaluations).toBeLessThan(200);
  });

  it('solves the problem of Rosen and Suzuki as a minimax problem', () => {
    const profile: Functions = (x) => {
      const { value, limits } = rosenSuzuki(x);
      return { functions: [value, ...limits.map((limit) => value + 10 * limit)] };
    };
    expect(descend(profile, [0, 0, 0, 0]).method.value).toBeLessThan(-43.95);
  });

  it('solves it with its constraints', () => {
    const profile: Functions = (x) => {
      const { value, limits } = rosenSuzuki(x);
      return { functions: [value], constraints: limits.map((limit) => limit / 10) };
    };
    const { method } = descend(profile, [0, 0, 0, 0]);
    expect(method.violation).toBeLessThan(2e-4);
    expect(method.value).toBeLessThan(-43.9);
    for (const [k, value] of [0, 1, 2, -1].entries()) expect(Math.abs(method.x[k]! - value)).toBeLessThan(0.05);
  });

  it('raises the penalty until a steep bargain is refused', () => {
    // Least at x = 1, were it not for x <= 0: each unit of violation buys 100 units of value.
    const { method } = descend(([x]) => ({ functions: [1000 + 100 * (1 - x!) ** 2], constraints: [x! / 100] }), [0.5]);
    expect(method.violation).toBeLessThan(2e-4);
    expect(method.x[0]).toBeLessThan(0.02);
  });

  it('comes back to what is allowed from outside', () => {
    const { method } = descend(([x, y]) => ({ functions: [x!, y!], constraints: [1 - x! * y!] }), [5, 0.01]);
    expect(method.violation).toBeLessThan(2e-4);
    expect(method.value).toBeLessThan(1.01);
  });

  it('stays within the bounds', () => {
    const asked: Float64Array[] = [];
    const { method } = descend(
      (x) => {
        asked.push(x);
        return { functions: [-x[0]!, -x[1]! / 2] };
      },
      [9.9, -9.9],
    );
    expect(asked.every((x) => x.every((value) => Math.abs(value) <= 10))).toBe(true);
    expect(method.value).toBeCloseTo(-5, 3);
  });

  it('says so where the start has no profile', () => {
    const method = new Minimax({ lower: [0], upper: [1] }, [0.5], { radius: 0.1, smallest: 1e-3 });
    method.tell([undefined]);
    expect(method.stop).toBe('start has no profile');
    expect(method.ask()).toHaveLength(0);
  });

  it('goes round points that have no profile', () => {
    const bounds = { lower: [-1, -1], upper: [1, 1] };
    const method = new Minimax(bounds, [-0.8, 0.8], { radius: 0.5, smallest: 1e-6 });
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
