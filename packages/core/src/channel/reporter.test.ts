import { describe, expect, it } from 'vitest';
import { reducedOnce } from '../../../../test/fixtures/reduced.js';
import { referenceJoint, referenceLoads } from '../../../../test/fixtures/tee-reference.js';
import type { ChannelWish } from '../brief/index.js';
import { InputError, UnmetError } from '../errors.js';
import { createConductance } from '../flow/index.js';
import { finerModel } from '../host/index.js';
import { createCurveNodes, outlineOf } from '../outline/index.js';
import { usualFatigueSlopes } from '../strength/index.js';
import { createStressModel } from '../stress/index.js';
import { createChannelReporter } from './reporter.js';
import { scoreAt, scoreSize } from './score.js';
import { createChannelScorer } from './scorer.js';
import { areaAgainstPeak, type ChannelTask, channelRoom } from './task.js';

const channel: ChannelWish = {
  families: ['ellipse', 'inset'],
  wall: 0.12,
  edgeRadius: 0.12,
  mirror: true,
  reference: { family: 'ellipse', at: [0, 1.25], width: 1, height: 1 },
};
const task: ChannelTask = {
  joint: referenceJoint,
  loads: referenceLoads,
  cases: [
    { name: 'pulled', factors: { pull: 1 } },
    { name: 'cured', factors: { cure: 1 } },
  ],
  channel,
  strength: { edge: 'peak', startsAwayFromEdge: false, fatigue: usualFatigueSlopes },
  objective: areaAgainstPeak,
  model: reducedOnce(referenceJoint, { wall: 0.12, edgeRadius: 0.12 }),
};
const { finer: _, ...withoutFiner } = task.model;
const room = channelRoom(task);
const report = createChannelReporter(task);
const ellipse = (y: number, width: number, height: number) =>
  outlineOf({ family: 'ellipse', parameters: { y, width, height } }, { ...room, edgeRadius: 0, yMin: 0 });
const inset = (sideWall: number, baseWall: number, sideRadius: number, topRadius: number) =>
  outlineOf({ family: 'inset', parameters: { sideWall, baseWall, sideRadius, topRadius } }, room);

