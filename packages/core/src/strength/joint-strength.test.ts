import { beforeAll, describe, expect, it } from 'vitest';
import { reducedTee } from '../../../../test/fixtures/reduced.js';
import { ellipseNodes, referenceJoint, referenceLoads } from '../../../../test/fixtures/tee-reference.js';
import {
  type LoadCase,
  type Loads,
  type PlateHost,
  type ReducedModel,
  reducePlate,
  reduceTee,
  type TeeJoint,
} from '../host/index.js';
import type { Ply } from '../material/index.js';
import type { CurveNodes } from '../outline/index.js';
import { createStressModel } from '../stress/index.js';
import { createStrengthModel, type StrengthOptions } from './index.js';

const resin: Ply = {
  E1: 3500,
  E2: 3500,
  nu12: 0.35,
  nu23: 0.35,
  G12: 3500 / 2.7,
  alpha1: 60e-6,
  alpha2: 60e-6,
  transverseTension: 60,
  interlaminarShear: 50,
};
const plate: PlateHost = { kind: 'plate', material: resin };

/** Strength of a plate with a circle of radius 1 under 30 MPa along x; a node lies at its top. */
function plateWithCircle(edge: StrengthOptions['edge']) {
  const model = reducePlate(plate);
  const loads: Loads = { farField: { sx: 30, sy: 0, txy: 0 } };
  const cases: LoadCase[] = [{ name: 'pulled', factors: { farField: 1 } }];
  const nodes = ellipseNodes(1, 1, [0, 0], Math.PI / 128, 128);
  const stress = createStressModel(model, loads, cases).evaluate(nodes, false);
  const strength = createStrengthModel(model, plate, loads, cases, { edge });
  return { without: strength.withoutChannel, with: strength.evaluate(stress) };
}

describe('a plate with a circle under uniaxial tension', () => {
  it('keeps a third of its strength by the peak (Kirsch 1898)', () => {
    const { without, with: found } = plateWithCircle('peak');
    expect(without.loadFactor).toBeCloseTo(2, 12);
    expect(without.place).toBe('filler');
    expect(found.loadFactor).toBeCloseTo(2 / 3, 9);
    expect(found.retained).toBeCloseTo(1 / 3, 9);
    expect(found.place).toBe('edge');
    expect(Math.abs(found.x)).toBeLessThan(1e-6);
  });

  it('keeps what Whitney & Nuismer say by point stress and average stress', () => {
    // Whitney & Nuismer, J. Compos. Mater. 8 (1974) 253-265, circular hole in an isotropic plate, xi = R / (R + d) (from memory):
    // point stress 2 / (2 + xi^2 + 3 xi^4), average stress 2 (1 - xi) / (2 - xi^2 - xi^4).
    for (const distance of [0.02, 0.1, 0.5]) {
      const xi = 1 / (1 + distance);
      const point = plateWithCircle({ distance }).with.retained;
      const average = plateWithCircle({ distance, average: true }).with.retained;
      expect(point).toBeCloseTo(2 / (2 + xi ** 2 + 3 * xi ** 4), 6);
      expect(average).toBeCloseTo((2 * (1 - xi)) / (2 - xi ** 2 - xi ** 4), 4);
    }
  });

  it('tends to the peak as the distance vanishes', () => {
    expect(plateWithCircle({ distance: 1e-7 }).with.retained).toBeCloseTo(1 / 3, 6);
  });
});

