import { PassThrough } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { run } from '../../packages/cli/src/run.js';
import type { DeliveredChannel, DeliveryDocument } from '../../packages/cli/src/task/index.js';

const example = (name: string) => fileURLToPath(new URL(name, import.meta.url));

let delivery: DeliveryDocument;
beforeAll(async () => {
  vi.stubEnv('LUMENFRONT_CACHE', '');
  const streams = { stdout: new PassThrough(), stderr: new PassThrough() };
  const argv = ['deliver', example('delivery.yaml'), '--channel', example('delivery-channel.json'), '--json'];
  expect(await run(argv, streams)).toBe(0);
  delivery = JSON.parse(String(streams.stdout.read()));
});
afterAll(() => vi.unstubAllEnvs());

describe('the example of a channel with seven times the area', () => {
  it('carries 29.4 times the flow: 49 times 2 a b / (a^2 + b^2) for an ellipse a : b = 3 : 1', () => {
    // Flow factors pi a^3 b^3 / (4 (a^2 + b^2)) and pi r^4 / 8: Shah & London, Laminar Flow Forced Convection in Ducts (1978).
    expect(delivery.ratio.area).toBeCloseTo(7, 3);
    expect(delivery.ratio.flow).toBeCloseTo(49 * 0.6, 2);
  });

  it('primes faster by flow over area, as both are pushed by far more than capillary pressure', () => {
    // t = viscosity length^2 area / (2 flow factor pressure), but for capillary pressure of a few tenths of a percent.
    const primingTime = ({ healing }: DeliveredChannel) => healing[1]!.smallestDamage.primingTime;
    expect(primingTime(delivery.reference) / primingTime(delivery.channel)).toBeCloseTo(29.4 / 7, 1);
  });

  it('heals larger damage than the circle with every agent', () => {
    const largest = ({ healing }: DeliveredChannel) =>
      healing.map(({ reach }) => ('obstacle' in reach ? Number.NaN : reach.areaTo));
    largest(delivery.channel).forEach((area, i) => {
      expect(area).toBeGreaterThan(largest(delivery.reference)[i]!);
    });
  });

  it('may be supplied at its full pressure while cured', () => {
    const { edge, healing } = delivery.channel;
    expect(edge!.allowedStress / edge!.stressPerPressure).toBeGreaterThan(0.3);
    expect(healing[0]!.smallestDamage.pressure).toBe(0.3);
  });
});
