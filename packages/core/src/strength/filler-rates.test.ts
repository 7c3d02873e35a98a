import { describe, expect, it } from 'vitest';
import { reducedTee } from '../../../../test/fixtures/reduced.js';
import { ellipseNodes, referenceJoint, referenceLoads } from '../../../../test/fixtures/tee-reference.js';
import { type ReducedModel, reducePlate } from '../host/index.js';
import { type CurveNodes, createCurveRates } from '../outline/index.js';
import { actingLoads, createStressModel } from '../stress/index.js';
import { createChannelStress } from './channel-stress.js';
import { createFillerRates } from './filler-rates.js';

const glass = { E1: 3500, E2: 3500, nu12: 0.35, nu23: 0.35, G12: 3500 / 2.7, alpha1: 0, alpha2: 0 };
const sheet = reducePlate({ kind: 'plate', material: { ...glass, transverseTension: 60, interlaminarShear: 60 } });
const tee = reducedTee(referenceJoint, 0.12, 0.12);
const howMany = 4;

/** Smooth motions of the nodes, alike on both sides with `mirror`. */
function motionsOf(count: number, mirror: boolean) {
  const rates = createCurveRates(howMany, count);
  for (let p = 0; p < howMany; p++)
    for (let j = 0; j < count; j++) {
      const v = ((j + 0.5) * 2 * Math.PI) / count;
      const [at, phase] = [p * count + j, mirror ? 0 : 0.7 * p];
      rates.x[at] = Math.sin((p + 1) * v + phase);
      rates.y[at] = 0.5 * Math.cos(p * v + phase);
      rates.dx[at] = (p + 1) * Math.cos((p + 1) * v + phase);
      rates.dy[at] = -0.5 * p * Math.sin(p * v + phase);
    }
  return rates;
}

const weights = (loads: number) => Float64Array.from({ length: 3 * loads }, (_, i) => Math.cos(1.3 * i + 0.4));

describe('rates of the stress around a channel', () => {
  it('are those of Kirsch around a circle that grows', () => {
    // Kirsch, Z. VDI 42 (1898) 797-807 (as in Timoshenko & Goodier, Theory of Elasticity, art. 35), unit tension along x, differentiated by the radius.
    const nodes = ellipseNodes(1, 1, [0.3, -0.2], 0, 64);
    const stress = createStressModel(sheet, { farField: { sx: 1, sy: 0, txy: 0 } }, [], { tolerance: 1e-14 });
    const rates = createFillerRates(sheet, actingLoads(sheet, { farField: { sx: 1, sy: 0, txy: 0 } }));
    const edge = stress.evaluate(nodes, false);
    // All points of a circle of radius 1 move along the normal, which turns as the tangent does.
    const growth = { x: nodes.dy, y: nodes.dx.map((value) => -value), dx: nodes.dx, dy: nodes.dy };
    rates.take(edge, stress.slopes(edge, growth, 1));
    for (const r of [1.25, 2, 7])
      for (const angle of [0.1, 0.8, 1.5, 2.9]) {
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        const along = (xx: number, yy: number, xy: number) => {
          const out = new Float64Array(1);
          rates.add(0.3 + r * c, -0.2 + r * s, Float64Array.of(xx, yy, xy), out, 0);
          return out[0]!;
        };
        const [q, dq] = [1 / r ** 2, 2 / r ** 2];
        expect(along(c * c, s * s, 2 * c * s)).toBeCloseTo(dq * (-1 / 2 + (-2 + 3 * q) * Math.cos(2 * angle)), 6);
        expect(along(s * s, c * c, -2 * c * s)).toBeCloseTo(dq * (1 / 2 - 3 * q * Math.cos(2 * angle)), 6);
        expect(along(-c * s, c * s, c * c - s * s)).toBeCloseTo(-dq * (1 - 3 * q) * Math.sin(2 * angle), 6);
      }
  });

  it.each([
    ['mirror-symmetric', true, ellipseNodes(1, 0.4, [0, 1.1], 0, 96), referenceLoads],
    ['general', false, ellipseNodes(0.8, 0.4, [0.2, 1.1], 0.3, 96), { ...referenceLoads, side: { force: 10 } }],
  ] as const)('are those of central differences in a host: %s', (_, mirror, nodes, loads) => {
    const model: ReducedModel = tee;
    const acting = actingLoads(model, loads);
    const stress = createStressModel(model, loads, [], { tolerance: 1e-14 });
    const channel = createChannelStress(model, acting);
    const motions = motionsOf(nodes.count, mirror);
    const given = weights(acting.length);
    const places = [
      [0.2, 1.75],
      [1.3, 1],
      [-0.7, 0.4],
    ] as const;
    const stressesAt = (motion: number, step: number) => {
      const moved: CurveNodes = { ...nodes };
      for (const of of ['x', 'y', 'dx', 'dy'] as const)
        Object.assign(moved, {
          [of]: nodes[of].map((value, j) => value + step * motions[of][motion * nodes.count + j]!),
        });
      channel.take(stress.evaluate(moved, mirror));
      return places.map(([x, y]) =>
        channel
          .at(x, y)
          .reduce(
            (sum, { xx, yy, xy }, l) => sum + given[3 * l]! * xx + given[3 * l + 1]! * yy + given[3 * l + 2]! * xy,
            0,
          ),
      );
    };
    const rates = createFillerRates(model, acting);
    const edge = stress.evaluate(nodes, mirror);
    rates.take(edge, stress.slopes(edge, motions, howMany));
    const found = places.map(([x, y]) => {
      const out = new Float64Array(howMany + 1);
      rates.add(x, y, given, out, 1);
      return out.subarray(1);
    });
    const h = 1e-4;
    for (let p = 0; p < howMany; p++) {
      const [a, b, c, d] = [h, -h, 2 * h, -2 * h].map((step) => stressesAt(p, step));
      places.forEach((_, k) => {
        const difference = (8 * (a![k]! - b![k]!) - c![k]! + d![k]!) / (12 * h);
        expect(Math.abs(found[k]![p]! / difference - 1)).toBeLessThan(1e-6);
      });
    }
  });
});
