import { beforeAll, describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { type ChannelObjective, readBrief, type StrengthWish } from '../brief/index.js';
import { hostOf } from '../host/index.js';
import { createCurveNodes, type OutlineFamily } from '../outline/index.js';
import { createStrengthModel } from '../strength/index.js';
import { createStressModel } from '../stress/index.js';
import {
  type ChannelProfile,
  type ChannelScorer,
  type ChannelTask,
  createChannelScorer,
  createTask,
  reduceJoint,
  scoreAt,
  scoreSize,
} from './index.js';

const briefOf = (mirror: boolean) => `host: { kind: tee, bendRadius: 5 }
loads: { pull: { force: 100 }, ${mirror ? '' : 'side: { force: 5 }, '}cure: { deltaT: -60 } }
cases: { cured: { cure: 1 }, pulled: { pull: 0.2, cure: 1 }, ${mirror ? 'cold: { pull: 0.3 }' : 'leant: { side: 1, pull: 0.1, cure: 1 }'} }
channel: { families: [ellipse, spline], wall: 0.15, edgeRadius: 0.15, mirror: ${mirror} }
`;

const tasks = new Map<boolean, ChannelTask>();
beforeAll(async () => {
  for (const mirror of [true, false]) {
    const brief = await readBrief(briefOf(mirror));
    tasks.set(mirror, preparedTask(brief));
  }
});

const edges: readonly StrengthWish['edge'][] = [
  'peak',
  { distance: 0.1, average: false },
  { distance: 0.2, average: true },
];
const strengthCosts = ['loadFactor', 'strengthRetained'] as const;

/** The task with an objective, and its edge judged in some way. */
function taskOf(
  objective: ChannelObjective | undefined,
  { mirror = true, edge = 'peak' as StrengthWish['edge'], asked = {} as Partial<ChannelTask> } = {},
): ChannelTask {
  const task = tasks.get(mirror)!;
  return { ...task, ...asked, strength: { ...task.strength, edge }, ...(objective && { objective }) };
}

function scoreOf(scorer: ChannelScorer, family: number, values: ArrayLike<number>): Float64Array {
  const out = new Float64Array(scoreSize);
  scorer.score(family, values, out);
  return out;
}

/** Of an outline of the first family. */
function profileOf(scorer: ChannelScorer, values: ArrayLike<number>, count: number): ChannelProfile {
  const out = scorer.createProfile(0, count);
  scorer.profile(values, out);
  return out;
}

/** Parameter vectors near a modest outline in the middle of the filler, of a plain generator: the same every time. */
function outlinesOf(scorer: ChannelScorer, family: number, count: number): Float64Array[] {
  let state = 7;
  const random = () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
  const { parameters } = scorer.families[family]!;
  const found: Float64Array[] = [];
  for (let tries = 0; found.length < count && tries < 4000; tries++) {
    const values = Float64Array.from(parameters, ({ lower, upper }) => lower + random() * (upper - lower));
    const score = scoreOf(scorer, family, values);
    if (score[scoreAt.peak]! > 0 && score[scoreAt.strength]! <= 0) found.push(values);
  }
  expect(found).toHaveLength(count);
  return found;
}

/** Load factor and strength retained of outlines of the first family by the strength model alone, with many nodes. */
function strengthOf(task: ChannelTask, outline: OutlineFamily, count: number) {
  const nodes = createCurveNodes(count);
  const model = createStressModel(task.model, task.loads, task.cases);
  const mirror = outline.mirror && model.symmetric;
  const strength = createStrengthModel(task.model, task.joint, task.loads, task.cases, task.strength);
  return (values: ArrayLike<number>) => {
    outline.place(values, nodes);
    const { loadFactor, retained } = strength.evaluate(model.evaluate(nodes, mirror));
    return { loadFactor, strengthRetained: retained };
  };
}

describe.each([true, false])('a cost of strength, mirror-symmetric: %s', (mirror) => {
  for (const cost of strengthCosts)
    for (const edge of edges)
      it(`is one over ${cost}, the edge by ${JSON.stringify(edge)}, and the largest function of a profile`, () => {
        const task = taskOf({ size: 'area', cost }, { mirror, edge });
        const scorer = createChannelScorer(task);
        const strengthWith = strengthOf(task, scorer.families[0]!, 192);
        for (const values of outlinesOf(scorer, 0, 3)) {
          const score = scoreOf(scorer, 0, values);
          const { [cost]: expected } = strengthWith(values);
          expect(score[scoreAt.cost]! * expected).toBeGreaterThan(0.99);
          expect(score[scoreAt.cost]! * expected).toBeLessThan(1.01);
          expect(score[scoreAt.size]).toBe(score[scoreAt.area]);

          const profile = profileOf(scorer, values, 128);
          const { functions, strength } = profile;
          // These outlines bear the cure.
          expect(strength.length).toBeGreaterThan(mirror ? 64 : 128);
          expect(Math.max(...strength)).toBeLessThan(0.004);
          // By the edge's own climb the cost is among them; nodes by themselves come near it where the edge fails first.
          expect(Math.abs(Math.max(...functions) / profile.score[scoreAt.cost]! - 1)).toBeLessThan(1e-6);
          expect(Math.abs(profile.score[scoreAt.cost]! / score[scoreAt.cost]! - 1)).toBeLessThan(0.02);
        }
      });
});

describe('functions of a cost of strength', () => {
  it.each(edges)('are smooth in the outline, place by place; the edge by %o', (edge) => {
    const task = taskOf({ size: 'area', cost: 'loadFactor' }, { edge });
    const scorer = createChannelScorer(task);
    const at = (width: number) => {
      const { functions, strength } = profileOf(scorer, [1.2, width, 0.8], 96);
      return [...functions, ...strength];
    };
    const [before, here, after] = [0.999, 1, 1.001].map(at) as [number[], number[], number[]];
    here.forEach((value, i) => {
      const middle = (before[i]! + after[i]!) / 2;
      expect(Math.abs(value - middle)).toBeLessThan(2e-4 * Math.max(1, Math.abs(value)));
    });
  });

  it('are negative at nodes that never fail', () => {
    const scorer = createChannelScorer(taskOf({ size: 'area', cost: 'loadFactor' }));
    expect(Math.min(...profileOf(scorer, [1.2, 1.4, 0.5], 96).functions)).toBeLessThan(0);
  });
});

describe('limits on strength in a profile', () => {
  const wishes: Partial<StrengthWish>[] = [
    { leastRetained: 0.75 },
    { leastRetained: 0.95 },
    { startsAwayFromEdge: true },
  ];
  for (const wish of wishes)
    for (const edge of edges)
      it(`say by their largest what the score says of ${JSON.stringify(wish)}, the edge by ${JSON.stringify(edge)}`, () => {
        const plain = taskOf(undefined, { edge });
        const task = { ...plain, strength: { ...plain.strength!, ...wish } };
        const scorer = createChannelScorer(task);
        for (const values of [
          [1.2, 0.5, 0.5],
          [0.9, 1.4, 1],
          [1, 2, 0.8],
        ]) {
          const { score, strength } = profileOf(scorer, values, 128);
          const largest = Math.max(...strength);
          const lack = score[scoreAt.strength]!;
          if (Math.abs(lack) > 0.01) expect(largest > 0, `${values}: ${largest}, ${lack}`).toBe(lack > 0);
        }
      });

  it('are none where the task limits nothing', () => {
    expect(createChannelScorer(taskOf(undefined)).createProfile(0, 128).strength).toHaveLength(0);
  });
});

describe('what channels are made large in', () => {
  it('is the flow of a circle by Hagen and Poiseuille, pi r^4 / 8', () => {
    const scorer = createChannelScorer(taskOf({ size: 'conductance', cost: 'peak' }));
    for (const diameter of [0.5, 0.9]) {
      const score = scoreOf(scorer, 0, [1.2, diameter, diameter]);
      expect(score[scoreAt.size]! / ((Math.PI * (diameter / 2) ** 4) / 8)).toBeCloseTo(1, 9);
      expect(score[scoreAt.cost]).toBe(score[scoreAt.peak]);
      const profile = profileOf(scorer, [1.2, diameter, diameter], 96);
      expect(profile.score[scoreAt.size]! / score[scoreAt.size]!).toBeCloseTo(1, 9);
    }
  });

  it('is no more than that of a circle of its area, however wild an outline is', () => {
    const scorer = createChannelScorer(taskOf({ size: 'conductance', cost: 'peak' }));
    const { parameters } = scorer.families[1]!;
    for (let k = 0; k < 200; k++) {
      const values = parameters.map(({ lower, upper }, i) => (Math.sin(k * (i + 2) * 12.9898) > 0 ? upper : lower));
      const score = scoreOf(scorer, 1, values);
      // Saint-Venant's inequality: of all sections of an area the circle is the stiffest in torsion, which obeys the same equation.
      expect(score[scoreAt.size]!).toBeLessThanOrEqual(score[scoreAt.area]! ** 2 / (8 * Math.PI));
      expect(score[scoreAt.size]!).toBeGreaterThanOrEqual(0);
    }
  });
});

describe('area against the peak', () => {
  it('is what a task without objective trades, to the last bit', () => {
    const plain = createChannelScorer(taskOf(undefined));
    const given = createChannelScorer(taskOf({ size: 'area', cost: 'peak' }));
    for (const values of outlinesOf(plain, 0, 5)) {
      const score = scoreOf(plain, 0, values);
      expect(scoreOf(given, 0, values)).toEqual(score);
      expect([score[scoreAt.size], score[scoreAt.cost]]).toEqual([score[scoreAt.area], score[scoreAt.peak]]);
      const profiles = [plain, given].map((scorer) => profileOf(scorer, values, 96));
      expect(profiles[1]).toEqual(profiles[0]);
    }
  });

  it('is not changed by another cost but in the cost', () => {
    const plain = createChannelScorer(taskOf(undefined));
    const other = createChannelScorer(taskOf({ size: 'area', cost: 'strengthRetained' }));
    for (const values of outlinesOf(plain, 0, 5)) {
      const kept = [scoreAt.area, scoreAt.peak, scoreAt.room, scoreAt.edgeRadius, scoreAt.crossing, scoreAt.size];
      const [a, b] = [plain, other].map((scorer) => scoreOf(scorer, 0, values));
      expect(kept.map((at) => b![at])).toEqual(kept.map((at) => a![at]));
    }
  });
});

describe('a joint that fails in the cure', () => {
  const cured = (deltaT: number, cases = tasks.get(true)!.cases) => {
    const task = taskOf(
      { size: 'area', cost: 'strengthRetained' },
      { asked: { loads: { ...tasks.get(true)!.loads, cure: { deltaT } }, cases } },
    );
    return scoreOf(createChannelScorer(task), 0, [1.2, 1, 0.8]);
  };

  it('violates the constraint on strength, the more the earlier, at a cost that is finite', () => {
    expect(cured(-100)[scoreAt.strength]!).toBeLessThan(0);
    const [some, more] = [cured(-400), cured(-800)];
    expect(some[scoreAt.strength]!).toBeGreaterThan(0);
    expect(more[scoreAt.strength]!).toBeGreaterThan(some[scoreAt.strength]!);
    expect(more[scoreAt.strength]!).toBeLessThanOrEqual(2);
    for (const score of [some, more]) expect(score[scoreAt.cost]).toBe(1000);
  });

  it('does so where no case tells the cured state by itself', () => {
    const only = [{ name: 'pulled', factors: { pull: 0.2, cure: 1 } }];
    expect(cured(-100, only)[scoreAt.strength]!).toBeLessThan(0);
    const score = cured(-400, only);
    expect(score[scoreAt.strength]).toBe(1);
    expect(score[scoreAt.cost]).toBe(1000);
  });
});

describe('a task that trades strength', () => {
  it('can be of a plate, where a circle under equal tension all around keeps half of it', async () => {
    const brief = await readBrief(`host: { kind: plate }
loads: { farField: { sx: 10, sy: 10, txy: 0 } }
channel: { families: [ellipse], edgeRadius: 0.1, largest: { width: 4, height: 4 }, reference: { at: [0, 0], width: 1, height: 1 } }
`);
    const { joint } = brief;
    const task = createTask(brief, reduceJoint(joint, brief.channel));
    const costOf = (cost: ChannelObjective['cost'], asked: Partial<ChannelTask> = {}) =>
      scoreOf(createChannelScorer({ ...task, ...asked, objective: { size: 'area', cost } }), 0, [0, 1, 1])[
        scoreAt.cost
      ]!;
    // Kirsch (1898): twice the stress all around the circle.
    expect(costOf('loadFactor')).toBeCloseTo(20 / hostOf(joint).material.transverseTension, 6);
    expect(costOf('strengthRetained')).toBeCloseTo(2, 6);
    // A pressure needs a channel: nothing is there to be retained.
    const pressed = { loads: { pressure: { pressure: 1 } }, cases: [{ name: 'primed', factors: { pressure: 1 } }] };
    expect(costOf('loadFactor', pressed)).toBeGreaterThan(0);
    expect(() => costOf('strengthRetained', pressed)).toThrow(/search.against/);
  });
});
