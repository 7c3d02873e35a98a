import { fitCurvature, outlineOf } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { followFront } from './follow-front.js';
import type { RefineRequest, RefineResult, SolvedDesign } from './refine.js';
import { leastForRefinement, refineFront } from './refine-front.js';
import { frontOf, type KnownOutline, type Refined, type RefinePlan, refinedOf } from './refined.js';

/** Two shapes, of which the flat one is the better one from 2 mm² on: least costs at a size, in closed form. */
const best = [(size: number) => 10 + size * size, (size: number) => 12 + (size * size) / 2];
const leastCost = (size: number) => Math.min(best[0]!(size), best[1]!(size));
const largest = 4;

const room = { mirror: true, xMin: -5, xMax: 5, yMin: 0, yMax: 6, edgeRadius: 0.1 };
const fits = new Map<string, SolvedDesign>();
/** An outline of either shape; its place and size do not matter. */
function designOf(shape: number, pieces: number): SolvedDesign {
  const name = `${shape} ${pieces}`;
  const known = fits.get(name);
  if (known !== undefined) return known;
  const parameters = { y: 3, width: shape === 0 ? 2 : 4, height: shape === 0 ? 2 : 1 };
  const { outline, values, nodes } = fitCurvature(outlineOf({ family: 'ellipse', parameters }, room), pieces, 0.1)!;
  const design = { form: outline.form, values, nodes };
  fits.set(name, design);
  return design;
}

/** What a design costs beyond the least, as a share: every set of slopes takes three quarters of it. */
const excesses = new WeakMap<Float64Array, { readonly shape: number; readonly excess: number }>();
const kept = 0.25;

function reachedAt(shape: number, pieces: number, excess: number, area: number) {
  const { form, values, nodes } = designOf(shape, pieces);
  const design = { form, values: values.slice(), nodes };
  excesses.set(design.values, { shape, excess });
  return { design, area, cost: best[shape]!(area) * (1 + excess), violation: 0, locallyOptimalWithin: excess };
}

function refine(request: RefineRequest): RefineResult {
  const { start, areas, beside, pieces, slopes, slopesBeyond, most } = request;
  let { shape, excess } =
    'values' in start ? excesses.get(start.values)! : { shape: start.family, excess: start.x[0]! };
  const count = pieces ?? ('values' in start ? start.form.knots.length + 1 : 16);
  const whole = request.largest === true ? largest : 1;
  const reached = areas.flatMap((share, k) => {
    const area = whole * share;
    if (area > largest) return [];
    excess *= kept ** (k === 0 ? slopes : slopesBeyond);
    const others = beside[k]!.filter((by) => area * (1 + by) <= largest);
    return [
      reachedAt(shape, count, excess, area),
      ...others.map((by) => reachedAt(shape, count, excess + by * by, area * (1 + by))),
    ];
  });
  return { reached, stop: 'done', evaluations: most / 2 };
}

function planOf(budget: number, stopAfter = Number.POSITIVE_INFINITY) {
  let left = budget;
  let asked = 0;
  const plan: RefinePlan = {
    refine: async (requests) => requests.map(refine),
    left: () => left,
    note({ evaluations }) {
      left -= evaluations;
      asked++;
    },
    goOn: () => asked < stopAfter,
  };
  return { plan, spent: () => budget - left };
}

/** How far the front of some designs lies above the least cost at most, as a share, between sizes, and the largest gap between neighbours. */
function above(found: readonly Refined[], from: number, to: number) {
  const front = frontOf(found).filter(({ size }) => size >= from && size <= to);
  return {
    excess: Math.max(...front.map(({ size, cost }) => cost / leastCost(size) - 1)),
    gap: Math.max(...front.slice(1).map(({ cost }, k) => cost / front[k]!.cost - 1)),
  };
}

/** Coarse, each shape where it is the better one, and 4 % too dear. */
const coarse = [0.5, 1, 1.6, 2.4, 3, 4].map(
  (size) => refinedOf({ reached: [reachedAt(size < 2 ? 0 : 1, 40, 0.04, size)], stop: '', evaluations: 0 })[0]!,
);

describe('following a front of which the best is known', () => {
  it('comes down to it at every size, and fills it', async () => {
    const { plan, spent } = planOf(1e6);
    const { found, stop } = await followFront(coarse, plan);
    expect(stop).toBe('nothing more gained');
    expect(spent()).toBeLessThan(5e4);
    const { excess, gap } = above(found, 0.5, 4);
    expect(gap).toBeLessThan(0.02);
    // A shape may go on a little past where the other one becomes the better one.
    expect(excess).toBeLessThan(0.02);
    for (const [from, to] of [
      [0.5, 1.95],
      [2.15, 4],
    ] as const)
      expect(above(found, from, to).excess).toBeLessThan(5e-3);
  });

  it('stops where the budget ends, never beyond it, and where it is told to', async () => {
    const little = planOf(1500);
    const { stop, found } = await followFront(coarse, little.plan);
    expect(stop).toBe('budget spent');
    expect(little.spent()).toBeLessThanOrEqual(1500);
    expect(found.length).toBeGreaterThan(coarse.length);
    expect((await followFront(coarse, planOf(1e6, 4).plan)).stop).toBe('aborted');
  });

  it('works around an allowed cost alone where there is one', async () => {
    const around = planOf(1e6);
    const allow = leastCost(3);
    const { found } = await followFront(coarse, around.plan, allow);
    const whole = planOf(1e6);
    await followFront(coarse, whole.plan);
    expect(around.spent()).toBeLessThan(whole.spent() / 2);
    const size = Math.max(...found.filter(({ cost }) => cost <= allow).map((one) => one.size));
    expect(size / 3).toBeGreaterThan(0.99);
    for (const one of found.slice(coarse.length)) expect(Math.abs(Math.log(one.cost / allow))).toBeLessThan(0.5);
  });
});

describe('refining a front of which the best is known', () => {
  const known = [0.6, 1, 1.6, 2.4, 3].map((size): KnownOutline => {
    const family = size < 2 ? 0 : 1;
    return { start: { family, x: Float64Array.of(0.5) }, size, cost: best[family]!(size) * 1.5 };
  });
  const small: KnownOutline[] = [
    { start: { family: 0, x: Float64Array.of(0.5) }, size: 0.2, cost: best[0]!(0.2) * 1.5 },
  ];

  it.each([3000, 6000, 1e6])('goes to the largest outline and down to the best with %d evaluations', async (budget) => {
    const { plan, spent } = planOf(budget);
    const found = await refineFront(known, budget > 3000 ? small : [], plan);
    expect(spent()).toBeLessThanOrEqual(budget);
    const front = frontOf(found);
    expect(front.at(-1)!.size / largest).toBeGreaterThan(0.99);
    if (budget > 3000) expect(front[0]!.size).toBeLessThan(0.3);
    expect(above(found, 0.6, 4).excess).toBeLessThan(budget < 1e6 ? 0.05 : 5e-3);
  });

  it('is nothing with few evaluations or nothing known, and ends where it is told to', async () => {
    expect(await refineFront(known, [], planOf(leastForRefinement - 1).plan)).toEqual([]);
    expect(await refineFront([], [], planOf(1e6).plan)).toEqual([]);
    const early = await refineFront(known, small, planOf(1e6, 2).plan);
    expect(early.length).toBeLessThan((await refineFront(known, small, planOf(1e6).plan)).length);
  });

  it('begins with one outline alone', async () => {
    const front = frontOf(await refineFront(known.slice(0, 1), [], planOf(1e5).plan));
    expect(front.at(-1)!.size / largest).toBeGreaterThan(0.99);
  });
});
