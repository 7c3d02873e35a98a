import { describe, expect, it } from 'vitest';
import { type Solution, type Space, solution } from '../problem.js';
import { randomFrom } from '../random.js';
import { covers, dominates, nonDominated } from './dominance.js';
import { ranks } from './rank.js';

function solutions(count: number, objectives: number, constraints: number, steps: number, seed: number): Solution[] {
  const random = randomFrom(seed);
  const space: Space = { bounds: { lower: [0], upper: [1] }, objectives, constraints };
  const draw = (length: number, shift: number) => Array.from({ length }, () => random.integer(steps) - shift);
  return Array.from({ length: count }, () =>
    solution(space, Float64Array.of(random.uniform()), {
      objectives: draw(objectives, 0),
      constraints: draw(constraints, steps - 2),
    }),
  );
}

/** Constrained domination (Deb, Pratap, Agarwal & Meyarivan, IEEE Trans. Evol. Comput. 6 (2002) 182-197, section VI). */
function dominatesConstrained(a: Solution, b: Solution): boolean {
  if (a.violation > 0 || b.violation > 0) return a.violation < b.violation;
  return dominates(a.objectives, b.objectives);
}

/** The definition, peeled layer by layer. */
function ranksByDefinition(all: readonly Solution[]): number[] {
  const rank = new Array<number>(all.length).fill(-1);
  for (let level = 0; rank.includes(-1); level++) {
    const open = all.map((_, index) => index).filter((index) => rank[index] === -1);
    const front = open.filter((index) => !open.some((other) => dominatesConstrained(all[other]!, all[index]!)));
    for (const index of front) rank[index] = level;
  }
  return rank;
}

describe('dominance', () => {
  it('needs no worse anywhere and better somewhere', () => {
    expect(dominates([1, 2], [1, 3])).toBe(true);
    expect(dominates([1, 2], [1, 2])).toBe(false);
    expect(covers([1, 2], [1, 2])).toBe(true);
    expect(dominates([1, 2], [0, 3])).toBe(false);
  });

  it('keeps of equal points one', () => {
    const all = solutions(60, 2, 0, 3, 4);
    const front = nonDominated(all);
    expect(new Set(front.map((each) => each.objectives.join())).size).toBe(front.length);
    for (const each of all) expect(front.some((member) => covers(member.objectives, each.objectives))).toBe(true);
  });
});

describe('ranks', () => {
  // Two objectives take the sweep, three the general sort; few distinct values make ties, many make long fronts.
  for (const objectives of [2, 3, 4]) {
    for (const steps of [3, 1000]) {
      it(`follow the definition with ${objectives} objectives of ${steps} values`, () => {
        for (let seed = 0; seed < 8; seed++) {
          const all = solutions(50, objectives, seed % 2, steps, seed);
          expect(Array.from(ranks(all))).toEqual(ranksByDefinition(all));
        }
      });
    }
  }

  it('put a single feasible solution before all others', () => {
    const all = solutions(30, 2, 2, 6, 3);
    const one = all.find((each) => each.violation === 0)!;
    const others = all.filter((each) => each.violation > 0);
    expect(Array.from(ranks([...others, one]))).toEqual(ranksByDefinition([...others, one]));
    expect(ranks([...others, one]).at(-1)).toBe(0);
  });

  it('are defined for no solutions, and for none feasible', () => {
    expect(ranks([])).toHaveLength(0);
    const all = solutions(20, 2, 3, 5, 1).filter((each) => each.violation > 0);
    expect(Array.from(ranks(all))).toEqual(ranksByDefinition(all));
  });
});
