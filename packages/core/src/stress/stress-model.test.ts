import { describe, expect, it } from 'vitest';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { ellipseNodes, referencePly } from '../../../../test/fixtures/tee-reference.js';
import { exactSlopes } from '../edge/index.js';
import { InputError } from '../errors.js';
import { type LoadCase, type Loads, reducePlate } from '../host/index.js';
import { type CurveNodes, createCurveNodes, createCurveRates } from '../outline/index.js';
import { createEdgeMemory, createStressModel } from './stress-model.js';

const plate = reducePlate({ kind: 'plate', material: referencePly });

const far = (sx: number, sy: number, txy: number): Loads => ({ farField: { sx, sy, txy } });

/** Stress of one load on an outline in a plate. */
function plateStress(loads: Loads, nodes: CurveNodes) {
  const { loads: extremes, hoop } = createStressModel(plate, loads, []).evaluate(nodes, false);
  return { ...extremes[0]!, hoop: hoop[0]! };
}

/** `r = 1 + height cos 3s`: an ellipse would be solved in so few iterations that none can be saved. */
function lobes(height: number): CurveNodes {
  const nodes = createCurveNodes(64);
  for (let j = 0; j < 64; j++) {
    const s = (2 * Math.PI * j) / 64;
    const [c, i] = [Math.cos(s), Math.sin(s)];
    const [r, dr, ddr] = [1 + height * Math.cos(3 * s), -3 * height * Math.sin(3 * s), -9 * height * Math.cos(3 * s)];
    nodes.x[j] = r * c;
    nodes.y[j] = r * i;
    nodes.dx[j] = dr * c - r * i;
    nodes.dy[j] = dr * i + r * c;
    nodes.ddx[j] = ddr * c - 2 * dr * i - r * c;
    nodes.ddy[j] = ddr * i + 2 * dr * c - r * i;
  }
  return nodes;
}

