import { expect, it } from 'vitest';
import { readBrief } from '../brief/index.js';
import { hostOf } from '../host/index.js';
import { createCurveNodes, outlineOf } from '../outline/index.js';
import { createStrengthModel, meshedStrength } from '../strength/index.js';
import { createStressModel } from '../stress/index.js';
import { reduceJoint } from './task.js';

/** All plies of the overlaminate across the joint, a thin skin: a quarter of its stiffness along z is the filler's. */
const stiffFiller = `
host:
  kind: tee
  bendRadius: 5.5
  overlaminate: { layup: [0, 0, 0, 0], plyThickness: 0.6, ply: carbon }
  web: { height: 25 }
  foot: { length: 17 }
  skin: { thickness: 0.55, halfSpan: 46, layup: [45, -45, 0, 90], ply: carbon }
  filler: { ply: carbon }
  support: simple
materials:
  carbon:
    { E1: 126000, E2: 11000, nu12: 0.28, nu23: 0.4, G12: 6600, alpha1: -1e-6, alpha2: 26e-6, transverseTension: 50, interlaminarShear: 60 }
loads: { moment: { moment: 50 } }
`;

it('lets a joint strain otherwise along a large channel than without: edge and places agree with the mesh', {
  tags: 'long',
}, async () => {
  const { joint, channel, loads } = await readBrief(stiffFiller);
  const cases = [{ name: 'bent', factors: { moment: 1 } }];
  const model = reduceJoint(joint, channel);
  const host = hostOf(joint);
  const room = host.room({ ...channel, mirror: true });
  const large = outlineOf({ family: 'ellipse', parameters: { y: 1.3, width: 2.7, height: 1.9 } }, room);
  const nodesOf = (count: number) => {
    const nodes = createCurveNodes(count);
    large.place(nodes);
    return nodes;
  };
  const factors = (responses: typeof model.responses) => {
    const own = { ...model, responses };
    const edge = createStressModel(own, loads, cases).evaluate(nodesOf(256), true);
    return createStrengthModel(own, joint, loads, cases, { edge: 'peak' })
      .survey(edge)[0]!
      .places.map((one) => ({ ...one }));
  };
  const [free, held] = [factors(model.responses), factors(model.responses.map(({ axial: _, ...answer }) => answer))];
  const meshed = meshedStrength({ joint, loads, cases, model }, nodesOf(64))[0]!.places;
  const off = (all: typeof free, place: string) => {
    const [one, other] = [all, meshed].map((list) => list.find((found) => found.place === place)!.factor);
    return Math.abs(one! / other! - 1);
  };
  for (const place of ['edge', 'filler', 'arc-interface', 'base-interface']) {
    expect(off(free, place), place).toBeLessThan(0.002);
    expect(off(held, place), place).toBeGreaterThan(0.02);
  }
});
