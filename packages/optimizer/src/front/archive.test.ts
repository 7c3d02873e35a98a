import { describe, expect, it } from 'vitest';
import { type Solution, type Space, solution } from '../problem.js';
import { randomFrom } from '../random.js';
import { Archive } from './archive.js';
import { invertedGenerationalDistance, largestGap } from './distance.js';
import { covers, nonDominated } from './dominance.js';
import { hypervolume } from './hypervolume.js';

function stream(count: number, objectives: number, seed: number): Solution[] {
  const space: Space = { bounds: { lower: [0], upper: [1] }, objectives, constraints: 1 };
  const random = randomFrom(seed);
  return Array.from({ length: count }, (_, i) => {
    const direction = Array.from({ length: objectives }, () => Math.abs(random.normal()));
    const length = Math.hypot(...direction) / (1 + random.uniform());
    return solution(space, Float64Array.of(i / count), {
      objectives: direction.map((value) => value / length),
      constraints: [random.uniform() - 0.8],
    });
  });
}

describe('archive', () => {
  for (const objectives of [2, 3]) {
    it(`holds exactly the feasible non-dominated of ${objectives} objectives while there is room`, () => {
      const seen = stream(400, objectives, 1);
      const archive = new Archive({ size: 400 });
      for (const each of seen) {
        const isGood = each.violation === 0 && !archive.front().some((one) => covers(one.objectives, each.objectives));
        expect(archive.add(each)).toBe(isGood);
      }
      const expected = new Set(nonDominated(seen));
      expect(new Set(archive.front())).toEqual(expected);
    });

    it(`holds of ${objectives} objectives with many equals what no other covers`, () => {
      for (let seed = 0; seed < 5; seed++) {
        const seen = stream(60, objectives, seed)
          .filter((each) => each.violation === 0)
          .map((each) => ({ ...each, objectives: each.objectives.map((value) => Math.round(4 * value)) }));
        const archive = new Archive({ size: 60 });
        for (const each of seen) archive.add(each);
        const left = (of: readonly Solution[]) => of.map((each) => each.objectives.join()).sort();
        expect(left(archive.front())).toEqual(left(nonDominated(seen)));
      }
    });

    it(`loses little hypervolume of ${objectives} objectives by thinning as it goes`, () => {
      const seen = stream(1500, objectives, 2);
      const reference = new Array<number>(objectives).fill(2);
      const [small, large] = [new Archive({ size: 30, reference }), new Archive({ size: 1500, reference })];
      for (const each of seen) {
        small.add(each);
        large.add(each);
      }
      const volume = (front: readonly Solution[]) =>
        hypervolume(
          front.map((each) => each.objectives),
          reference,
        );
      expect(small.front()).toHaveLength(Math.min(30, large.front().length));
      expect(volume(small.front())).toBeGreaterThan(0.995 * volume(large.front(30)));
    });
  }

  it('says whether a solution is new and good, and refuses infeasible and equal ones', () => {
    const [first] = stream(50, 2, 3).filter((each) => each.violation === 0);
    const infeasible = stream(50, 2, 3).find((each) => each.violation > 0)!;
    const archive = new Archive({ size: 5 });
    expect(archive.add(infeasible)).toBe(false);
    expect(archive.add(first!)).toBe(true);
    expect(archive.add({ ...first! })).toBe(false);
    expect(() => new Archive({ size: Number.NaN })).toThrow('received NaN');
  });

  it('is not changed by a look at it', () => {
    const archive = new Archive({ size: 20 });
    for (const each of stream(100, 2, 5)) archive.add(each);
    const before = archive.front();
    const few = archive.front(3);
    expect(few).toHaveLength(3);
    expect(archive.front()).toEqual(before);
    expect(few.every((each) => archive.front().some((member) => covers(member.objectives, each.objectives)))).toBe(
      true,
    );
  });
});

describe('distances', () => {
  it('measures the mean distance from a front to what was found', () => {
    const front = [
      [0, 1],
      [1, 0],
    ];
    expect(invertedGenerationalDistance(front, front)).toBe(0);
    expect(invertedGenerationalDistance([[0, 0]], front)).toBe(1);
    expect(invertedGenerationalDistance([[3, 5]], front)).toBeCloseTo((5 + Math.sqrt(29)) / 2, 14);
    expect(invertedGenerationalDistance([[0, 0]], front, [1, 4])).toBeCloseTo((1 / 4 + 1) / 2, 14);
  });

  it('finds no hole where there is no range', () => {
    expect(largestGap([])).toBeUndefined();
    expect(largestGap([[1, 2]])).toBeUndefined();
    expect(
      largestGap([
        [1, 2],
        [1, 3],
      ]),
    ).toBeUndefined();
  });

  it('finds the widest hole of a front', () => {
    const points = [
      [0, 10],
      [10, 0],
      [1, 5],
      [7, 1],
    ];
    expect(largestGap(points)).toEqual({ before: 2, after: 3, share: 0.6 });
    expect(largestGap(points, 1)).toEqual({ before: 2, after: 0, share: 0.5 });
    expect(largestGap([[0], [5], [6], [8]].map(([x]) => [x!, -x!]))).toEqual({ before: 0, after: 1, share: 5 / 8 });
    // Of equal steps the first.
    expect(largestGap([[0], [2], [4]].map(([x]) => [x!, -x!]))).toEqual({ before: 0, after: 1, share: 0.5 });
    expect(largestGap([[1, 2]])).toBeUndefined();
    expect(
      largestGap([
        [1, 2],
        [1, 2],
      ]),
    ).toBeUndefined();
  });
});
