import { describe, expect, it } from 'vitest';
import { hostOf } from '../host/index.js';
import { estimateEffort, readBrief, resolveBrief, starterBrief } from './index.js';

describe('the effort of a brief', () => {
  it('grows with the plies, and a plate takes none', async () => {
    const starter = estimateEffort(await readBrief(starterBrief))!;
    const [least, most] = starter.reduction;
    expect(least).toBeGreaterThan(1);
    expect(most).toBeLessThan(10);
    expect(starter.memory).toBeLessThan(400);
    const thin = starterBrief
      .replace(/layup: \[45.*\]/, `layup: [${Array(40).fill('0, 90')}]`)
      .replace('plyThickness: 0.3 ', 'plyThickness: 0.03 ');
    const many = estimateEffort(await readBrief(thin))!;
    expect(many.reduction[0]).toBeGreaterThan(2 * least);
    expect(many.check).toBeGreaterThan(3 * starter.check);
    expect(many.memory).toBeGreaterThan(starter.memory);
    expect(
      estimateEffort({ ...(await readBrief(starterBrief)), joint: { kind: 'plate', material: {} } as never }),
    ).toBeUndefined();
  });

  const laminate = (more: object, channel = {}) =>
    resolveBrief({
      host: {
        kind: 'laminate',
        layup: '[90_2/0_2]2s',
        plyThickness: 0.2,
        pocket: { made: 'drape', above: 8 },
        ...more,
      },
      loads: { bend: { moment: 100 } },
      channel: { families: ['ellipse'], wall: 0.05, edgeRadius: 0.06, ...channel },
    });

  it('is told of laminates and grows with their width and with thin walls', async () => {
    const usual = estimateEffort(await laminate({}))!;
    expect(usual.reduction[0]).toBeGreaterThan(2);
    expect(usual.reduction[1]).toBeLessThan(6);
    const wide = estimateEffort(await laminate({ width: 400 }))!;
    expect(wide.reduction[0]).toBeGreaterThan(2 * usual.reduction[0]);
    expect(wide.check).toBeGreaterThan(2 * usual.check);
    const thin = estimateEffort(await laminate({}, { wall: 0.015, edgeRadius: 0.015 }))!;
    expect(thin.memory).toBeGreaterThan(3 * usual.memory);
  });

  it('refuses walls of next to nothing before anything is laid out for them', async () => {
    const { joint } = await laminate({});
    for (const wall of [5e-324, 1e-300, 1e-9]) {
      await expect(laminate({}, { wall, edgeRadius: wall })).rejects.toThrow(
        /channel.wall: expected at least .*; ask for a wall that can be made/,
      );
      expect(() => hostOf(joint).size!({ wall, edgeRadius: wall })).toThrow(
        /channel.wall: expected walls and edge radii that take at most 100000 edges.*, received wall .*; ask for more of both/,
      );
    }
  });

  it('refuses a wall in a tee that is too thin for its mesh, and solves the thinnest that is not', {
    tags: 'long',
    timeout: 300_000,
  }, async () => {
    const thin = (wall: number, edgeRadius: number) =>
      readBrief(
        starterBrief
          .replace(/wall: [\d.]+/, `wall: ${wall}`)
          .replace(/edgeRadius: [\d.]+/, `edgeRadius: ${edgeRadius}`),
      );
    for (const wall of [5e-324, 1e-12, 1.9e-4])
      await expect(thin(wall, 0.25)).rejects.toThrow(/channel.wall: expected at least 0.0002 mm/);
    const { joint, channel } = await thin(2e-4, 1e-300);
    const { loads } = hostOf(joint).reduce(channel);
    for (const { undisturbed } of loads) expect(undisturbed.every(Number.isFinite)).toBe(true);
  });

  it('refuses beyond 1 GB or a minute, with the size', async () => {
    await expect(laminate({}, { wall: 0.008, edgeRadius: 0.008 })).rejects.toThrow(
      /channel.wall: expected a section that is solved within 60 s and 1 GB.*, received one of about [\d,]+ elements \(\d+ s, \d\.\d GB\).*ask for more channel.wall/,
    );
    await expect(laminate({}, { wall: 0.002, edgeRadius: 0.002 })).rejects.toThrow(
      /channel.wall: expected a section that is solved within 60 s and 1 GB.*ask for more channel.wall/,
    );
    await expect(laminate({ width: 5000 })).rejects.toThrow(
      /host: expected .*40,000 triangles.*, received one of about [\d,]+ elements .*take a shorter section/,
    );
  });
});
