import { beforeAll, describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { type ResolvedBrief, readBrief, resolveBrief, starterBrief } from '../brief/index.js';
import { edgePart, encodeModel, modelBorder, type ReducedModel, type TeeJoint } from '../host/index.js';
import { type OutlineFamily, type OutlineRoom, outlineOf } from '../outline/index.js';
import { createChannelReporter } from './reporter.js';
import { scoreAt, scoreSize } from './score.js';
import { createChannelScorer } from './scorer.js';
import { channelRoom, createTask, hasSlopes, reduceJoint, reduceTeeJoint, taskFamilies, wholeRoom } from './task.js';

let brief: ResolvedBrief;
let model: ReducedModel;
beforeAll(async () => {
  brief = await readBrief(starterBrief);
  model = preparedTask(brief).model;
});

describe('reduceTeeJoint', () => {
  it('gives the model of reduceJoint, to the bit', { tags: 'long' }, () => {
    const alone = reduceTeeJoint(brief.joint as TeeJoint, brief.channel);
    expect(Buffer.compare(encodeModel('', alone), encodeModel('', model))).toBe(0);
  });

  it('refuses a pocket', () => {
    const joint = { ...brief.joint, pocket: {} } as TeeJoint;
    expect(() => reduceTeeJoint(joint, brief.channel)).toThrow('reduce it by reduceJoint');
  });
});

describe('a task', () => {
  it('keeps what the brief trades', () => {
    const objective = { size: 'conductance', cost: 'strengthRetained' } as const;
    expect(createTask({ ...brief, search: { objective } }, model).objective).toEqual(objective);
  });

  it('has exact slopes but of conductance, of a cost of its own, and of strength whose edge is judged at a distance', () => {
    const task = createTask(brief, model);
    const distant = { ...task.strength, edge: { distance: 0.1, average: true } } as const;
    expect(hasSlopes(task)).toBe(true);
    expect(hasSlopes({ ...task, objective: { size: 'conductance', cost: 'peak' } })).toBe(false);
    expect(hasSlopes({ ...task, objective: { size: 'area', cost: { name: 'own', unit: '1', of: () => 1 } } })).toBe(
      false,
    );
    expect(hasSlopes({ ...task, strength: distant })).toBe(true);
    expect(hasSlopes({ ...task, strength: { ...distant, leastRetained: 0.5 } })).toBe(false);
    expect(hasSlopes({ ...task, strength: distant, objective: { size: 'area', cost: 'loadFactor' } })).toBe(false);
    expect(hasSlopes({ ...task, objective: { size: 'area', cost: 'loadFactor' } })).toBe(true);
  });

  it('takes a model of its joint only, for its wall or less', () => {
    const other = { ...brief, joint: { ...brief.joint, bendRadius: 6 } };
    expect(() => createTask(other, model)).toThrow('the model of this joint, received that of another');
    const channel = (change: object) => ({ ...brief, channel: { ...brief.channel, ...change } });
    expect(() => createTask(channel({ wall: 0.5 * brief.channel.wall }), model)).toThrow('or less, received one for');
    expect(createTask(channel({ wall: 1.2 * brief.channel.wall }), model).model).toBe(model);
    const { madeFor: _, ...unnamed } = model;
    expect(() => createTask(brief, unnamed)).toThrow('make it by reduceJoint');
  });

  it('refuses a model that lost its numbers on a way through JSON, or holds NaN', () => {
    const posted = JSON.parse(JSON.stringify(edgePart(model))) as ReducedModel;
    expect(() => createTask(brief, posted)).toThrow('keep models by encodeModel and decodeModel');
    const [first, ...others] = model.loads;
    const broken = { ...first!, undisturbed: first!.undisturbed.map((value, i) => (i === 3 ? Number.NaN : value)) };
    expect(() => createTask(brief, { ...model, loads: [broken, ...others] })).toThrow('finite numbers');
  });
});

/** Circles on the mirror line. */
const circles = (room: OutlineRoom, name = 'circle'): OutlineFamily => ({
  name,
  mirror: true,
  parameters: [
    { name: 'y', unit: 'mm', lower: room.yMin, upper: room.yMax, meaning: 'Height of the centre.' },
    { name: 'diameter', unit: 'mm', lower: 0.1, upper: 2, meaning: 'Diameter.' },
  ],
  place(values, nodes) {
    const y = values[0]!;
    const r = values[1]! / 2;
    for (let j = 0; j < nodes.count; j++) {
      const s = (2 * Math.PI * (j + 0.5)) / nodes.count + Math.PI / 2;
      nodes.x[j] = r * Math.cos(s);
      nodes.y[j] = y + r * Math.sin(s);
      nodes.dx[j] = -r * Math.sin(s);
      nodes.dy[j] = r * Math.cos(s);
      nodes.ddx[j] = -r * Math.cos(s);
      nodes.ddy[j] = -r * Math.sin(s);
    }
  },
});

describe('a family of one’s own', () => {
  it('scores as the built-in one that holds the same outline, and its outlines are found by name', () => {
    const families = [circles, 'ellipse'] as const;
    const task = createTask({ ...brief, channel: { ...brief.channel, families } }, model);
    expect(taskFamilies(task).map(({ name }) => name)).toEqual(['circle', 'ellipse']);
    const scorer = createChannelScorer(task);
    const [own, known] = [new Float64Array(scoreSize), new Float64Array(scoreSize)];
    scorer.score(0, [2, 1], own);
    scorer.score(1, [2, 1, 1], known);
    for (const at of [scoreAt.area, scoreAt.peak]) expect(own[at]! / known[at]!).toBeCloseTo(1, 6);
    const data = { family: 'circle', parameters: { y: 2, diameter: 1 } };
    expect(outlineOf(data, channelRoom(task)).mirror).toBe(true);
  });

  it('must not take the name of another', () => {
    const families = [(room: OutlineRoom) => circles(room, 'ellipse')];
    const task = createTask({ ...brief, channel: { ...brief.channel, families } }, model);
    expect(() => taskFamilies(task)).toThrow('under another name');
  });
});

describe('a cost of one’s own', () => {
  it('is what a score says, and a single function of a profile', () => {
    const of = ({ worst }: { readonly worst: number }) => worst ** 2;
    const cost = { name: 'peak squared', unit: 'MPa2', of };
    const task = createTask({ ...brief, search: { objective: { size: 'area', cost } } }, model);
    const scorer = createChannelScorer(task);
    const score = new Float64Array(scoreSize);
    const x = taskFamilies(task)[0]!.parameters.map(({ lower, upper }) => (2 * lower + upper) / 3);
    scorer.score(0, x, score);
    expect(score[scoreAt.cost]).toBe(score[scoreAt.peak]! ** 2);
    const profile = scorer.createProfile(0, 64);
    expect(scorer.profile(x, profile)).toBe(true);
    expect(profile.functions).toEqual(Float64Array.of(profile.score[scoreAt.cost]!));
  });
});

describe('the task of two channels', () => {
  const slot = async (channels: object) =>
    await resolveBrief({
      host: { kind: 'laminate', width: 12, layup: [90, 0, 0, 90], pocket: { made: 'cut', plies: [2, 3], width: 4 } },
      loads: { cure: { deltaT: -50 }, shear: { force: 5 } },
      cases: { sheared: { cure: 1, shear: 1 } },
      channel: { families: ['ellipse'], wall: 0.06, edgeRadius: 0.08 },
      channels: { number: 2, ...channels },
    });
  let pair: ResolvedBrief;
  let inSlot: ReducedModel;
  beforeAll(async () => {
    pair = await slot({});
    inSlot = reduceJoint(pair.joint, pair.channel);
  });
  const ellipse = (x: number, width: number) => [x, 0.5, width, 0.24, 0];
  const scoreOf = (of: ResolvedBrief, values: number[]) => {
    const score = new Float64Array(scoreSize);
    createChannelScorer(createTask(of, inSlot)).score(0, values, score);
    return score;
  };

  it('has room on the right, half a wall from the axis', () => {
    const { mirror, xMin, xMax, families } = channelRoom(pair);
    expect({ mirror, xMin, families }).toEqual({ mirror: false, xMin: 0.03, families: undefined });
    expect(xMax).toBeGreaterThan(1);
    expect(wholeRoom(pair).xMin).toBe(0);
  });

  it('keeps the wall between them, and counts the area of both', () => {
    const apart = scoreOf(pair, ellipse(0.2, 0.3));
    // 0.1 mm between them.
    expect(apart[scoreAt.room]).toBeLessThanOrEqual(0);
    expect(apart[scoreAt.area]).toBeCloseTo((2 * Math.PI * 0.3 * 0.24) / 4, 6);
    expect(apart[scoreAt.size]).toBe(apart[scoreAt.area]);
    const near = scoreOf(pair, ellipse(0.17, 0.3));
    // 0.04 mm: 0.02 mm lack, over half the height of the slot.
    expect(near[scoreAt.room]).toBeCloseTo(0.02 / 0.25, 4);
  });

  it('stays within the contour that the joint was solved for, though the slot goes on', () => {
    const contour = modelBorder(inSlot);
    let { xMax } = channelRoom(pair);
    while (contour.distance(xMax, 0.5) > 0) xMax += 0.001;
    expect(xMax).toBeLessThan(2);
    const inside = scoreOf(pair, ellipse(xMax - 0.2, 0.3));
    expect(inside[scoreAt.room]).toBeLessThanOrEqual(0);
    const beyond = scoreOf(pair, ellipse(xMax - 0.1, 0.3));
    expect(beyond[scoreAt.room]).toBeGreaterThan(0);
  });

  it('keeps a pitch within 1 %', async () => {
    const spaced = await slot({ pitch: 0.8 });
    const [x] = taskFamilies(createTask(spaced, inSlot))[0]!.parameters;
    expect([x!.lower, x!.upper].map((value) => value.toFixed(3))).toEqual(['0.396', '0.404']);
    expect(scoreOf(spaced, ellipse(0.4039, 0.3))[scoreAt.room]).toBeLessThanOrEqual(0);
    expect(scoreOf(spaced, ellipse(0.41, 0.3))[scoreAt.room]).toBeCloseTo((0.82 - 0.808) / 0.25, 6);
  });

  it('of three keeps the wall to neighbours and of the outer ones, and reports what they are together', async () => {
    const three = await slot({ number: 3, pitch: 0.6 });
    const parameters = (width: number) => ({ y: 0.5, width, height: 0.24 });
    const model = reduceJoint(three.joint, three.channel);
    const score = new Float64Array(scoreSize);
    createChannelScorer(createTask(three, model)).score(0, Object.values(parameters(0.56)), score);
    // 0.04 mm between neighbours: 0.02 mm lack, over half the height of the slot.
    expect(score[scoreAt.room]).toBeCloseTo(0.02 / 0.25, 4);
    const report = createChannelReporter(createTask(three, model));
    const { design, edge } = report(outlineOf({ family: 'ellipse', parameters: parameters(0.3) }, wholeRoom(three)));
    expect(design.group).toMatchObject({ number: 3, pitch: 0.6 });
    expect(design.group!.between).toBeCloseTo(0.3, 6);
    expect(design.area).toBeCloseTo((3 * Math.PI * 0.3 * 0.24) / 4, 9);
    expect(edge.each.map(({ bothSides }) => bothSides)).toEqual([false, true]);
    const turned = outlineOf({ family: 'ellipse', parameters: { x: 0, ...parameters(0.3), turn: 5 } }, wholeRoom(pair));
    expect(() => report(turned)).toThrow(/of an odd number of channels the middle one, mirror-symmetric/);
  });

  it('reports pitch, material between them and sums; refuses an outline that reaches over', () => {
    const report = createChannelReporter(createTask(pair, inSlot));
    const outline = (x: number) =>
      outlineOf({ family: 'ellipse', parameters: { x, y: 0.5, width: 0.3, height: 0.24, turn: 0 } }, wholeRoom(pair));
    const { design } = report(outline(0.3));
    expect(design.pair!.pitch).toBeCloseTo(0.6, 9);
    expect(design.pair!.between).toBeCloseTo(0.3, 6);
    expect(design.area).toBeCloseTo((2 * Math.PI * 0.3 * 0.24) / 4, 9);
    expect(design.width).toBeCloseTo(0.3, 6);
    expect(() => report(outline(0.1))).toThrow(/of an even number of channels the one right of x = 0/);
  });

  it('profiles the edges of both where loads are not symmetric', () => {
    const task = createTask(pair, inSlot);
    const scorer = createChannelScorer(task);
    const profile = scorer.createProfile(0, 64);
    expect(scorer.profile(ellipse(0.3, 0.3), profile)).toBe(true);
    // Hoop stress at and half way between the nodes of both, then the peak.
    expect(profile.functions).toHaveLength(2 * 128 + 1);
    const largest = profile.functions.reduce((a, b) => Math.max(a, b));
    expect(largest / profile.score[scoreAt.peak]!).toBeCloseTo(1, 6);
  });
});
