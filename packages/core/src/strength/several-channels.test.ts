import { beforeAll, describe, expect, it } from 'vitest';
import { reducedTee } from '../../../../test/fixtures/reduced.js';
import { ellipseNodes, leant, referenceJoint } from '../../../../test/fixtures/tee-reference.js';
import type { Loads, ReducedModel } from '../host/index.js';
import { placedChannels, type SideBySide } from '../outline/index.js';
import { createStressModel, type SolvedEdge } from '../stress/index.js';
import { createStrengthModel, type StrengthModel } from './index.js';

const { loads, cases } = leant;
let model: ReducedModel;
let strength: StrengthModel;
beforeAll(() => {
  model = reducedTee(referenceJoint, 0.12, 0.12);
  strength = createStrengthModel(model, referenceJoint, loads, cases, { edge: 'peak' });
});

const groups: readonly (readonly [string, SideBySide, readonly [number, number]])[] = [
  ['two', { number: 2 }, [0.55, 0.2]],
  ['three', { number: 3, pitch: 1.1 }, [0, 0]],
];
const nodesOf = ([x, turn]: readonly [number, number]) => ellipseNodes(0.35, 0.3, [x, 0.9], turn, 64);
const stressOf = (of: Loads, channels: SideBySide) => createStressModel(model, of, cases, { channels });

const plain = (survey: ReturnType<StrengthModel['survey']>) =>
  survey.map(({ places }) => new Map(places.map((one) => [one.place, one])));

describe.each(groups)('the strength of a tee with %s channels', (_, channels, at) => {
  let together: SolvedEdge;
  beforeAll(() => {
    together = stressOf(loads, channels).evaluate(nodesOf(at), false);
  });

  it('is that of channels which are solved one by one, at every place', () => {
    const each = placedChannels(nodesOf(at), channels).map(({ nodes }) => nodes);
    const expected = plain(strength.survey(stressOf(loads, channels).evaluateEach(each)));
    plain(strength.survey(together)).forEach((places, c) => {
      expect([...places.keys()]).toEqual([...expected[c]!.keys()]);
      for (const [place, { factor }] of places)
        expect(factor / expected[c]!.get(place)!.factor, place).toBeCloseTo(1, 6);
    });
  });

  it('is the same on the other side when the side load turns round', () => {
    const [, forth, back] = plain(strength.survey(together));
    expect(forth!.get('edge')!.x).not.toBeCloseTo(0, 1);
    for (const [place, { factor, x, y }] of forth!) {
      const other = back!.get(place)!;
      expect(other.factor / factor, place).toBeCloseTo(1, 9);
      expect(Math.hypot(other.x + x, other.y - y), place).toBeLessThan(1e-6);
    }
  });

  it('is least where one over the load factor along the edges is largest, on both sides', () => {
    const { cases: found } = strength.evaluate(together, 'places');
    const sides = together.each.reduce((sum, { bothSides }) => sum + (bothSides ? 2 : 1), 0);
    const written = new Float64Array(sides * strength.perNode * 64 + 2);
    cases.forEach((_, c) => {
      written.fill(-1);
      strength.writeAlongEdge(c, 2, written, 1);
      expect([written[0], written.at(-1)]).toEqual([-1, -1]);
      const alongEdge = 2 / Math.max(...written) / found[c]!.places[0]!.factor;
      expect(alongEdge).toBeGreaterThan(1 - 1e-9);
      expect(alongEdge).toBeLessThan(1.002);
    });
  });
});
