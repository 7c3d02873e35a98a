import { describe, expect, it } from 'vitest';
import { ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import { type PlateHost, reducePlate } from '../host/index.js';
import { createStressModel } from '../stress/index.js';
import { type CaseSurvey, createStrengthModel, fatigueLives } from './index.js';

const survey = (places: Readonly<Record<string, number>>): CaseSurvey => ({
  name: 'pulled',
  places: Object.entries(places).map(([place, factor]) => {
    const criterion = place === 'bend' ? ('delamination' as const) : ('splitting' as const);
    return { place, criterion, factor, x: 0, y: 1 };
  }),
});

describe('fatigue', () => {
  it('follows its lines: half the strength at slope 10 lives for 2^10 cycles', () => {
    const [life] = fatigueLives([survey({ edge: 2 })], [survey({ filler: 3 })], { tension: 10, delamination: 12 });
    expect(life!.life).toBeCloseTo(1024, 9);
    expect(life!.ratio).toBeCloseTo((2 / 3) ** 10, 12);
    expect(life!.place).toBe('edge');
  });

  it('can start elsewhere than static failure does', () => {
    const both = survey({ edge: 2, bend: 2.2 });
    expect(fatigueLives([both], [both], { tension: 14, delamination: 8 })[0]!.place).toBe('bend');
    expect(fatigueLives([both], [both], { tension: 8, delamination: 8 })[0]!.place).toBe('edge');
    expect(fatigueLives([both], [both])[0]!.ratio).toBe(1);
  });

  it('says Infinity where nothing is stressed and NaN where there is nothing to compare with', () => {
    const [life] = fatigueLives([survey({})], [survey({})]);
    expect(life!.life).toBe(Number.POSITIVE_INFINITY);
    expect(life!.place).toBe('none');
    expect(life!.ratio).toBeNaN();
  });

  it("takes a hole's stress concentration to the power of the slope", () => {
    const joint: PlateHost = {
      kind: 'plate',
      material: {
        E1: 3500,
        E2: 3500,
        nu12: 0.35,
        nu23: 0.35,
        G12: 3500 / 2.7,
        alpha1: 0,
        alpha2: 0,
        transverseTension: 60,
        interlaminarShear: 60,
      },
    };
    const model = reducePlate(joint);
    const loads = { farField: { sx: 10, sy: 0, txy: 0 } };
    const cases = [{ name: 'pulled', factors: { farField: 1 } }];
    const nodes = ellipseNodes(1, 1, [0, 0], 0, 64);
    const stress = createStressModel(model, loads, cases).evaluate(nodes, false);
    const strength = createStrengthModel(model, joint, loads, cases, { edge: 'peak' });
    const [life] = fatigueLives(strength.scaledWhole().survey(stress), strength.scaledWhole().surveyWithoutChannel(), {
      tension: 9,
      delamination: 9,
    });
    // Kirsch: three times the stress.
    expect(life!.life).toBeCloseTo(2 ** 9, 5);
    expect(life!.ratio / 3 ** -9).toBeCloseTo(1, 6);
  });
});
