import {
  type ChannelTask,
  type Curve,
  createCurveNodes,
  createOutlineMeasure,
  measureOutline,
  nodeParameter,
  plateBorder,
  readBrief,
  reduceJoint,
} from '@lumenfront/core';
import { beforeAll, describe, expect, it } from 'vitest';
import { randomFrom } from '../random.js';
import { deviate, type Scatter, studyScatter } from './index.js';

/** An ellipse with half axes in mm about (0, y). */
function ellipse(a: number, b: number, y: number): Curve {
  return {
    mirror: true,
    place(nodes) {
      for (let j = 0; j < nodes.count; j++) {
        const s = nodeParameter(j, nodes.count);
        const [c, d] = [Math.cos(s), Math.sin(s)];
        nodes.x[j] = a * c;
        nodes.y[j] = y + b * d;
        nodes.dx[j] = -a * d;
        nodes.dy[j] = b * c;
        nodes.ddx[j] = -a * c;
        nodes.ddy[j] = -b * d;
      }
    },
  };
}

async function taskOf(text: string): Promise<ChannelTask> {
  const { joint, loads, cases, channel } = await readBrief(text);
  return { joint, loads, cases, channel, model: reduceJoint(joint, channel) };
}

const plate = `host: { kind: plate }
loads: { farField: { sx: 10 } }
`;
const still: Scatter = { distribution: 'normal', samples: 30 };
const noWaves = [0, 0, 0, 0, 0, 0];

describe('a deviating outline', () => {
  const measured = (curve: Curve) => {
    const measure = createOutlineMeasure();
    const nodes = createCurveNodes(256);
    curve.place(nodes);
    measureOutline(nodes, plateBorder(), measure);
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
  const study = (scatter: Partial<Scatter>, seed = 1) =>
    studyScatter(task, { edge: 'peak' }, ellipse(1, 1, 0), { ...still, ...scatter }, randomFrom(seed));

  it('changes nothing where nothing scatters', () => {
    const { nominal, peak, retained, judged, startsAtEdge } = study({});
    expect(nominal.peak).toBeCloseTo(30, 6);
    for (const [spread, value] of [
      [peak, nominal.peak],
      [retained, nominal.retained],
    ] as const) {
      expect(spread.deviation).toBeCloseTo(0, 9);
      expect([spread.least, spread.median, spread.most]).toEqual([value, value, value]);
    }
    expect([judged, startsAtEdge]).toEqual([30, 1]);
  });

  it('does not care for the position or the size of a circle in an infinite sheet', () => {
    const { peak } = study({ position: 0.3, turn: 20 });
    expect(peak.least / 30).toBeCloseTo(1, 3);
    expect(peak.most / 30).toBeCloseTo(1, 3);
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
    const { peak } = study({ outline: 0.03 });
    expect(peak.mean).toBeGreaterThan(30);
    const { least, quantile05, median, quantile95, most } = peak;
    expect([...[most, median, least, quantile95, quantile05]].sort((a, b) => a - b)).toEqual([
      least,
      quantile05,
      median,
      quantile95,
      most,
    ]);
  });

  it('gives the same result for the same seed, and another for another', () => {
    expect(study({ outline: 0.02, samples: 8 }, 7)).toEqual(study({ outline: 0.02, samples: 8 }, 7));
    expect(study({ outline: 0.02, samples: 8 }, 8).peak).not.toEqual(study({ outline: 0.02, samples: 8 }, 7).peak);
  });

  it('refuses scatter that is none', () => {
    expect(() => study({ samples: 0 })).toThrow(/scatter.samples/);
    expect(() => study({ outline: Number.NaN })).toThrow(/scatter.outline/);
  });
});

describe('scatter of a design in a tee', () => {
  it('has room for channels that were drawn at the least wall', async () => {
    const task = await taskOf(`host: { kind: tee, bendRadius: 5 }
loads: { pull: {}, cure: {} }
cases: { cured: { cure: 1 }, pulled: { pull: 0.2, cure: 1 } }
channel: { wall: 0.15, edgeRadius: 0.15 }
`);
    const design = ellipse(0.7, 0.55, 0.7001);
    const { nominal, peak, judged } = studyScatter(
      task,
      { edge: 'peak' },
      design,
      { distribution: 'normal', samples: 12, outline: 0.01, position: 0.02, cure: 0.05 },
      randomFrom(3),
    );
    expect(judged).toBe(12);
    expect(peak.deviation / nominal.peak).toBeGreaterThan(0.02);
    expect(peak.deviation / nominal.peak).toBeLessThan(0.2);
    expect(Math.abs(peak.median / nominal.peak - 1)).toBeLessThan(0.1);
  });
});
