import { describe, expect, it } from 'vitest';
import type { RefineRequest } from './refine.js';
import { Refinements } from './refinements.js';

const request = (most: number): RefineRequest => ({
  start: { family: 0, x: new Float64Array(1) },
  areas: [1],
  beside: [[]],
  pieces: 16,
  radius: 0.1,
  slopes: 1,
  slopesBeyond: 0,
  most,
});

/** A plan that spends half of what a request may cost, and keeps the batches that it was asked for. */
function halfSpending(budget: number, stopAfter = Number.POSITIVE_INFINITY) {
  let left = budget;
  const batches: number[] = [];
  return {
    batches,
    refine: async (requests: readonly RefineRequest[]) => {
      batches.push(requests.length);
      return requests.map(({ most }) => ({ reached: [], stop: 'done', evaluations: most / 2 }));
    },
    left: () => left,
    note({ evaluations }: { readonly evaluations: number }) {
      left -= evaluations;
    },
    goOn: () => batches.length < stopAfter,
  };
}

describe('Refinements', () => {
  it('asks for all at once where the budget has room for it', async () => {
    const plan = halfSpending(1000);
    expect(await new Refinements(plan).ask([request(300), request(300), request(300)])).toHaveLength(3);
    expect(plan.batches).toEqual([3]);
  });

  it('goes on with what the first ones have not spent, and never beyond the budget', async () => {
    const plan = halfSpending(700);
    const requests = Array.from({ length: 6 }, () => request(300));
    // 700: two; 400: one; 250: none.
    expect(await new Refinements(plan).ask(requests)).toHaveLength(3);
    expect(plan.batches).toEqual([2, 1]);
    expect(plan.left()).toBe(250);
  });

  it('leaves what is to be spared, and stops when it is told to', async () => {
    expect(await new Refinements(halfSpending(700)).ask([request(300)], 500)).toEqual([]);
    expect(await new Refinements(halfSpending(700, 1)).ask([request(300), request(600)])).toHaveLength(1);
  });
});