describe('a tee', () => {
  const cases: LoadCase[] = [
    { name: 'cured', factors: { cure: 1 } },
    { name: 'pulled', factors: { pull: 1, cure: 0.4 } },
    { name: 'pull alone', factors: { pull: 1 } },
  ];
  let model: ReducedModel;
  beforeAll(() => {
    model = reducedTee(referenceJoint, 0.12, 0.12);
  });

  const judge = (
    nodes: CurveNodes,
    mirror: boolean,
    options: StrengthOptions = { edge: 'peak' },
    loads: Loads = referenceLoads,
    combined = cases,
    of = model,
    joint = referenceJoint,
  ) => {
    const stress = createStressModel(of, loads, combined).evaluate(nodes, mirror);
    const strength = createStrengthModel(of, joint, loads, combined, options);
    const found = strength.evaluate(stress);
    return {
      ...found,
      cases: found.cases.map((one) => ({ ...one })),
      without: strength.withoutChannel,
      survey: strength.survey(stress),
      surveyWithout: strength.surveyWithoutChannel(),
    };
  };
  const flat = ellipseNodes(0.8, 0.45, [0, 1.1], 0, 128);

  it('reaches the strength of the filler at its load factor, cure held and pull scaled', () => {
    const found = judge(flat, true).cases[1]!;
    expect(found.place).toBe('edge');
    const scaled = [{ name: 'at failure', factors: { pull: found.factor, cure: 0.4 } }];
    const { peak, peakX, peakY } = createStressModel(model, referenceLoads, scaled).evaluate(flat, true).cases[0]!;
    expect(peak).toBeCloseTo(referenceJoint.filler.transverseTension, 1);
    expect(Math.hypot(Math.abs(peakX) - Math.abs(found.x), peakY - found.y)).toBeLessThan(0.05);
  });

  it('scales a case of cure alone, and gives the joint no strength where that fails before any load', () => {
    const { cases: found, loadFactor, retained, worstCase } = judge(flat, true);
    expect(found.map(({ scales }) => scales)).toEqual(['cure', 'loads', 'loads']);
    expect(found[0]!.factor).toBeLessThan(1);
    expect([loadFactor, retained, worstCase]).toEqual([0, 0, 0]);
    const cooler = { ...referenceLoads, cure: { deltaT: -100 } };
    const survives = judge(flat, true, { edge: 'peak' }, cooler);
    expect(survives.cases[0]!.factor / found[0]!.factor).toBeCloseTo(1.55, 6);
    expect(survives.loadFactor).toBe(Math.min(survives.cases[1]!.factor, survives.cases[2]!.factor));
    expect(survives.retained).toBe(Math.min(survives.cases[1]!.retained, survives.cases[2]!.retained));
    const alone = judge(flat, true, { edge: 'peak' }, referenceLoads, [cases[0]!]);
    expect(alone.loadFactor).toBe(found[0]!.factor);
  });

  it('fails without channel in the filler at its largest principal stress', () => {
    // 79.44 MPa under pull, 36.12 MPa under cure: the independent solution in test/fixtures/tee-reference.json.
    const { without } = judge(flat, true);
    expect(without.cases[2]!.factor / (48 / 79.44)).toBeCloseTo(1, 2);
    expect(without.cases[0]!.factor / (48 / 36.12)).toBeCloseTo(1, 2);
    expect(without.cases[2]!.place).toBe('filler');
  });

  it('judges mirror images alike, and an outline alike as symmetric and as general', () => {
    const half = judge(flat, true);
    const whole = judge(flat, false);
    const turned = judge(ellipseNodes(0.7, 0.4, [0.3, 1.1], 0.4, 128), false);
    const image = judge(ellipseNodes(0.7, 0.4, [-0.3, 1.1], -0.4, 128), false);
    half.survey.forEach((one, c) => {
      one.places.forEach(({ place, factor }) => {
        const other = whole.survey[c]!.places.find((p) => p.place === place)!;
        expect(other.factor / factor, `${one.name} ${place}`).toBeCloseTo(1, 4);
      });
    });
    turned.survey.forEach((one, c) => {
      one.places.forEach(({ place, factor, x, y }) => {
        const other = image.survey[c]!.places.find((p) => p.place === place)!;
        expect(other.factor / factor, `${one.name} ${place}`).toBeCloseTo(1, 4);
        if (place !== 'edge') expect([other.x + x, other.y - y].every((d) => Math.abs(d) < 1e-9)).toBe(true);
      });
    });
  });

  it('fails on the other side when a side load turns round', () => {
    const push = (force: number) =>
      judge(flat, false, { edge: 'peak' }, { side: { force } }, [{ name: 'pushed', factors: { side: 1 } }]);
    const [right, left] = [push(10), push(-10)];
    expect(left.loadFactor / right.loadFactor).toBeCloseTo(1, 6);
    expect(left.x + right.x).toBeCloseTo(0, 6);
    expect(Math.abs(right.x)).toBeGreaterThan(0.1);
    // An antisymmetric stress fails on the side where it pulls.
    const arc = right.surveyWithout[0]!.places.find(({ place }) => place === 'arc-interface')!;
    const mirrored = left.surveyWithout[0]!.places.find(({ place }) => place === 'arc-interface')!;
    expect(arc.factor).toBeCloseTo(mirrored.factor, 9);
    expect(arc.x).toBeCloseTo(-mirrored.x, 9);
  });

  it('names the place that fails first, and agrees with its survey of all places', () => {
    for (const edge of ['peak', { distance: 0.3 }] as const) {
      const found = judge(flat, true, { edge });
      found.cases.forEach((one, c) => {
        const first = found.survey[c]!.places.reduce((a, b) => (b.factor < a.factor ? b : a));
        expect(first.factor / one.factor).toBeCloseTo(1, 9);
        expect(first.place).toBe(one.place);
      });
    }
    const places = judge(flat, true).surveyWithout[2]!.places.map(({ place }) => place);
    expect(new Set(places)).toEqual(
      new Set(['filler', 'arc-interface', 'base-interface', 'bend', 'foot', 'web', 'skin']),
    );
  });

  it('lets a healed filler split at its interfaces too, where it bears no more than inside', () => {
    const bending: LoadCase[] = [cases[2]!];
    const fillerOf = (options: Partial<StrengthOptions>) =>
      createStrengthModel(model, referenceJoint, referenceLoads, bending, { edge: 'peak', ...options })
        .surveyWithoutChannel()[0]!
        .places.find(({ place }) => place === 'filler')!;
    const sound = fillerOf({});
    const tension = referenceJoint.filler.transverseTension / 2;
    const half = { tension, shear: 1000, bond: { tension: 1000, shear: 1000 } };
    expect(sound.criterion).toBe('splitting');
    expect(fillerOf({ healed: half }).factor).toBeCloseTo(sound.factor / 2, 9);
  });

  it('holds the cure or scales it with the loads, as it is asked', () => {
    const stress = createStressModel(model, referenceLoads, cases).evaluate(flat, true);
    const strength = createStrengthModel(model, referenceJoint, referenceLoads, cases, { edge: 'peak' });
    const held = strength.survey(stress)[1]!.places;
    const scaled = strength.scaledWhole().survey(stress)[1]!.places;
    const edgeOf = (places: typeof held) => places.find(({ place }) => place === 'edge')!.factor;
    // Scaled whole, the edge bears its strength over its peak.
    expect(edgeOf(scaled)).toBeCloseTo(48 / stress.cases[1]!.peak, 4);
    expect(edgeOf(held)).toBeLessThan(edgeOf(scaled));
    // Both say the same of a case without cure.
    expect(strength.scaledWhole().surveyWithoutChannel()[2]).toEqual(strength.surveyWithoutChannel()[2]);
  });

  it('moves away from the edge where the edge is judged at a distance', () => {
    const found = judge(flat, true, { edge: { distance: 0.5 } }, referenceLoads, [cases[2]!]);
    expect(found.place).not.toBe('edge');
    expect(found.retained).toBeGreaterThan(0.7);
  });

  it('finds that the pressure in a channel needs a channel', () => {
    const found = judge(flat, true, { edge: 'peak' }, { pressure: { pressure: 5 } }, [
      { name: 'primed', factors: { pressure: 1 } },
    ]);
    expect(found.without.loadFactor).toBe(Number.POSITIVE_INFINITY);
    expect(found.loadFactor).toBeGreaterThan(0);
    expect(found.loadFactor).toBeLessThan(100);
    expect(found.cases[0]!.retained).toBeNaN();
    expect(found.retained).toBe(Number.POSITIVE_INFINITY);
  });

  it('depends on neither the unit of length nor that of stress', { tags: 'long' }, () => {
    const scaledPly = (ply: Ply, stress: number): Ply => ({
      ...ply,
      E1: ply.E1 * stress,
      E2: ply.E2 * stress,
      G12: ply.G12 * stress,
      transverseTension: ply.transverseTension * stress,
      interlaminarShear: ply.interlaminarShear * stress,
    });
    const [length, unit] = [1e-3, 1e6];
    const layup = (layers: TeeJoint['skin']) =>
      layers.map((layer) => ({ ...layer, thickness: layer.thickness * length, ply: scaledPly(layer.ply, unit) }));
    const joint: TeeJoint = {
      ...referenceJoint,
      bendRadius: 5 * length,
      webHeight: 25 * length,
      footLength: 20 * length,
      skinHalfSpan: 40 * length,
      overlaminate: layup(referenceJoint.overlaminate),
      skin: layup(referenceJoint.skin),
      filler: scaledPly(referenceJoint.filler, unit),
    };
    const small = reduceTee(joint, 0.12 * length, 0.12 * length);
    const nodes = ellipseNodes(0.8 * length, 0.45 * length, [0, 1.1 * length], 0, 128);
    const loads = { pull: { force: 100 * length * unit }, cure: { deltaT: -155 } };
    for (const edge of ['peak', 'distance'] as const) {
      const options = (unitLength: number): StrengthOptions => ({
        edge: edge === 'peak' ? 'peak' : { distance: 0.2 * unitLength },
      });
      const stress = createStressModel(small, loads, cases).evaluate(nodes, true);
      const found = createStrengthModel(small, joint, loads, cases, options(length)).evaluate(stress);
      const expected = judge(flat, true, options(1));
      found.cases.forEach((one, c) => {
        expect(one.factor / expected.cases[c]!.factor).toBeCloseTo(1, 6);
        expect(one.retained / expected.cases[c]!.retained).toBeCloseTo(1, 6);
      });
    }
  });

  it('says NaN for an outline that could not be solved', () => {
    const broken = ellipseNodes(0.8, 0.45, [0, 1.1], 0, 64);
    broken.x.fill(Number.NaN);
    const found = judge(broken, true);
    expect([found.loadFactor, found.retained, found.cases[0]!.factor]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
  });

  it('refuses distances that are none', () => {
    expect(() => judge(flat, true, { edge: { distance: -1 } })).toThrow(/strength.edge.distance/);
    expect(() => judge(flat, true, { edge: 'peak', cuspDistance: Number.NaN })).toThrow(/strength.cuspDistance/);
  });
});
