import { expect, it } from 'vitest';
import { reducedTee } from '../../../../test/fixtures/reduced.js';
import { ellipseNodes, referenceJoint, referenceLoads } from '../../../../test/fixtures/tee-reference.js';
import { createStressModel } from '../stress/index.js';
import { createStrengthModel, meshedStrength } from './index.js';

it('agrees with the whole section meshed, for a tilted channel under pull, side load and cure', {
  tags: 'long',
}, () => {
  const loads = { ...referenceLoads, side: { force: 5 } };
  const cases = [
    { name: 'cured', factors: { cure: 1 } },
    { name: 'pushed', factors: { cure: 0.3, pull: 1, side: 1 } },
  ];
  const model = reducedTee(referenceJoint, 0.12, 0.12);
  const nodes = ellipseNodes(0.6, 0.35, [0.2, 1.1], 0.3, 256);
  const stress = createStressModel(model, loads, cases).evaluate(nodes, false);
  const fast = createStrengthModel(model, referenceJoint, loads, cases, { edge: 'peak' }).survey(stress);
  // With so few nodes, the largest hoop stress lies between two.
  const few = ellipseNodes(0.6, 0.35, [0.2, 1.1], 0.3, 48);
  const meshed = meshedStrength({ joint: referenceJoint, loads, cases, model }, few);
  meshed.forEach(({ name, places }, c) => {
    const first = fast[c]!.places.reduce((a, b) => (b.factor < a.factor ? b : a));
    const expected = places.reduce((a, b) => (b.factor < a.factor ? b : a));
    expect(first.place).toBe(expected.place);
    expect(Math.abs(first.factor / expected.factor - 1), `${name} ${first.place}`).toBeLessThan(0.02);
    for (const { place, factor } of places) {
      const own = fast[c]!.places.find((one) => one.place === place)!.factor;
      const most = place === 'edge' ? 0.003 : 0.03;
      expect(Math.abs(own / factor - 1), `${name} ${place}: ${own} for ${factor}`).toBeLessThan(most);
    }
  });
});
