import { beforeAll, describe, expect, it } from 'vitest';
import { seededRandom } from '../../../../test/fixtures/numbers.js';
import { reducedTee } from '../../../../test/fixtures/reduced.js';
import { ellipseNodes, referenceJoint } from '../../../../test/fixtures/tee-reference.js';
import { hostOf, type ReducedModel } from '../host/index.js';
import { actingLoads, createStressModel, type SolvedEdge } from '../stress/index.js';
import { clearFailure, createFailure } from './first-failure.js';
import { createPlaceStress, type PlaceStress } from './place-stress.js';
import { layOut, othersOf } from './row-checks.js';
import { createSectionJudge } from './section-judge.js';

const loads = { pull: { force: 20 }, side: { force: 5 }, cure: { deltaT: -60 } };
const symmetric = { pull: { force: 20 }, cure: { deltaT: -60 } };
const stress = () => ({ n: 0, t: 0, s: 0 });

let model: ReducedModel;
beforeAll(() => {
  model = reducedTee(referenceJoint, 0.12, 0.12);
});

/** All points of the tee away from its tips. */
const laidOut = () =>
  layOut(model, hostOf(referenceJoint), (x, y) => Math.min(Math.hypot(x - 5, y), Math.hypot(x, y - 5)) > 0.5);

/** Around a channel that is leant on, around one that is symmetric, and without. */
function taken(kind: string) {
  const given = kind === 'symmetric' ? symmetric : loads;
  const acting = actingLoads(model, given);
  const { order, checks } = laidOut();
  const places = createPlaceStress(model, acting, order);
  const solved = (): SolvedEdge =>
    kind === 'symmetric'
      ? createStressModel(model, given, []).evaluate(ellipseNodes(0.9, 0.5, [0, 0.95], 0, 96), true)
      : createStressModel(model, given, []).evaluate(ellipseNodes(0.6, 0.4, [0.3, 1], 0.4, 96), false);
  places.take(kind === 'without' ? undefined : solved(), kind === 'symmetric');
  return { places, order, checks, count: acting.length };
}

// How far bounds lie above what they are of, all in all, and the share of points that are looked at: what looking at few points closely is worth.
describe.each([
  ['leant on', 2.25, 0.12],
  ['symmetric', 1.65, 0.095],
  ['without', 1.55, 0.115],
] as const)('stresses at places of a tee, %s', (kind, loose, share) => {
  it('are never above their bounds, and not far below them', () => {
    const { places, order, count } = taken(kind);
    const random = seededRandom(3);
    const [held, grown, bound, ofRow] = [stress(), stress(), stress(), stress()];
    let [whole, told, beyond, held0, without, above, below] = [0, 0, 0, 0, 0, 0, 0];
    for (let round = 0; round < 3; round++) {
      const split = { fixed: new Float64Array(count), scaled: Float64Array.from({ length: count }, random) };
      const factors = split.scaled.map(Math.abs);
      order.points.forEach(({ at }, i) => {
        places.bound(i, factors, bound);
        if (bound.t > 0 !== order.tangential(at)) without++;
        for (const side of places.sides()) {
          places.combine(i, side, split, held, grown);
          for (const of of ['n', 't', 's'] as const) {
            whole += bound[of];
            told += Math.abs(grown[of]);
            beyond = Math.max(beyond, Math.abs(grown[of]) - bound[of] * (1 + 1e-9));
            held0 = Math.max(held0, Math.abs(held[of]));
          }
        }
      });
      // A row's is that of its points, the most of each load.
      for (let row = 0; row + 1 < order.rows.length; row++) {
        places.boundRow(row, factors, ofRow);
        const most = stress();
        for (let i = order.rows[row]!; i < order.rows[row + 1]!; i++) {
          places.bound(i, factors, bound);
          for (const of of ['n', 't', 's'] as const) most[of] = Math.max(most[of], bound[of]);
        }
        for (const of of ['n', 't', 's'] as const) {
          below = Math.max(below, most[of] - ofRow[of] * (1 + 1e-9));
          above = Math.max(above, ofRow[of] - 2.5 * most[of]);
        }
      }
    }
    expect({ beyond, held0, without, above, below }).toEqual({ beyond: 0, held0: 0, without: 0, above: 0, below: 0 });
    expect(whole / told).toBeLessThan(loose);
  });

  it('tell the first failure as all points do, though few are looked at', () => {
    const { places, order, checks, count } = taken(kind);
    let looks = 0;
    const counted: PlaceStress = {
      ...places,
      combine(i, side, factors, held, grown) {
        looks++;
        places.combine(i, side, factors, held, grown);
      },
    };
    const judge = createSectionJudge(checks, order, counted, count);
    const random = seededRandom(5);
    let [seen, all] = [0, 0];
    const first = createFailure();
    for (let round = 0; round < 12; round++) {
      const fixed = Float64Array.from({ length: count }, () => 0.3 * random());
      const split = { fixed, scaled: Float64Array.from({ length: count }, random), scales: 'loads', own: 0 } as const;
      let least = Number.POSITIVE_INFINITY;
      for (const side of places.sides())
        for (const check of checks)
          for (const i of [...check.always, ...othersOf(check)]) {
            least = Math.min(least, judge.factorOf(split, check, i, side));
            all++;
          }
      // The second time it knows where to begin.
      for (const again of [false, true]) {
        looks = 0;
        clearFailure(first);
        judge.judge({ split, first });
        expect(first.factor / least).toBeCloseTo(1, 9);
        if (again) seen += looks;
      }
    }
    expect(seen / all).toBeLessThan(share);
  });

  it('are judged case by case, though two begin with the same load factor', () => {
    const { places, order, checks, count } = taken(kind);
    const judge = createSectionJudge(checks, order, places, count);
    const first = createFailure();
    const factorFrom = (begun: number, size: number) => {
      const fixed = new Float64Array(count);
      const split = { fixed, scaled: new Float64Array(count).fill(size), scales: 'loads', own: 1 } as const;
      clearFailure(first);
      first.factor = begun;
      judge.judge({ split, first });
      return first.factor;
    };
    const alone = factorFrom(Number.POSITIVE_INFINITY, 1);
    // Nothing fails under a tenth of the loads before so much of them; under all of them something does.
    expect(factorFrom(2 * alone, 0.1)).toBe(2 * alone);
    expect(factorFrom(2 * alone, 1) / alone).toBeCloseTo(1, 9);
  });
});
