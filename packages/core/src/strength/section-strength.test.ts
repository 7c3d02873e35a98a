import { beforeAll, describe, expect, it } from 'vitest';
import { placeRowsOf } from '../../../../test/fixtures/place-rows.js';
import { reducedTee } from '../../../../test/fixtures/reduced.js';
import {
  ellipseNodes,
  reference,
  referenceJoint,
  referenceLoads,
  referenceNodes,
} from '../../../../test/fixtures/tee-reference.js';
import { framedCount, plainFrame } from '../edge/index.js';
import { hostOf, type ReducedModel, reduceTee } from '../host/index.js';
import type { CurveNodes } from '../outline/index.js';
import { actingLoads, createStressModel } from '../stress/index.js';
import { delaminationFactor } from './criteria.js';
import { createStrengthModel } from './index.js';
import { createPlaceMoments } from './place-moments.js';

const cases = [
  { name: 'cure', factors: { cure: 1 } },
  { name: 'pull', factors: { pull: 1 } },
];
let model: ReducedModel;
beforeAll(() => {
  model = reducedTee(referenceJoint, 0.12, 0.12);
});

function survey(nodes: CurveNodes, mirror: boolean) {
  const stress = createStressModel(model, referenceLoads, cases).evaluate(nodes, mirror);
  const strength = createStrengthModel(model, referenceJoint, referenceLoads, cases, {
    edge: 'peak',
    cuspDistance: 0.5,
  });
  return strength.survey(stress);
}
const factorOf = (places: ReturnType<typeof survey>[number]['places'], name: string) =>
  places.find(({ place }) => place === name)!.factor;

describe('interfaces near a channel', () => {
  // The moments alone give the base under a circle of 2 mm 4.5 % too much tension, under the upright ellipse 2 % too little.
  for (const outline of reference.outlines)
    it(`tear at the tension of the independent solution: ${outline.name}`, () => {
      const [cured] = survey(referenceNodes(outline, 128), true);
      const { baseNormal, baseShear } = outline.section.cure;
      const { transverseTension: Z, interlaminarShear: S } = referenceJoint.filler;
      const factor = factorOf(cured!.places, 'base-interface');
      // No later than by its largest tension alone, no earlier than if its largest shear acted at the same place.
      expect(factor).toBeLessThan(1.02 * (Z / baseNormal.value));
      expect(factor).toBeGreaterThan(0.98 / Math.hypot(baseNormal.value / Z, baseShear.value / S));
      // On the axis there is no shear.
      if (Math.abs(baseNormal.x) < 0.01) expect(factor).toBeGreaterThan(0.98 * (Z / baseNormal.value));
    });

  const worked: readonly (readonly [string, readonly [number, number, number], Readonly<Record<string, number>>])[] = [
    ['low, cured', [0.8, 0.548, 0.72], { cure: 1 }],
    ['wide, pushed', [1.398, 0.717, 1.002], { pull: -0.5 }],
    ['wide, pulled on what is cured', [1.398, 0.717, 1.002], { cure: 0.3, pull: 1 }],
  ];
  const haveLeast = (...[, [a, b, y], factors]: (typeof worked)[number]) => {
    const one = [{ name: 'one', factors }];
    const edge = createStressModel(model, referenceLoads, one).evaluate(ellipseNodes(a, b, [0, y], 0, 96), true);
    const cuspDistance = 0.5;
    const options = { edge: 'peak', cuspDistance } as const;
    const { places } = createStrengthModel(model, referenceJoint, referenceLoads, one, options).survey(edge)[0]!;
    const acting = actingLoads(model, referenceLoads);
    const moments = createPlaceMoments(model, acting);
    moments.take(edge);
    // As they are kept, over framed moments, filled up with zeros.
    const { degree } = model.places.basis;
    const [symmetric, antisymmetric] = (['symmetric', 'antisymmetric'] as const).map((of) =>
      plainFrame(framedCount(of, degree)),
    );
    const rows = placeRowsOf({ ...model.places, frame: { symmetric: symmetric!, antisymmetric: antisymmetric! } }).map(
      (map) => (map as { symmetric: Float64Array }).symmetric,
    );
    const { cure: held = 0, pull: grown = 1 } = factors as { cure?: number; pull?: number };
    const { points } = model.places;
    const least = new Map<string, number>();
    points.forEach((point, p) => {
      const { place, x, y: height } = point;
      if (Math.min(Math.hypot(x - 5, height), Math.hypot(x, height - 5)) < cuspDistance) return;
      const [n, , s] = [0, 1, 2].map((c) =>
        acting.map(({ atPlaces, responseIndex }, l) => {
          const { even } = moments.framed[l]!;
          const row = rows[responseIndex]!.subarray((3 * p + c) * even.length, (3 * p + c + 1) * even.length);
          const byStrain = edge.strains[l]! * model.places.strained![responseIndex]![3 * p + c]!;
          return row.reduce((sum, value, j) => sum + value * even[j]!, atPlaces[3 * p + c]! + byStrain);
        }),
      ) as [number[], number[], number[]];
      const [cure, pull] = ['cure', 'pull'].map((name) => acting.findIndex((load) => load.name === name)) as [
        number,
        number,
      ];
      const of = (values: number[]) =>
        'pull' in factors ? [held * values[cure]!, grown * values[pull]!] : [0, held * values[cure]!];
      const { tension, shear } = hostOf(referenceJoint).strengthAt(point);
      if (!Number.isFinite(tension)) return;
      const [[n0, n1], [s0, s1]] = [of(n), of(s)] as [[number, number], [number, number]];
      const factor = delaminationFactor({ n: n0, s: s0 }, { n: n1, s: s1 }, tension, shear);
      least.set(place, Math.min(least.get(place) ?? Infinity, factor));
    });
    expect([...least.keys()].sort()).toEqual(['arc-interface', 'base-interface', 'bend', 'foot', 'skin', 'web']);
    // The limit around the tips lies between points, and may be weaker.
    for (const [place, factor] of least) expect(factorOf(places, place) / factor, place).toBeLessThan(1 + 1e-9);
    for (const place of ['arc-interface', 'base-interface', 'foot', 'web'])
      expect(factorOf(places, place) / least.get(place)!, place).toBeGreaterThan(
        place.endsWith('interface') ? 0.97 : 1 - 1e-9,
      );
  };
  const title = 'have the least factor of all their points, however few are worked out: %s';
  it.each(worked.slice(0, 1))(title, haveLeast);
  it.each(worked.slice(1))(title, { tags: 'long' }, haveLeast);

  it('are judged alike on the left and on the right, and of a symmetric outline and a general one', () => {
    const pairs = [
      [
        survey(ellipseNodes(0.6, 0.5, [0.55, 1.15], 0.5, 96), false),
        survey(ellipseNodes(0.6, 0.5, [-0.55, 1.15], -0.5, 96), false),
      ],
      [survey(ellipseNodes(0.95, 0.9, [0, 1.2], 0, 96), true), survey(ellipseNodes(0.95, 0.9, [0, 1.2], 0, 96), false)],
    ] as const;
    for (const [one, other] of pairs)
      one.forEach(({ name, places }, c) => {
        for (const { place, factor, y } of places) {
          const image = other[c]!.places.find((found) => found.place === place)!;
          expect(image.factor / factor, `${name} ${place}`).toBeCloseTo(1, 5);
          if (place !== 'edge') expect(image.y).toBeCloseTo(y, 9);
        }
      });
  });
});