describe('createStressModel on a plate', () => {
  it('gives the stresses of a circular hole: 3 and -1 under tension, 4 and -4 under shear (Kirsch 1898)', () => {
    const circle = ellipseNodes(1, 1, [0, 0], 0, 64);
    const tension = plateStress(far(1, 0, 0), circle);
    expect(Math.abs(tension.peak - 3)).toBeLessThan(1e-10);
    expect(Math.abs(tension.least + 1)).toBeLessThan(1e-10);
    const shear = plateStress(far(0, 0, 1), circle);
    expect(Math.abs(shear.peak - 4)).toBeLessThan(1e-10);
    // Shear stretches along x = y: the peak lies across it.
    expect(shear.peakX * shear.peakY).toBeCloseTo(-0.5, 6);
  });

  it('gives uniform hoop stress sx + sy on the ellipse sx : sy (Cherepanov 1974)', () => {
    const { peak, least } = plateStress(far(2, 1, 0), ellipseNodes(2, 1, [0, 0], 0, 64));
    expect(peak).toBeCloseTo(3, 10);
    expect(least).toBeCloseTo(3, 10);
  });

  it('gives p on a circle and 2a/b - 1 at the ends of an ellipse under pressure p (Lamé; Inglis 1913)', () => {
    const round = plateStress({ pressure: { pressure: 7 } }, ellipseNodes(0.3, 0.3, [0, 0], 0, 32));
    expect(round.peak).toBeCloseTo(7, 10);
    expect(round.least).toBeCloseTo(7, 10);
    const flat = plateStress({ pressure: { pressure: 7 } }, ellipseNodes(1, 0.5, [0, 0], 0, 64));
    expect(flat.peak).toBeCloseTo(7 * 3, 8);
  });

  it('begins from what it remembers of a like outline, and gives the same in fewer iterations', () => {
    const loads: Loads = { ...far(1, 0.4, 0.2), pressure: { pressure: 3 } };
    const model = createStressModel(plate, loads, [{ name: 'both', factors: { farField: 1, pressure: 1 } }]);
    const like = lobes(0.200001);
    const outline = lobes(0.2);
    const { worst, iterations } = model.evaluate(outline, false);
    const memory = createEdgeMemory();
    expect(model.evaluate(like, false, 'cases', memory).worst).not.toBe(worst);
    const again = model.evaluate(outline, false, 'cases', memory);
    expect(Math.abs(again.worst / worst - 1)).toBeLessThan(1e-10);
    expect(again.iterations).toBeLessThan(iterations);
    // What could not be solved is not remembered.
    const broken = ellipseNodes(Number.NaN, 1, [0, 0], 0, 64);
    expect(model.evaluate(broken, false, 'cases', memory).worst).toBeNaN();
    expect(Math.abs(model.evaluate(outline, false, 'cases', memory).worst / worst - 1)).toBeLessThan(1e-10);
  });

  it('does not see where an outline lies nor how outline and load are turned together', () => {
    const here = plateStress(far(0.3, 0.9, 0.5), ellipseNodes(1, 0.4, [0, 0], 0.2, 64));
    const away = plateStress(far(0.3, 0.9, 0.5), ellipseNodes(1, 0.4, [70, -40], 0.2, 64));
    expect(Math.abs(away.peak / here.peak - 1)).toBeLessThan(1e-10);
    // One of two equal peaks, opposite each other.
    expect(Math.abs(away.peakX - 70)).toBeCloseTo(Math.abs(here.peakX), 6);
    // Stress turned by `turn`: the mean stays, the deviator turns twice.
    const turn = 0.8;
    const [mean, half] = [0.6, -0.3];
    const [c, s] = [Math.cos(2 * turn), Math.sin(2 * turn)];
    const deviator = half * c - 0.5 * s;
    const turned = plateStress(
      far(mean + deviator, mean - deviator, half * s + 0.5 * c),
      ellipseNodes(1, 0.4, [0, 0], 0.2 + turn, 64),
    );
    expect(Math.abs(turned.peak / here.peak - 1)).toBeLessThan(1e-10);
    expect(Math.abs(turned.least / here.least - 1)).toBeLessThan(1e-10);
    turned.hoop.forEach((value, j) => {
      expect(value).toBeCloseTo(here.hoop[j]!, 9);
    });
  });

  it.each([1e-3, 1e3])('gives the same stress at %f times the size', (size) => {
    const whole = plateStress(far(0.3, 0.9, 0.5), ellipseNodes(1, 0.4, [0.5, 0.2], 0.2, 64));
    const scaled = plateStress(far(0.3, 0.9, 0.5), ellipseNodes(size, 0.4 * size, [0.5 * size, 0.2 * size], 0.2, 64));
    expect(Math.abs(scaled.peak / whole.peak - 1)).toBeLessThan(1e-9);
    expect(Math.abs(scaled.peakX / size - 0.5)).toBeCloseTo(Math.abs(whole.peakX - 0.5), 6);
  });

  it('solves a mirror-symmetric outline in half the unknowns to the same stress', () => {
    const nodes = ellipseNodes(0.7, 1.1, [0, 3], 0, 64);
    const model = createStressModel(plate, { ...far(1, 0.4, 0), pressure: { pressure: 2 } }, []);
    const whole = model.evaluate(nodes, false).loads.map((load) => ({ ...load }));
    model.evaluate(nodes, true).loads.forEach((load, l) => {
      expect(Math.abs(load.peak / whole[l]!.peak - 1)).toBeLessThan(1e-9);
      expect(Math.abs(load.least - whole[l]!.least)).toBeLessThan(1e-9);
    });
  });
});

