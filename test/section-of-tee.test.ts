import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hostOf, type SectionJoint } from '../packages/core/src/host/index.js';
import { createStressModel, meshedStress } from '../packages/core/src/stress/index.js';
import { meshOf } from './fixtures/section-joints.js';
import { teeGeometry, teeSurfaces } from './fixtures/tee-geometry.js';
import { ellipseNodes, referenceJoint } from './fixtures/tee-reference.js';

/** Debian's: apt-get install -y gmsh */
const hasMesher = spawnSync('gmsh', ['-version']).status === 0;

const wish = { wall: 0.12, edgeRadius: 0.12 };
const loads = { cure: { deltaT: -155 }, pressure: { pressure: 5 }, pull: { force: 100 }, side: { force: 10 } };
const outlines = [
  ellipseNodes(0.4, 0.3, [0.1, 1.2], 0.5, 128),
  ellipseNodes(0.5, 0.35, [1.2, 0.6], -0.1, 128),
  ellipseNodes(0.8, 0.8, [0, 1.1], 0, 128),
  ellipseNodes(1.5, 0.4, [0, 0.6], 0, 128),
];

describe.runIf(hasMesher)('a tee that is meshed elsewhere', { timeout: 180_000 }, () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'lumenfront-section-'));
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  const meshed = (order: 'complete' | 'incomplete'): SectionJoint => {
    const [geometry, mesh] = [join(folder, 'tee.geo'), join(folder, `${order}.msh`)];
    writeFileSync(geometry, teeGeometry(referenceJoint, { bend: 60, base: 80, layer: 1 }, order));
    const { status, stdout } = spawnSync('gmsh', ['-2', geometry, '-o', mesh], { encoding: 'utf8' });
    expect(status, stdout).toBe(0);
    return {
      kind: 'section',
      mesh: meshOf(readFileSync(mesh, 'utf8'), 'tee.msh'),
      filler: 'filler',
      surfaces: teeSurfaces(referenceJoint),
      supports: ['left-end', 'right-end'].map((curve) => ({ curve, hold: ['x', 'y'], under: 'loads' })),
      loads: {
        pull: [{ curve: 'web-top', force: [0, 1] }],
        side: [{ curve: 'web-top', force: [1, 0] }],
      },
    };
  };
  const peaks = (joint: Parameters<typeof hostOf>[0]) => {
    const stress = createStressModel(hostOf(joint).reduce(wish), loads, []);
    return outlines.map((nodes) => {
      const { loads: found } = stress.evaluate(nodes, false);
      return Object.fromEntries(stress.loads.map((name, l) => [name, { ...found[l]! }]));
    });
  };

  let expected: ReturnType<typeof peaks> | undefined;
  it.each(['complete', 'incomplete'] as const)(
    'has the peaks of the tee within half a percent, quadrilaterals %s',
    (order) => {
      expected ??= peaks(referenceJoint);
      peaks(meshed(order)).forEach((found, k) => {
        for (const [name, { peak, least }] of Object.entries(expected![k]!)) {
          const scale = Math.max(Math.abs(peak), Math.abs(least));
          expect(Math.abs(found[name]!.peak - peak) / scale, `${k} ${name}`).toBeLessThan(0.005);
          expect(Math.abs(found[name]!.least - least) / scale, `${k} ${name}`).toBeLessThan(0.005);
        }
      });
    },
  );

  it('agrees with cubic triangles of the whole section, and with the tee’s own', () => {
    const nodes = ellipseNodes(0.5, 0.35, [1.2, 0.6], -0.1, 256);
    const [own, theirs] = [referenceJoint, meshed('complete')].map((joint) =>
      meshedStress(joint, loads, [], nodes, { coarseness: 2 }),
    );
    for (const name of Object.keys(loads))
      expect(Math.abs(theirs!.loads[name]!.peak / own!.loads[name]!.peak - 1), name).toBeLessThan(0.005);
  });
});