it.each([1, 2.5])(
  'without channel every place fails at the same factor whatever the mesh of the host: %d',
  { tags: 'long' },
  (refinement) => {
    const surveyOf = (one: ReducedModel) =>
      createStrengthModel(one, referenceJoint, referenceLoads, cases, { edge: 'peak' }).surveyWithoutChannel();
    const usual = surveyOf(model);
    const other = surveyOf(reduceTee(referenceJoint, 0.12, 0.12, { edges: 140, refinement, degree: 28 }));
    usual.forEach(({ name, places }, c) => {
      // The limit around the tips: 0.157 to 0.176 before it was judged itself, on meshes refined once and twice.
      for (const { place, factor } of places)
        expect(Math.abs(factor / factorOf(other[c]!.places, place) - 1), `${name} ${place}`).toBeLessThan(
          place.endsWith('interface') ? 0.01 : 0.03,
        );
    });
  },
);

describe('without channel', () => {
  const surveyAt = (cuspDistance: number) =>
    createStrengthModel(model, referenceJoint, referenceLoads, cases, {
      edge: 'peak',
      cuspDistance,
    }).surveyWithoutChannel();

  it('the least of every place is told, wherever a row dips', () => {
    const acting = actingLoads(model, referenceLoads);
    const { transverseTension: Z, interlaminarShear: S } = referenceJoint.filler;
    for (const { name, places } of surveyAt(0.5)) {
      const load = acting.find((one) => one.name === name)!;
      const least = new Map<string, number>();
      model.places.points.forEach(({ place, x, y }, p) => {
        if (Math.min(Math.hypot(x - 5, y), Math.hypot(x, y - 5)) < 0.5) return;
        const [n, , s] = load.atPlaces.subarray(3 * p, 3 * p + 3);
        const grown = { n: n!, s: s! };
        const factor = delaminationFactor({ n: 0, s: 0 }, grown, Z, S);
        least.set(place, Math.min(factor, least.get(place) ?? Number.POSITIVE_INFINITY));
      });
      for (const place of ['web', 'bend', 'foot', 'skin'])
        expect(factorOf(places, place) / least.get(place)!, `${name} ${place}`).toBeLessThan(1 + 1e-9);
    }
  });

  it('the limit around the tips is judged itself, wherever the mesh has its points', () => {
    let before = 0;
    for (let distance = 0.85; distance < 1.5; distance += 0.05) {
      const { factor, x, y } = surveyAt(distance)[1]!.places.find(({ place }) => place === 'base-interface')!;
      expect(Math.min(Math.hypot(x - 5, y), Math.hypot(x, y - 5))).toBeCloseTo(distance, 9);
      // Each farther from the tip than the one before; between two points of the mesh all were the same.
      expect(factor).toBeGreaterThan(before);
      before = factor;
    }
  });
});