describe('createStressModel', () => {
  const loads: Loads = { ...far(1, 0, 0), pressure: { pressure: 2 } };
  const cases: readonly LoadCase[] = [
    { name: 'half', factors: { farField: 0.5 } },
    { name: 'both', factors: { farField: 1, pressure: -3 } },
    { name: 'idle', factors: {} },
  ];
  const nodes = ellipseNodes(1, 0.6, [0, 0], 0.3, 48);

  it('combines loads into cases before it looks for the peak, and says which case is worst', () => {
    const model = createStressModel(plate, loads, cases);
    expect(model.loads).toEqual(['farField', 'pressure']);
    expect(model.cases).toEqual(['half', 'both', 'idle']);
    const { hoop, caseHoop, cases: extremes, worst, worstCase } = model.evaluate(nodes, false);
    const [field, pressure] = [hoop[0]!, hoop[1]!];
    caseHoop[1]!.forEach((value, j) => {
      expect(value).toBeCloseTo(field[j]! - 3 * pressure[j]!, 9);
    });
    expect(extremes[2]).toMatchObject({ peak: 0, least: 0 });
    // One load alone, given as what the case makes of it.
    const alone = createStressModel(plate, { pressure: { pressure: -6 }, ...far(1, 0, 0) }, [
      { name: 'all', factors: { pressure: 1, farField: 1 } },
    ]).evaluate(nodes, false);
    expect(extremes[1]!.peak).toBeCloseTo(alone.worst, 9);
    expect(worst).toBe(Math.max(...extremes.map(({ peak }) => peak)));
    expect(extremes[worstCase]!.peak).toBe(worst);
  });

  it('leaves out the extremes of single loads where they are not wanted', () => {
    const model = createStressModel(plate, loads, cases);
    const { worst } = { ...model.evaluate(nodes, false) };
    const lean = createStressModel(plate, loads, cases).evaluate(nodes, false, 'cases');
    expect(lean.worst).toBe(worst);
    // As they were made: the work is saved, not only hidden.
    for (const extremes of lean.loads) expect(extremes).toEqual({ peak: 0, peakX: 0, peakY: 0, least: 0 });
    expect(lean.hoop[0]!.every(Number.isFinite)).toBe(true);
  });

  it('gives any other combination of the loads from what was solved, and leaves that as it is', () => {
    const model = createStressModel(plate, loads, cases);
    const stress = model.evaluate(nodes, false);
    const before = { worst: stress.worst, hoop: stress.caseHoop[0]!.slice() };
    const out = { peak: 0, peakX: 0, peakY: 0, least: 0 };
    const names = model.loads;
    for (const factors of [names.map(() => 0.7), names.map((_, l) => l - 0.3)]) {
      model.combine(stress, factors, out);
      const own = { name: 'own', factors: Object.fromEntries(names.map((name, l) => [name, factors[l]!])) };
      const solved = createStressModel(plate, loads, [own]).evaluate(nodes, false).cases[0]!;
      expect(out).toEqual(solved);
    }
    expect({ worst: stress.worst, hoop: stress.caseHoop[0]! }).toEqual(before);
  });

  it('keeps its buffers apart: another outline, node count or model between changes nothing', () => {
    const model = createStressModel(plate, loads, cases);
    const first = model.evaluate(nodes, false).worst;
    model.evaluate(ellipseNodes(2, 0.3, [0, 0], 0, 48), false);
    model.evaluate(ellipseNodes(1, 1, [0, 0], 0, 64), true);
    createStressModel(plate, loads, cases).evaluate(ellipseNodes(2, 0.3, [0, 0], 0, 48), false);
    expect(model.evaluate(nodes, false).worst).toBe(first);
  });

  it('refuses a load that the host does not take, and a case of a load that is not given', () => {
    const refused =
      (given: Loads, of: readonly LoadCase[] = []) =>
      () =>
        createStressModel(plate, given, of);
    expect(refused({ pull: { force: 1 } })).toThrow(InputError);
    expect(refused({ pull: { force: 1 } })).toThrow(
      /loads.pull: expected a load that this host takes: farField, pressure, received pull/,
    );
    expect(refused(loads, [{ name: 'cured', factors: { cure: 1 } }])).toThrow(/cases.cured.cure/);
  });

  it('refuses to solve an unsymmetric load as a symmetric one', () => {
    expect(createStressModel(plate, far(1, 2, 0), []).symmetric).toBe(true);
    const sheared = createStressModel(plate, far(1, 2, 0.1), []);
    expect(sheared.symmetric).toBe(false);
    expect(() => sheared.evaluate(ellipseNodes(1, 1, [0, 0], 0, 32), true)).toThrow(/mirror-symmetric/);
  });

  it('refuses to solve several channels as one that is symmetric, others than it was made for, and slopes of unlike ones', () => {
    expect(() => createStressModel(plate, far(1, 2, 0), [], { channels: { number: 3 } })).toThrow(
      /channels.pitch: expected of more than two channels, the distance of neighbours, mm, received undefined/,
    );
    const pair = createStressModel(plate, far(1, 2, 0), [], { channels: { number: 2 } });
    const right = ellipseNodes(0.5, 0.4, [1, 0], 0, 32);
    expect(() => pair.evaluate(right, true)).toThrow('several channels are solved together');
    expect(() => pair.evaluateEach([right])).toThrow('1 outlines for 2 channels');
    const left = ellipseNodes(0.5, 0.4, [-1.1, 0], 0, 32);
    const apart = pair.evaluateEach([right, left]);
    expect(() => pair.slopes(apart, createCurveRates(1, 32), 1)).toThrow('slopes are of the copies of one outline');
  });

  it('takes the one outline of one channel either way, and tells no strain along it where the host has no answer', () => {
    const one = createStressModel(plate, far(1, 2, 0), []);
    const nodes = ellipseNodes(0.5, 0.4, [1, 0], 0.2, 32);
    const hoop = one.evaluate(nodes, false).hoop[0]!.slice();
    const each = one.evaluateEach([nodes]);
    expect(each.hoop[0]).toEqual(hoop);
    expect([...each.strains]).toEqual([0]);
  });

  it('gives NaN for everything where an outline cannot be solved: a NaN node, or all nodes in one place', () => {
    const spoilt = ellipseNodes(1, 0.5, [0, 0], 0, 32);
    spoilt.y[3] = Number.NaN;
    for (const bad of [spoilt, createCurveNodes(32)]) {
      const {
        worst,
        loads: single,
        cases: combined,
        hoop,
        moments,
      } = createStressModel(plate, loads, cases).evaluate(bad, false);
      expect(worst).toBeNaN();
      expect(hoop[0]!.every(Number.isNaN)).toBe(true);
      expect(moments[0]!.every(Number.isNaN)).toBe(true);
      for (const { peak, least } of [...single, combined[0]!, combined[1]!]) {
        expect(peak).toBeNaN();
        expect(least).toBeNaN();
      }
    }
  });
});

