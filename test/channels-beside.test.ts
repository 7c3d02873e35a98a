import { readBrief } from '@lumenfront/core';
import { beforeAll, describe, expect, it } from 'vitest';
import { hostOf, meshJoint, type ReducedModel, type TeeJoint } from '../packages/core/src/host/index.js';
import { sectionStiffness } from '../packages/core/src/material/index.js';
import { edgeCurve, edgeHoops, edgePeak } from '../packages/core/src/mesh/triangle/index.js';
import type { CurveNodes } from '../packages/core/src/outline/index.js';
import { createStrengthModel } from '../packages/core/src/strength/index.js';
import {
  createStressModel,
  meshedStress,
  type SolvedEdge,
  type StressModel,
} from '../packages/core/src/stress/index.js';
import { pocketInBend, slotInSkin } from './fixtures/pocket-tees.js';
import { reducedOnce } from './fixtures/reduced.js';
import { ellipseNodes } from './fixtures/tee-reference.js';

const loads = { pull: { force: 40 }, side: { force: 5 }, moment: { moment: 50 }, cure: { deltaT: -60 } };
const cases = Object.keys(loads).map((name) => ({ name, factors: { [name]: 1 } }));

/** With a known outline in the filler. */
const withFiller = (joint: TeeJoint, { x, y }: CurveNodes): TeeJoint => ({
  ...joint,
  fillerChannel: Array.from(x, (px, j) => [px, y[j]!] as const),
});

/** With a known outline in the pocket. */
const withPocket = (joint: TeeJoint, { x, y }: CurveNodes): TeeJoint => ({
  ...joint,
  pocket: { ...joint.pocket!, channel: Array.from(x, (px, j) => [px, y[j]!] as const) },
});

/** Looked for in a pocket, beside a known one in the filler: 0.2 mm off its border in one, of another form in the other. The other way round: beside one in a pocket, 0.1 mm off its border. */
const samples = [
  {
    title: 'a lens in the bend, a tilted ellipse in the filler',
    joint: withFiller(pocketInBend(1), ellipseNodes(0.55, 0.35, [0.25, 1.15], 0.35, 192)),
    nodes: () => ellipseNodes(0.35, 0.15, [0.05, 0.5], 0.05, 256),
    wall: 0.05,
    other: { zone: 'filler-channel', place: 'joint-channel' },
  },
  {
    title: 'a slot in the skin, a flat channel right above it',
    joint: withFiller(slotInSkin(1), ellipseNodes(1, 0.3, [0, 0.5], 0, 192)),
    nodes: () => ellipseNodes(0.4, 0.14, [0.2, 0.92], 0.03, 256),
    wall: 0.05,
    other: { zone: 'filler-channel', place: 'joint-channel' },
  },
  {
    title: 'the filler, beside a lens in the bend',
    joint: withPocket(pocketInBend(1), ellipseNodes(0.35, 0.15, [0.05, 0.5], 0.05, 192)),
    nodes: () => ellipseNodes(0.55, 0.35, [0.25, 1.15], 0.35, 256),
    wall: 0.15,
    other: { zone: 'pocket-channel', place: 'pocket-channel' },
  },
  {
    title: 'the filler, low over a slot in the skin',
    joint: withPocket(slotInSkin(1), ellipseNodes(0.4, 0.14, [0.2, 0.92], 0.03, 192)),
    nodes: () => ellipseNodes(1, 0.3, [0, 0.5], 0, 256),
    wall: 0.15,
    other: { zone: 'pocket-channel', place: 'pocket-channel' },
  },
] as const;

describe.each(samples)('$title', { tags: 'long' }, ({ joint, nodes, wall, other: { zone, place } }) => {
  const around = place === 'joint-channel' ? joint.filler : joint.pocket!.resin;
  let model: ReducedModel;
  let stress: StressModel;
  let edge: SolvedEdge;
  beforeAll(() => {
    model = reducedOnce(joint, { wall, edgeRadius: 0.1 });
    stress = createStressModel(model, loads, cases);
    edge = stress.evaluate(nodes(), false);
  });

  it('has the peaks of a mesh of both within 0.5 %', () => {
    const meshed = meshedStress(joint, loads, [], nodes(), { coarseness: 1.5 });
    edge.loads.forEach(({ peak, least }, l) => {
      const other = meshed.loads[stress.loads[l]!]!;
      const scale = Math.max(Math.abs(other.peak), Math.abs(other.least));
      expect(Math.abs(peak - other.peak) / scale, stress.loads[l]!).toBeLessThan(0.005);
      expect(Math.abs(least - other.least) / scale, stress.loads[l]!).toBeLessThan(0.005);
    });
  });

  it('has the largest tension at the other edge within 1 % of that mesh, and breaks there at its strength over it', () => {
    const strength = createStrengthModel(model, joint, loads, cases, { edge: 'peak' });
    const { mesh, solutions } = meshJoint(joint, loads, [edgeCurve(nodes())], 1.2);
    const own = { ...mesh, sides: new Map([['channel', mesh.sides.get(zone)!]]) };
    const survey = strength.survey(edge);
    cases.forEach(({ name }, c) => {
      const [hoop] = edgeHoops(own, sectionStiffness({ angle: 90, ply: around }), solutions.get(name)!);
      const { peak, at } = edgePeak(hoop!, hoop!.hoop);
      strength.evaluate(edge);
      const found = strength.tensionAlong(c, place)!;
      expect(Math.abs(found.stress / peak - 1), `${name}: ${found.stress} for ${peak}`).toBeLessThan(0.01);
      expect(Math.hypot(found.x - at[0], found.y - at[1])).toBeLessThan(0.15);
      const first = survey[c]!.places.find((one) => one.place === place)!;
      expect(first.factor * found.stress).toBeCloseTo(around.transverseTension!, 6);
    });
  });
});

