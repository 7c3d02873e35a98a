import { describe, expect, it } from 'vitest';
import { type Bounds, type Solution, type Space, solution } from '../../problem.js';
import { randomFrom } from '../../random.js';
import { binaryCrossover } from './binary-crossover.js';
import { differential } from './differential.js';
import { fingerprint } from './fingerprint.js';
import { line } from './line.js';
import { Mating } from './mating.js';
import { mutate } from './polynomial-mutation.js';
import { reset } from './reset.js';
import { latinHypercube } from './sampling.js';
import { survivors } from './survival.js';
import { VariationChoice } from './variation-choice.js';

const bounds: Bounds = { lower: [0, -1e-6, 5, -1e6], upper: [1, 1e-6, 5, 0] };

describe('variations', () => {
  for (const variation of [binaryCrossover, differential, line, reset]) {
    it(`${variation.name}: children are new, inside the bounds, and leave their parents as they were`, () => {
      const random = randomFrom(1);
      const points = latinHypercube(30, bounds, random);
      // Parents on the bounds too, where divisions by the room that is left would go wrong.
      points.push(Float64Array.from(bounds.lower), Float64Array.from(bounds.upper));
      const before = points.map((point) => Array.from(point));
      let changed = 0;
      for (let round = 0; round < 2000; round++) {
        const parent = points[round % points.length]!;
        const child = variation.child(parent, () => points[random.integer(points.length)]!, bounds, random);
        child.forEach((value, i) => {
          expect(value >= bounds.lower[i]! && value <= bounds.upper[i]!).toBe(true);
          expect(Object.is(value, -0)).toBe(false);
        });
        if (child.some((value, i) => value !== parent[i]!)) changed++;
      }
      expect(points.map((point) => Array.from(point))).toEqual(before);
      expect(changed).toBeGreaterThan(1200);
    });
  }

  it('binary crossover keeps the mean of its parents where no bound is near', () => {
    const wide: Bounds = { lower: [-1e9], upper: [1e9] };
    const random = randomFrom(2);
    const [a, b] = [Float64Array.of(2), Float64Array.of(3)];
    const shift = (from: Float64Array, to: Float64Array) => {
      const child = binaryCrossover.child(from, () => to, wide, random)[0]!;
      // Mutation in so wide a box is told apart by its size.
      return Math.abs(child) < 10 ? child - from[0]! : 0;
    };
    let sum = 0;
    for (let round = 0; round < 4000; round++) sum += shift(a, b) + shift(b, a);
    expect(Math.abs(sum / 4000)).toBeLessThan(0.02);
  });

  it('mutation changes one variable in n on average, by steps that do not depend on the units', () => {
    const random = randomFrom(3);
    let changed = 0;
    let largest = 0;
    for (let round = 0; round < 4000; round++) {
      const x = Float64Array.of(0.5, 0, 5, -5e5);
      mutate(x, bounds, random);
      [(x[0]! - 0.5) / 1, x[1]! / 2e-6, (x[3]! + 5e5) / 1e6].forEach((step) => {
        if (step !== 0) changed++;
        largest = Math.max(largest, Math.abs(step));
      });
      expect(x[2]).toBe(5);
    }
    expect(changed / 4000).toBeCloseTo(3 / 4, 1);
    expect(largest).toBeLessThan(0.5);
  });
});

describe('Latin hypercube', () => {
  it('has one point in every slice of every variable', () => {
    const points = latinHypercube(25, { lower: [-1, 10], upper: [1, 20] }, randomFrom(4));
    const slices = (values: number[]) => values.map((value) => Math.floor(value * 25)).sort((a, b) => a - b);
    const every = Array.from({ length: 25 }, (_, slice) => slice);
    expect(slices(points.map((point) => (point[0]! + 1) / 2))).toEqual(every);
    expect(slices(points.map((point) => (point[1]! - 10) / 10))).toEqual(every);
  });
});

describe('fingerprint', () => {
  it('tells points apart that differ in the last bit, in order or in length', () => {
    const points = [[1, 2], [2, 1], [1 + Number.EPSILON, 2], [1, 2, 0], [0, 0], [0], [0.1, 0.2], [0.2, 0.1]];
    const prints = points.map((point) => fingerprint(Float64Array.from(point)));
    expect(new Set(prints).size).toBe(points.length);
    expect(fingerprint(Float64Array.of(1, 2))).toBe(prints[0]);
    for (const print of prints) expect(Number.isSafeInteger(print) && print >= 0).toBe(true);
  });

  it('does not collide among many points that are alike', () => {
    const seen = new Set<number>();
    for (let i = 0; i < 300; i++) for (let j = 0; j < 300; j++) seen.add(fingerprint(Float64Array.of(i, j, 0.5)));
    expect(seen.size).toBe(90_000);
  });
});

describe('variation choice', () => {
  it('favours what survives, and never drops what does not', () => {
    const choice = new VariationChoice([1, 1]);
    for (let batch = 0; batch < 100; batch++) choice.learn([10, 10], [5, 0]);
    const random = randomFrom(5);
    const drawn = [0, 0];
    for (let round = 0; round < 6000; round++) drawn[choice.draw(random)]! += 1;
    expect(drawn[1]! / 6000).toBeCloseTo(1 / 6, 1);
  });

  it('draws evenly when nothing survives', () => {
    const choice = new VariationChoice([0, 0]);
    const random = randomFrom(6);
    const drawn = [0, 0];
    for (let round = 0; round < 4000; round++) drawn[choice.draw(random)]! += 1;
    expect(drawn[0]! / 4000).toBeCloseTo(1 / 2, 1);
  });
});

const space: Space = { bounds: { lower: [0], upper: [1] }, objectives: 2, constraints: 1 };
const at = (first: number, second: number, constraint = 0): Solution =>
  solution(space, Float64Array.of(first), { objectives: [first, second], constraints: [constraint] });

describe('survival', () => {
  it('takes feasible before infeasible, then less violation, then rank, then contribution', () => {
    const front = [at(0, 1), at(0.5, 0.5), at(0.52, 0.49), at(1, 0)];
    const dominated = at(0.9, 0.9);
    const [near, far] = [at(-1, -1, 0.1), at(-2, -2, 0.2)];
    const all = [far, near, dominated, ...front];
    expect(survivors(all, 7)).toHaveLength(7);
    expect(survivors(all, 6)).not.toContain(far);
    expect(new Set(survivors(all, 5))).toEqual(new Set([dominated, ...front]));
    expect(new Set(survivors(all, 4))).toEqual(new Set(front));
    expect(survivors(all, 3)).not.toContain(front[2]);
    expect(survivors([far, near], 1)).toEqual([near]);
  });
});

describe('mating', () => {
  it('prefers parents of better rank, and draws half the mates from the neighbourhood', () => {
    const good = Array.from({ length: 50 }, (_, i) => at(i / 49, 1 - i / 49));
    const bad = Array.from({ length: 50 }, (_, i) => at(0.001 + i / 49, 1.5 - i / 49));
    const mating = new Mating([...good, ...bad], randomFrom(7));
    let fromGood = 0;
    for (let round = 0; round < 4000; round++) {
      const { parent } = mating.pair();
      if (good.some((member) => member.x === parent)) fromGood++;
    }
    expect(fromGood / 4000).toBeCloseTo(3 / 4, 1);
  });

  it('lets a population of one mate with itself', () => {
    const only = at(0.3, 0.7);
    const mating = new Mating([only], randomFrom(8));
    for (let round = 0; round < 10; round++) expect(mating.pair().mate()).toBe(only.x);
  });
});
