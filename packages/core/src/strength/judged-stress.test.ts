import { beforeAll, describe, expect, it } from 'vitest';
import { reducedTee } from '../../../../test/fixtures/reduced.js';
import { ellipseNodes, leant, referenceJoint } from '../../../../test/fixtures/tee-reference.js';
import { hostOf, type ReducedModel, type SectionPoint } from '../host/index.js';
import { createStressModel } from '../stress/index.js';
import type { FirstFailure } from './first-failure.js';
import { createStrengthModel, type StrengthModel } from './index.js';

const { loads, cases } = leant;
let model: ReducedModel;
let strength: StrengthModel;
beforeAll(() => {
  model = reducedTee(referenceJoint, 0.12, 0.12);
  strength = createStrengthModel(model, referenceJoint, loads, cases, { edge: 'peak' });
});
const solved = (x: number, turn: number) =>
  createStressModel(model, loads, cases).evaluate(ellipseNodes(0.7, 0.4, [x, 1.1], turn, 96), false);

describe('where a place of a tee fails', () => {
  it('its stress at the load factor is one that its criterion says it just fails under', () => {
    const judged = strength.evaluate(solved(0.3, 0.4), 'places');
    let told = 0;
    judged.cases.forEach(({ places }, c) => {
      for (const first of places) {
        const stress = strength.stressAt(c, first);
        if (stress === undefined || !(first.factor > 0)) continue;
        const { n, t, s, normalAngle } = stress;
        const near = nearestOf(first);
        const limit = hostOf(referenceJoint).strengthAt(near);
        // Normals of the right side, mirrored on the left.
        expect(Math.sign(first.x || 1) * Math.cos(normalAngle)).toBeCloseTo(Math.cos(near.normalAngle), 1);
        if (first.criterion === 'delamination') {
          // Brewer & Lagace, J. Compos. Mater. 22 (1988) 1141-1155: tension and shear by their squares, no pressure.
          expect(Math.hypot(Math.max(0, n) / limit.tension, s / limit.shear)).toBeCloseTo(1, 6);
          told++;
        }
        if (first.criterion === 'splitting') {
          // Mohr's circle.
          expect(((n + t) / 2 + Math.hypot((n - t) / 2, s)) / limit.principal).toBeCloseTo(1, 6);
          told++;
        }
      }
    });
    expect(told).toBeGreaterThan(12);
  });

  it('the stress of the mirror image is the mirror image of the stress', () => {
    const sides = [solved(0.3, 0.4), solved(-0.3, -0.4)].map((edge, k) => {
      const judged = strength.evaluate(edge, 'places');
      // The load that leans comes from the other side.
      const c = k === 0 ? 1 : 2;
      return judged.cases[c]!.places.map((first) => ({ ...first, stress: strength.stressAt(c, first) }));
    });
    const [one, other] = sides;
    let compared = 0;
    one!.forEach(({ stress, x, place }, p) => {
      if (stress === undefined || x === 0) return;
      const image = other![p]!.stress!;
      expect(other![p]!.x).toBeCloseTo(-x, 9);
      compared++;
      const off = [image.n - stress.n, image.t - stress.t, image.s + stress.s].map(Math.abs);
      expect(Math.max(...off), place).toBeLessThan(1e-4);
      // Normals are opposite in x.
      expect(Math.cos(image.normalAngle)).toBeCloseTo(-Math.cos(stress.normalAngle), 9);
      expect(Math.sin(image.normalAngle)).toBeCloseTo(Math.sin(stress.normalAngle), 9);
    });
    expect(compared).toBeGreaterThan(4);
  });

  it('is told alike whether every place is judged or the first alone', () => {
    const edge = solved(0.3, 0.4);
    const places = strength.evaluate(edge, 'places').cases.map(({ places }) => places.map(({ factor }) => factor));
    const least = places.map(([, ...elsewhere]) => Math.min(...elsewhere));
    expect(cases.map((_, c) => strength.awayFromEdge(c) / least[c]!)).toEqual([1, 1, 1]);
    const first = strength.evaluate(edge, 'first');
    first.cases.forEach(({ factor, place }, c) => {
      expect(factor).toBeCloseTo(Math.min(...places[c]!), 9);
      if (place === 'edge') expect(places[c]![0]).toBe(factor);
      expect(strength.awayFromEdge(c) / least[c]!).toBeCloseTo(1, 9);
    });
    expect(first.cases.map(({ place }) => place)).toContain('edge');
  });

  it('a stronger cure is the same in each case, whether it is held or scales', () => {
    const stronger = cases.map(({ name, factors }) => ({ name, factors: { ...factors, cure: 1.3 * factors.cure } }));
    const nodes = ellipseNodes(0.7, 0.4, [0.3, 1.1], 0.4, 96);
    const expected = createStrengthModel(model, referenceJoint, loads, stronger, { edge: 'peak' }).survey(
      createStressModel(model, loads, stronger).evaluate(nodes, false),
    );
    const edge = solved(0.3, 0.4);
    // Twice changed is changed once by both.
    for (const one of [strength.withCure(1.3), strength.withCure(2).withCure(0.65)])
      one.survey(edge).forEach(({ places }, c) => {
        expect(places.map(({ place }) => place)).toEqual(expected[c]!.places.map(({ place }) => place));
        places.forEach(({ place, factor }, p) => {
          expect(factor / expected[c]!.places[p]!.factor, place).toBeCloseTo(1, 6);
        });
      });
  });

  it('is the same in the mirror where the edge is judged at a distance, which spares the filler beside it', () => {
    const atDistance = createStrengthModel(model, referenceJoint, loads, cases, { edge: { distance: 0.5 } });
    const peak = strength.survey(solved(0.3, 0.4))[1]!.places.find(({ place }) => place === 'filler');
    const [one, other] = [1, -1].map((side) => atDistance.survey(solved(side * 0.3, side * 0.4)));
    const [right, left] = [one![1]!.places, other![2]!.places];
    expect(right.length).toBe(left.length);
    right.forEach(({ place, factor }, p) => {
      expect(left[p]!.place).toBe(place);
      expect(left[p]!.factor / factor, place).toBeCloseTo(1, 5);
    });
    const spared = right.find(({ place }) => place === 'filler');
    expect(spared?.factor ?? Number.POSITIVE_INFINITY).toBeGreaterThan(peak!.factor);
  });

  it('the largest tension along it grows with the loads, and is on the other side in the mirror', () => {
    strength.evaluate(solved(-0.3, -0.4));
    const image = strength.tensionAlong(2, 'filler')!;
    strength.evaluate(solved(0.3, 0.4));
    const found = strength.tensionAlong(1, 'filler')!;
    expect(found.stress).toBeGreaterThan(1);
    expect(image.stress / found.stress).toBeCloseTo(1, 5);
    expect(Math.hypot(image.x + found.x, image.y - found.y)).toBeLessThan(1e-9);
    expect(strength.tensionAlong(1, 'edge')).toBeUndefined();
    const twice = cases.map(({ name, factors: { cure, ...rest } }) => ({
      name,
      factors: Object.fromEntries(Object.entries({ cure, ...rest }).map(([load, factor]) => [load, 2 * factor])),
    }));
    const doubled = createStrengthModel(model, referenceJoint, loads, twice, { edge: 'peak' });
    doubled.evaluate(solved(0.3, 0.4));
    expect(doubled.tensionAlong(1, 'filler')!.stress / found.stress).toBeCloseTo(2, 9);
  });

  it('nothing is retained where the cure alone leaves nothing without channel', () => {
    const strong = [{ name: 'cured through', factors: { cure: 40, pull: 1 } }];
    const { withoutChannel } = createStrengthModel(model, referenceJoint, loads, strong, { edge: 'peak' });
    expect([withoutChannel.loadFactor, withoutChannel.retained]).toEqual([0, 0]);
  });
});

/** The nearest of the model's points to where a place fails. */
function nearestOf({ place, x, y }: Pick<FirstFailure, 'place' | 'x' | 'y'>): SectionPoint {
  const off = (point: SectionPoint) => Math.hypot(point.x - Math.abs(x), point.y - y);
  return model.places.points
    .filter((point) => place === 'filler' || point.place === place)
    .reduce((a, b) => (off(b) < off(a) ? b : a));
}