describe('a brief of a channel of known outline in the pocket', () => {
  const brief = (channel: string, more = '') =>
    `host: { kind: tee, pocket: { made: drape, above: 2, height: 0.4, channel: ${channel} }${more} }\nloads: { pull: { force: 10 } }\nchannel: { wall: 0.1, edgeRadius: 0.1 }`;

  it('looks for the one in the filler', async () => {
    const { joint } = await readBrief(brief('{ at: [0, 0.5], width: 0.6, height: 0.3 }'));
    const { largestCircle, shape, summary } = hostOf(joint);
    expect(Object.fromEntries(summary)['channel in the pocket']).toMatch(
      /^of known outline, 0\.6 by 0\.3 mm, wall 0\./,
    );
    expect(largestCircle!.at).toEqual([0, (joint as TeeJoint).bendRadius / 4]);
    expect(shape!.openings).toHaveLength(1);
    expect(shape!.parts!.map(({ name }) => name)).toEqual(expect.arrayContaining(['pocket', 'channel in the pocket']));
  });

  it.each([
    ['{ at: [0, 0.5], width: 0.6 }', '', /host\.pocket\.channel: expected at, width and height of an ellipse/],
    [
      '{ at: [0, 0.4], width: 0.6, height: 0.3 }',
      '',
      /at least 0\.0\d* mm between the channel and the border of the pocket/,
    ],
    [
      '{ at: [0, 0.5], width: 0.6, height: 0.3 }',
      ', filler: { channel: { at: [0, 1.5], width: 1, height: 1 } }',
      /host\.pocket\.channel: expected one channel that is looked for/,
    ],
  ])('refuses %s in words', async (channel, more, words) => {
    await expect(readBrief(brief(channel, more))).rejects.toThrow(words);
  });
});

describe('a brief of a channel of known outline in the filler', () => {
  const brief = (channel: string, pocket = 'pocket: { made: drape, above: 2, height: 0.4 }') =>
    `host: { kind: tee, ${pocket}${pocket && ', '}filler: { channel: ${channel} } }\nloads: { pull: { force: 10 } }\nchannel: { wall: 0.05, edgeRadius: 0.06 }`;
  const textOf = (file: string) =>
    file === 'pick.json'
      ? '{"kind":"pick","design":{"family":"ellipse","parameters":{"y":1.5,"width":1,"height":0.8}}}'
      : '{"designs":[{"family":"ellipse","parameters":{"y":1.5,"width":1,"height":0.8}}]}';

  it('takes an ellipse, points, the result of a pick and a design of a front', async () => {
    const points = JSON.stringify(
      Array.from({ length: 40 }, (_, k) => [
        Math.cos(k * (Math.PI / 20)) / 2,
        1.5 + 0.4 * Math.sin(k * (Math.PI / 20)),
      ]),
    );
    const given = [
      '{ at: [0, 1.5], width: 1, height: 0.8 }',
      `{ points: ${points} }`,
      '{ file: pick.json }',
      '{ file: front.json, design: 1 }',
    ];
    for (const one of given) {
      const { joint } = await readBrief(brief(one), { textOf });
      const { summary } = hostOf(joint);
      expect(Object.fromEntries(summary)['channel in the filler'], one).toMatch(/^of known outline, 1 by 0\.8 mm/);
    }
  });

  it.each([
    [
      '{ at: [0, 1.5], width: 1 }',
      /host\.filler\.channel: expected at, width and height of an ellipse, or points, or file/,
    ],
    ['{ at: [0, 1.5], width: 1, height: 1, file: pick.json }', /keep one of them/],
    [
      '{ at: [0, 0.4], width: 1, height: 1 }',
      /at least 0\.12 mm between the channel and the border of the filler .*touches or crosses/,
    ],
    ['{ at: [0, 0.55], width: 1, height: 1 }', /received 0\.05 mm; move it, or make it smaller/],
    ['{ at: [0, 1.5], width: 1, height: -1 }', /host\.filler\.channel\.height/],
    ['{ file: front.json, design: 3 }', /a design of this front, design 1 to 1, received design 3/],
  ])('refuses %s in words', async (channel, words) => {
    await expect(readBrief(brief(channel), { textOf })).rejects.toThrow(words);
  });

  it('refuses one without a pocket: what is looked for lies in the filler then', async () => {
    await expect(readBrief(brief('{ at: [0, 1.5], width: 1, height: 0.8 }', ''))).rejects.toThrow(
      /host\.filler\.channel: expected a pocket as well/,
    );
  });
});
