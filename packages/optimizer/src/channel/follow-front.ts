import { slopesCost } from '@lumenfront/core';
import { bestBySize } from '../front/index.js';
import { type Refined, type RefinePlan, refinedOf } from './refine-front.js';

/** Neighbours of a front differ in cost by less than this share… */
const step = 0.01;
/** …as far as these rounds bring it. A later round begins where an earlier one has found something better. */
const rounds = 5;
/** Around a cost means within this factor. */
const around = 1.05;
const slopes = 1;
const radius = 0.02;

/**
 * Fills a refined front between its designs, from either side half way, each design from the one before it in the same form: a set of slopes for each,
 * which foretells the next and gives its certificate. With `allow`, only around that cost.
 */
export async function followFront(found: readonly Refined[], plan: RefinePlan, allow?: number): Promise<Refined[]> {
  const all = [...found];
  const begun = new Set<string>();
  for (let round = 0; round < rounds && plan.goOn(); round++) {
    const front = bestBySize(
      all,
      ({ size }) => size,
      ({ cost }) => cost,
    );
    const wanted = front.flatMap((below, k) => {
      const above = front[k + 1];
      if (above === undefined || (allow !== undefined && (above.cost < allow / around || below.cost > allow * around)))
        return [];
      const parts = Math.ceil(Math.log(above.cost / below.cost) / step);
      const areas = Array.from(
        { length: parts - 1 },
        (_, i) => below.size + ((i + 1) * (above.size - below.size)) / parts,
      );
      const half = Math.ceil(areas.length / 2);
      return [
        { begin: below, areas: areas.slice(0, half) },
        { begin: above, areas: areas.slice(half).reverse() },
      ].filter(({ begin, areas }) => {
        const name = `${all.indexOf(begin)} ${areas[0]}`;
        return areas.length > 0 && !begun.has(name) && begun.add(name);
      });
    });
    const costOf = (values: number, areas: number) => areas * (slopes * slopesCost(values) + 4);
    let left = plan.left();
    const requests = wanted.flatMap(({ begin: { design, size }, areas }) => {
      const most = costOf(design.values.length, areas.length + 1);
      if (most > left) return [];
      left -= most;
      return [
        { start: design, areas: [size, ...areas], pieces: undefined, radius, slopes: 0, slopesBeyond: slopes, most },
      ];
    });
    if (requests.length === 0) break;
    for (const result of await plan.refine(requests)) {
      plan.note(result);
      all.push(...refinedOf(result));
    }
  }
  return all;
}