describe('a channel evaluated for a report', () => {
  // With the 48 nodes that their curvature asks for, insets erred by 130 %: their curvature has narrow steps.
  it.each([
    [0.5, 0.4, 0.2, 0.3],
    [0.3, 0.6, 0.5, 0.6],
    [0.15, 0.15, 0.15, 0.15],
    [0.7, 1, 0.3, 0.2],
  ])('has nodes enough for the inset %s %s %s %s', (...parameters) => {
    const { design } = report(inset(...parameters));
    expect(Math.abs(design.change)).toBeLessThan(0.005);
  });

  it('tells an outline that is dragged as the whole evaluation does, whatever was before it', () => {
    const whole = createChannelReporter({ ...task, model: withoutFiner });
    // An inset follows ellipses that move: other nodes, and a start that tells nothing.
    for (const outline of [
      ellipse(1.25, 1, 1),
      ellipse(1.25, 1.02, 1),
      inset(0.5, 0.4, 0.2, 0.3),
      ellipse(1.3, 1, 1.02),
    ]) {
      const [one, draft] = [whole(outline), whole(outline, { draft: true })];
      expect(draft.design.change).toBeNaN();
      expect({ ...draft.design, change: 0, loads: {}, cases: {}, peak: 0 }).toEqual({
        ...{ ...one.design, change: 0, loads: {}, cases: {}, peak: 0 },
      });
      for (const name of ['pulled', 'cured']) {
        const near = (told: number, exact: number) => expect(Math.abs(told - exact)).toBeLessThanOrEqual(1e-5 * exact);
        near(draft.design.cases[name]!.peak, one.design.cases[name]!.peak);
        const [first, second] = [one.strength()!, draft.strengthStarts()!];
        near(second.retained, first.retained);
        expect(second.cases[name]!.place).toBe(first.cases[name]!.place);
        near(second.cases[name]!.loadFactor, first.cases[name]!.loadFactor);
      }
    }
  });

  it('names the worst case and gives hoop stress at the nodes', () => {
    const {
      design,
      edge: { nodes },
      caseHoop,
    } = report(ellipse(1.25, 1, 1));
    expect(design.worstCase).toBe('pulled');
    expect(design.peak).toBe(design.cases.pulled!.peak);
    expect(caseHoop.pulled).toHaveLength(nodes.count);
    expect(Math.max(...caseHoop.pulled!)).toBeLessThanOrEqual(design.peak * (1 + 1e-9));
    expect(design.area).toBeCloseTo(Math.PI / 4, 9);
  });

  it('says what it carries: Hagen and Poiseuille for a circle, and of every family what many nodes say', () => {
    expect(report(ellipse(1.25, 1, 1)).design.conductance / ((Math.PI * 0.5 ** 4) / 8)).toBeCloseTo(1, 10);
    const solve = createConductance(1024);
    const nodes = createCurveNodes(1024);
    for (const outline of [inset(0.5, 0.4, 0.2, 0.3), inset(0.15, 0.15, 0.15, 0.15), ellipse(1.25, 2, 0.6)]) {
      outline.place(nodes);
      expect(Math.abs(report(outline).design.conductance / solve(nodes).conductance - 1)).toBeLessThan(1e-4);
    }
  });

  it('tells what the finer fields of its model give, and by the difference what is left', () => {
    const { design, edge } = report(inset(0.15, 0.15, 0.15, 0.15));
    const [coarse, finer] = [task.model, finerModel(task.model)!].map(
      (model) => createStressModel(model, task.loads, task.cases).evaluate(edge.nodes, true).worst,
    );
    expect(design.peak / finer!).toBeCloseTo(1, 6);
    expect(design.accuracy).toBeGreaterThan(0.1 * Math.abs(coarse! / finer! - 1));
    expect(design.accuracy).toBeLessThan(0.01);
    // Of the degree that stresses elsewhere are told with.
    expect(edge.moments[0]).toHaveLength(2 * task.model.basis.degree);
  });

  it('keeps its solution when others of as many nodes are evaluated', () => {
    const channel = report(ellipse(1.25, 1, 1));
    const before = structuredClone(channel.edge);
    report(ellipse(1.5, 1.2, 1.2));
    expect(channel.edge).toEqual(before);
    expect(channel.edge.worst).toBe(channel.design.peak);
  });

  it('refuses an outline outside the filler, and one where the model does not hold', () => {
    expect(() => report(ellipse(0.2, 1, 1))).toThrow(InputError);
    expect(() => report(ellipse(1, 1, 1.98))).toThrow(UnmetError);
  });
});

describe('the score of a search', () => {
  const scorer = createChannelScorer(task);
  const out = new Float64Array(scoreSize);

  it('agrees with the report', () => {
    scorer.score(0, [1.25, 1, 1], out);
    const { design } = report(ellipse(1.25, 1, 1));
    expect(out[scoreAt.area]).toBeCloseTo(design.area, 9);
    expect(Math.abs(out[scoreAt.peak]! / design.peak - 1)).toBeLessThan(1e-4);
  });

  it('does not solve what breaks a limit, and says by how much', () => {
    scorer.score(0, [0.6, 1, 1], out);
    expect(out[scoreAt.peak]).toBe(0);
    // The wall is 0.1 mm of 0.12, on the scale of a quarter of the bend radius.
    expect(out[scoreAt.room]).toBeCloseTo(0.02 / 1.25, 9);
    scorer.score(0, [1.25, 2, 0.24], out);
    expect(out[scoreAt.edgeRadius]).toBeCloseTo(1 - 0.12 ** 2 / 0.12, 6);
  });

  it('gives in its profile the smooth functions behind it', () => {
    const count = 96;
    const profile = scorer.createProfile(0, count);
    expect(scorer.profile([1.25, 1, 1], profile)).toBe(true);
    scorer.score(0, [1.25, 1, 1], out);
    expect(Math.max(...profile.functions) / out[scoreAt.peak]!).toBeCloseTo(1, 4);
    expect(profile.edgeRadius).toHaveLength(2 * count);
    for (const value of profile.edgeRadius) expect(value).toBeCloseTo(0.12 / 0.5 - 1, 9);
  });
});