describe('the stress model of a pair', () => {
  const right = ellipseNodes(1, 0.7, [1.6, 0], 0.2, 64);
  const sheared: Loads = { ...far(0, 0, 1), pressure: { pressure: 2 } };
  const cases: readonly LoadCase[] = [
    { name: 'shear', factors: { farField: 1 } },
    { name: 'both', factors: { farField: 1, pressure: 1 } },
    { name: 'turned', factors: { farField: -1, pressure: 1 } },
  ];

  it('tells of both edges where loads are not symmetric: the left one bears what the right one bears under the mirrored load', () => {
    const {
      bothSides,
      cases: extremes,
      caseHoop,
      caseHalfway,
      worst,
    } = createStressModel(plate, sheared, cases, {
      channels: { number: 2 },
    }).evaluate(right, false, 'halfway');
    expect(bothSides).toBe(true);
    const [shear, both, turned] = caseHoop as [Float64Array, Float64Array, Float64Array];
    for (let j = 0; j < 64; j++) {
      expect(shear[64 + j]).toBeCloseTo(-shear[j]!, 10);
      expect(both[64 + j]).toBeCloseTo(turned[j]!, 10);
      expect(caseHalfway[1]![64 + j]).toBeCloseTo(caseHalfway[2]![j]!, 10);
    }
    expect(extremes[0]!.peak).toBeCloseTo(-extremes[0]!.least, 10);
    expect(extremes[1]!.peak).toBeCloseTo(extremes[2]!.peak, 10);
    expect(extremes[1]!.peakX).toBeCloseTo(-extremes[2]!.peakX, 10);
    expect(worst).toBe(Math.max(...extremes.map(({ peak }) => peak)));
  });

  it('has the values of one edge where all loads are symmetric', () => {
    const { bothSides, caseHoop } = createStressModel(
      plate,
      far(1, 2, 0),
      [{ name: 'far', factors: { farField: 1 } }],
      {
        channels: { number: 2 },
      },
    ).evaluate(right, false);
    expect(bothSides).toBe(false);
    expect(caseHoop[0]).toHaveLength(64);
  });

  it('refuses a load that is both at once', () => {
    expect(() => createStressModel(plate, far(1, 0, 1), [], { channels: { number: 2 } })).toThrow(
      /loads.farField: expected of several channels, a load that is symmetric or antisymmetric/,
    );
  });

  it('refuses slopes where it was not made with them', () => {
    const model = createStressModel(plate, far(1, 2, 0), []);
    const edge = model.evaluate(ellipseNodes(1, 1, [0, 0], 0, 32), true);
    expect(() => model.slopes(edge, createCurveRates(1, 32), 1)).toThrow('{ slopes: exactSlopes }');
  });

  it('has exact slopes on both sides', () => {
    const model = createStressModel(plate, sheared, cases, {
      channels: { number: 2 },
      tolerance: 1e-13,
      slopes: exactSlopes,
    });
    const rates = createCurveRates(2, 64);
    rates.x.fill(1, 0, 64);
    rates.y.fill(1, 64, 128);
    const slopes = model.slopes(model.evaluate(right, false), rates, 2).hoop[1]!.slice(0, 256);
    const moved = (dx: number, dy: number) => {
      const nodes = ellipseNodes(1, 0.7, [1.6 + dx, dy], 0.2, 64);
      return model.evaluate(nodes, false).caseHoop[1]!.slice();
    };
    const step = 1e-5;
    const difference = (a: Float64Array, b: Float64Array) => a.map((value, i) => (value - b[i]!) / (2 * step));
    expect(largestDifference(slopes.subarray(0, 128), difference(moved(step, 0), moved(-step, 0)))).toBeLessThan(1e-6);
    expect(largestDifference(slopes.subarray(128), difference(moved(0, step), moved(0, -step)))).toBeLessThan(1e-6);
  });
});
