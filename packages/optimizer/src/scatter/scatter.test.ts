import {
  type ChannelTask,
  type Curve,
  createCurveNodes,
  createOutlineMeasure,
  createStrengthModel,
  createStressModel,
  measureOutline,
  nodeParameter,
  type Ply,
  readBrief,
  type ScatterWish,
  type TeeJoint,
} from '@lumenfront/core';
import { beforeAll, describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { randomFrom } from '../random.js';
import { deviate, studyScatter, withRoomForScatter } from './index.js';
import { createMadeChannels } from './made-channels.js';
import { createMadeStrength } from './made-strength.js';
import { drawDeviations } from './scatter.js';

/** An ellipse with half axes in mm about (0, y), turned by `turn` degrees. */
function ellipse(a: number, b: number, y: number, turn = 0): Curve {
  const c = Math.cos((turn * Math.PI) / 180);
  const s = Math.sin((turn * Math.PI) / 180);
  return {
    mirror: turn === 0,
    place(nodes) {
      for (let j = 0; j < nodes.count; j++) {
        const at = nodeParameter(j, nodes.count);
        const [u, v] = [Math.cos(at), Math.sin(at)];
        nodes.x[j] = c * a * u - s * b * v;
        nodes.y[j] = y + s * a * u + c * b * v;
        nodes.dx[j] = -c * a * v - s * b * u;
        nodes.dy[j] = -s * a * v + c * b * u;
        nodes.ddx[j] = -c * a * u + s * b * v;
        nodes.ddy[j] = -s * a * u - c * b * v;
      }
    },
  };
}

async function taskOf(text: string): Promise<ChannelTask> {
  const brief = await readBrief(text);
  return preparedTask(brief);
}

const plate = `host: { kind: plate }
loads: { farField: { sx: 10 } }
`;
const still: ScatterWish = {
  distribution: 'normal',
  samples: 30,
  outline: 0,
  position: 0,
  turn: 0,
  strength: 0,
  cure: 0,
  quantile: 0.95,
};
const noWaves = [0, 0, 0, 0, 0, 0];

describe('a deviating outline', () => {
  const measured = (curve: Curve) => {
    const measure = createOutlineMeasure();
    const nodes = createCurveNodes(256);
    curve.place(nodes);
    measureOutline(nodes, { distance: () => Number.POSITIVE_INFINITY }, measure);
    return measure;
  };

  it('is a larger circle where only its size deviates, and stays one where it moves and turns', () => {
    const circle = deviate(ellipse(1, 1, 2), { size: 0.1, waves: noWaves, x: 0.3, y: -0.2, turn: 33 });
    const { area, centroidX, centroidY, edgeRadius } = measured(circle);
    expect(area).toBeCloseTo(Math.PI * 1.21, 4);
    expect(edgeRadius).toBeCloseTo(1.1, 3);
    expect(centroidX).toBeCloseTo(0.3, 5);
    expect(centroidY).toBeCloseTo(1.8, 5);
  });

  it('turns counter-clockwise', () => {
    const { width, height } = measured(deviate(ellipse(2, 1, 0), { size: 0, waves: noWaves, x: 0, y: 0, turn: 90 }));
    expect(width).toBeCloseTo(2, 4);
    expect(height).toBeCloseTo(4, 4);
  });

  it('is the circle of radius R + size + waves, exactly, where the drawn one is a circle', () => {
    const nodes = createCurveNodes(96);
    deviate(ellipse(2, 2, 0), { size: 0.1, waves: [0.05, 0, 0, 0.03, 0.02, 0.04], x: 0, y: 0, turn: 0 }).place(nodes);
    for (let j = 0; j < nodes.count; j++) {
      const along = nodeParameter(j, nodes.count) + Math.PI / 2;
      const [two, three, four] = [2 * along, 3 * along, 4 * along];
      const radius =
        2.1 + 0.05 * Math.cos(two) + 0.03 * Math.sin(three) + 0.02 * Math.cos(four) + 0.04 * Math.sin(four);
      const slope = -0.1 * Math.sin(two) + 0.09 * Math.cos(three) - 0.08 * Math.sin(four) + 0.16 * Math.cos(four);
      const bend = -0.2 * Math.cos(two) - 0.27 * Math.sin(three) - 0.32 * Math.cos(four) - 0.64 * Math.sin(four);
      const [c, d] = [Math.cos(along - Math.PI / 2), Math.sin(along - Math.PI / 2)];
      // About the edge's centroid, which turning by nothing leaves.
      expect(nodes.x[j]).toBeCloseTo(radius * c, 12);
      expect(nodes.y[j]).toBeCloseTo(radius * d, 12);
      expect(nodes.dx[j]).toBeCloseTo(slope * c - radius * d, 12);
      expect(nodes.dy[j]).toBeCloseTo(slope * d + radius * c, 12);
      expect(nodes.ddx[j]).toBeCloseTo((bend - radius) * c - 2 * slope * d, 12);
      expect(nodes.ddy[j]).toBeCloseTo((bend - radius) * d + 2 * slope * c, 12);
    }
  });

  it('is the same curve at whatever number of nodes, with derivatives that belong to it', () => {
    const made = deviate(ellipse(2, 1, 0.3), { size: 0.02, waves: [0.03, 0, 0.02, 0, 0, 0.01], x: 0.1, y: 0, turn: 5 });
    const coarse = createCurveNodes(64);
    const fine = createCurveNodes(64 * 9);
    made.place(coarse);
    made.place(fine);
    const h = (2 * Math.PI) / fine.count;
    for (let j = 0; j < 64; j++) {
      const at = 9 * j + 4;
      for (const key of ['x', 'y', 'dx', 'dy'] as const) expect(coarse[key][j]).toBeCloseTo(fine[key][at]!, 5);
      for (const key of ['ddx', 'ddy'] as const) expect(coarse[key][j]).toBeCloseTo(fine[key][at]!, 3);
      for (const [value, slope] of [
        ['x', 'dx'],
        ['y', 'dy'],
        ['dx', 'ddx'],
        ['dy', 'ddy'],
      ] as const) {
        const [before, after] = [fine[value][(at + fine.count - 1) % fine.count]!, fine[value][(at + 1) % fine.count]!];
        expect((after - before) / (2 * h)).toBeCloseTo(fine[slope][at]!, 2);
      }
    }
  });

  it('keeps its area to first order under waves', () => {
    const change = (amplitude: number) =>
      measured(deviate(ellipse(1, 1, 0), { size: 0, waves: [amplitude, 0, 0, amplitude, 0, 0], x: 0, y: 0, turn: 0 }))
        .area / Math.PI;
    expect(Math.abs(change(0.01) - 1)).toBeLessThan(2e-4);
  });
});

describe('scatter of a design in a plate', () => {
  let task: ChannelTask;
  beforeAll(async () => {
    task = await taskOf(plate);
  });
  const study = (scatter: Partial<ScatterWish>, seed = 1, outline = ellipse(1, 1, 0)) =>
    studyScatter(
      task,
      outline,
      { ...still, ...scatter },
      { strength: { edge: 'peak' }, allow: 31, random: randomFrom(seed) },
    );

  it('changes nothing where nothing scatters', () => {
    const { nominal, peak, retained, judged, startsAtEdge, quantilePeak, withinAllowed } = study({});
    expect(nominal.peak).toBeCloseTo(30, 6);
    for (const [spread, value] of [
      [peak, nominal.peak],
      [retained, nominal.retained],
    ] as const) {
      expect(spread.deviation).toBeCloseTo(0, 9);
      expect([spread.least, spread.median, spread.most]).toEqual([value, value, value]);
    }
    expect(quantilePeak).toBe(nominal.peak);
    expect([judged, startsAtEdge, withinAllowed]).toEqual([30, 1, 1]);
  });

  it('leaves the peak of a circle at three times the tension wherever it is and however large (Kirsch 1898)', () => {
    const { peak } = study({ position: 0.3, turn: 20 });
    expect(peak.least / 30).toBeCloseTo(1, 6);
    expect(peak.most / 30).toBeCloseTo(1, 6);
  });

  it('gives the linearised deviation of a turning ellipse (Inglis, Trans. Inst. Nav. Archit. 55 (1913) 219-241)', () => {
    // Half axes c cosh w, c sinh w, the major one at `beta` to the tension; the edge at eta (from memory, held by Kirsch and 1 + 2a/b).
    const w = Math.atanh(0.5);
    const peakAt = (beta: number) => {
      let most = 0;
      for (let k = 0; k < 200_000; k++) {
        const eta = (Math.PI * k) / 200_000;
        const above = Math.sinh(2 * w) + Math.cos(2 * beta) - Math.exp(2 * w) * Math.cos(2 * (beta - eta));
        most = Math.max(most, above / (Math.cosh(2 * w) - Math.cos(2 * eta)));
      }
      return most;
    };
    expect(peakAt(Math.PI / 2)).toBeCloseTo(5, 6);
    const at = Math.PI / 4;
    const slope = (peakAt(at + 0.01) - peakAt(at - 0.01)) / 0.02;
    const samples = 100;
    const { nominal, peak } = study({ turn: 1, samples }, 5, ellipse(2, 1, 0, 45));
    expect(nominal.peak / (10 * peakAt(at))).toBeCloseTo(1, 4);
    const turns = drawDeviations({ ...still, turn: 1 }, samples, randomFrom(5)).map(
      ({ shapes: [shape] }) => shape!.turn,
    );
    const mean = turns.reduce((sum, turn) => sum + turn, 0) / samples;
    const deviation = Math.sqrt(turns.reduce((sum, turn) => sum + (turn - mean) ** 2, 0) / samples);
    expect(peak.deviation / ((10 * Math.abs(slope) * deviation * Math.PI) / 180)).toBeCloseTo(1, 2);
  });

  it('passes the scatter of strength on to the load factor, and none of it to what is retained', () => {
    const { loadFactor, retained, peak, nominal } = study({ strength: 0.1, samples: 400 });
    expect(loadFactor.deviation / nominal.loadFactor).toBeGreaterThan(0.08);
    expect(loadFactor.deviation / nominal.loadFactor).toBeLessThan(0.12);
    expect(retained.deviation).toBeCloseTo(0, 9);
    expect(peak.deviation).toBeCloseTo(0, 9);
    // Uniform within its half range.
    const even = study({ strength: 0.1, samples: 400, distribution: 'uniform' }).loadFactor;
    expect(even.most / nominal.loadFactor).toBeLessThan(1.1);
    expect(even.least / nominal.loadFactor).toBeGreaterThan(0.9);
    expect(even.deviation / nominal.loadFactor).toBeGreaterThan(0.05);
  });

  it('raises the peak where the form scatters, in order of quantiles', () => {
    const { peak, quantilePeak, withinAllowed } = study({ outline: 0.03 });
    expect(peak.mean).toBeGreaterThan(30);
    const { least, quantile05, median, quantile95, most } = peak;
    expect([...[most, median, least, quantile95, quantile05]].sort((a, b) => a - b)).toEqual([
      least,
      quantile05,
      median,
      quantile95,
      most,
    ]);
    expect(quantilePeak).toBe(quantile95);
    expect(withinAllowed).toBeGreaterThan(0);
    expect(withinAllowed).toBeLessThan(1);
  });

  it('gives the same result for the same seed, and another for another', () => {
    expect(study({ outline: 0.02, samples: 8 }, 7)).toEqual(study({ outline: 0.02, samples: 8 }, 7));
    expect(study({ outline: 0.02, samples: 8 }, 8).peak).not.toEqual(study({ outline: 0.02, samples: 8 }, 7).peak);
  });

  it('refuses scatter that is none', () => {
    expect(() => study({ samples: 0 })).toThrow(/scatter.samples/);
    expect(() => study({ outline: Number.NaN })).toThrow(/scatter.outline/);
    expect(() => study({ quantile: 1 })).toThrow(/scatter.quantile/);
  });

  it('says so where no sample is a channel', () => {
    expect(() => study({ outline: 30, samples: 3 })).toThrow(/none of 3 samples/);
  });
});

describe('scatter of a design in a tee', () => {
  const scatter: ScatterWish = { ...still, samples: 12, outline: 0.01, position: 0.02, cure: 0.05 };
  const design = ellipse(0.7, 0.55, 0.7001);
  let task: ChannelTask;
  beforeAll(async () => {
    const brief = await readBrief(`host: { kind: tee, bendRadius: 5 }
loads: { pull: {}, cure: {} }
cases: { cured: { cure: 1 }, pulled: { pull: 0.2, cure: 1 }, lifted: { pull: 0.3 } }
channel: { wall: 0.15, edgeRadius: 0.15 }
`);
    task = withRoomForScatter(brief, scatter);
  });

  it('has room for channels that were drawn at the least wall', () => {
    const { nominal, peak, judged } = studyScatter(task, design, scatter, {
      strength: { edge: 'peak' },
      allow: 48,
      random: randomFrom(3),
    });
    expect(judged).toBe(12);
    expect(peak.deviation / nominal.peak).toBeGreaterThan(0.02);
    expect(peak.deviation / nominal.peak).toBeLessThan(0.2);
    expect(Math.abs(peak.median / nominal.peak - 1)).toBeLessThan(0.1);
  });

  it('counts samples that are no channels as beyond the quantile', () => {
    const { quantilePeak, judged, samples, withinAllowed } = studyScatter(
      task,
      design,
      { ...still, position: 0.2, samples: 40 },
      { strength: { edge: 'peak' }, allow: 1000, random: randomFrom(3) },
    );
    expect(judged).toBeLessThan(0.9 * samples);
    expect(quantilePeak).toBe(Number.POSITIVE_INFINITY);
    expect(withinAllowed).toBe(judged / samples);
  });

  it('scales cure and strengths without another solve as a joint of that cure and those strengths would be', () => {
    // A cure that the joint survives, whatever its scatter here.
    const mild = { ...task, loads: { ...task.loads, cure: { deltaT: -50 } } };
    const channels = createMadeChannels(mild);
    const strengthOf = createMadeStrength(mild, { edge: 'peak' });
    const solved = channels.solve(design)!;
    for (const [strength, cure] of [
      [1, 1],
      [1, 1.2],
      [0.8, 1],
      [1.3, 0.7],
    ] as const) {
      const { joint, cases, model } = mild;
      const loads = { ...mild.loads, cure: { deltaT: -50 * cure } };
      const direct = createStressModel(model, loads, cases, { tolerance: 1e-7 }).evaluate(solved.nodes, solved.mirror);
      expect(channels.peak(solved, cure) / direct.worst).toBeCloseTo(1, 6);
      const expected = createStrengthModel(model, stronger(joint as TeeJoint, strength), loads, cases, {
        edge: 'peak',
      });
      const { loadFactor, retained, place } = expected.evaluate(direct);
      const found = strengthOf(solved, strength, cure);
      expect(loadFactor).toBeGreaterThan(0.1);
      expect(found.loadFactor / loadFactor).toBeCloseTo(1, 3);
      expect(found.retained / retained).toBeCloseTo(1, 3);
      expect(found.place).toBe(place);
    }
  });
});

function stronger(joint: TeeJoint, factor: number): TeeJoint {
  const scaled = (ply: Ply): Ply => ({
    ...ply,
    transverseTension: ply.transverseTension * factor,
    interlaminarShear: ply.interlaminarShear * factor,
  });
  const layup = (layers: TeeJoint['skin']) => layers.map((layer) => ({ ...layer, ply: scaled(layer.ply) }));
  return { ...joint, overlaminate: layup(joint.overlaminate), skin: layup(joint.skin), filler: scaled(joint.filler) };
}

describe('a made joint without cure', () => {
  it('bears as much more as it is stronger, and keeps the share that its channel leaves', async () => {
    const task = await taskOf(plate);
    const strengthOf = createMadeStrength(task, { edge: 'peak' });
    const edge = createMadeChannels(task).solve(ellipse(1, 0.5, 0))!;
    const { loadFactor, retained } = { ...strengthOf(edge, 1, 1) };
    for (const [strength, cure] of [
      [0.8, 1],
      [1.3, 2],
    ] as const) {
      const made = strengthOf(edge, strength, cure);
      expect(made.loadFactor / loadFactor).toBeCloseTo(strength, 12);
      expect(made.retained / retained).toBeCloseTo(1, 12);
    }
  });
});
