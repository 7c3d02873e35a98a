import { describe, expect, it } from 'vitest';
import { closeIn } from './close-in.js';
import { margin } from './outline-limits.js';
import type { RefineRequest, RefineResult, SolvedDesign } from './refine.js';
import type { Refined, RefinePlan } from './refined.js';
import type { PickedChannel } from './result.js';

type Sized = SolvedDesign & { readonly size: number };

const designOf = (size: number) => ({ values: new Float64Array(4), size }) as unknown as Sized;
const refined = (size: number, cost: number): Refined => ({
  ...{ design: designOf(size), size, cost, locallyOptimalWithin: 0 },
});

/** Every channel of an area has this peak; `reaches`: what comes of each step in turn. */
function scene(peakAt: (size: number) => number, reaches: (area: number, step: number) => number | undefined) {
  const asked: number[] = [];
  let left = Number.POSITIVE_INFINITY;
  const plan: RefinePlan = {
    async refine(requests: readonly RefineRequest[]) {
      return requests.map(({ areas }): RefineResult => {
        const size = reaches(areas[0]!, asked.push(areas[0]!) - 1);
        const design = designOf(size ?? 0);
        const reached = { design, area: size!, cost: peakAt(size!), violation: 0, locallyOptimalWithin: 0 };
        return { reached: size === undefined ? [] : [reached], stop: '', evaluations: 1 };
      });
    },
    left: () => left,
    note: () => {},
    goOn: () => true,
  };
  const report = (design: SolvedDesign) => {
    const { size } = design as Sized;
    return { area: size, peak: peakAt(size) } as PickedChannel;
  };
  const spend = () => {
    left = 0;
  };
  return { plan, report, asked, spend };
}

/** Peaks grow with the cube of the area: 27 MPa at 3 mm2. */
const cubed = (size: number) => size ** 2 * size;
/** Descents keep to the inner side of their limits. */
const exactly = (area: number) => (1 + margin) * area;

describe('closing in on an allowed peak', () => {
  it('begins with the largest that stays within it, and ends just below', async () => {
    const { plan, report, asked } = scene(cubed, exactly);
    const found = [2, 2.9, 3.2].map((size) => refined(size, cubed(size)));
    const { area, peak } = (await closeIn(found, 27, plan, report))!;
    expect(peak).toBeLessThanOrEqual(27);
    expect(peak).toBeGreaterThan(27 * (1 - 1e-4));
    expect(area).toBeCloseTo(3, 4);
    // Grows by 1 %, then 2 %, which goes too far; then secants.
    expect(asked[0]! / 2.9).toBeCloseTo(1.01 / (1 + margin), 9);
    expect(asked.length).toBeLessThan(6);
  });

  it('takes what a report says for what a descent has seen', async () => {
    // Reported peaks are a thousandth higher.
    const { plan, report } = scene((size) => 1.001 * cubed(size), exactly);
    const found = [refined(2.5, cubed(2.5)), refined(3, cubed(3))];
    expect((await closeIn(found, 27, plan, report))!.peak).toBeLessThanOrEqual(27);
    expect(await closeIn([refined(3, cubed(3))], 27, plan, report)).toBeUndefined();
    expect(await closeIn([refined(4, cubed(4))], 27, plan, report)).toBeUndefined();
  });

  it('takes smaller steps where one comes to nothing, and keeps what it has where the budget ends', async () => {
    const { plan, report, asked, spend } = scene(cubed, (area, step) => {
      if (step === 2) spend();
      return step === 0 ? undefined : area;
    });
    const { area } = (await closeIn([refined(2, 8)], 27, plan, report))!;
    expect(asked.map((one) => Number((one / 2).toFixed(3)))).toEqual([1.009, 1.002, 1.007]);
    expect(area).toBeCloseTo(asked[2]!, 12);
  });
});
