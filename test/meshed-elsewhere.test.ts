import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ChannelWish } from '../packages/core/src/brief/index.js';
import { createChannelReporter } from '../packages/core/src/channel/index.js';
import { hostOf, type ReducedModel, type SectionJoint, type TeeJoint } from '../packages/core/src/host/index.js';
import { createCurveNodes, outlineOf } from '../packages/core/src/outline/index.js';
import { createStrengthModel, meshedStrength, usualFatigueSlopes } from '../packages/core/src/strength/index.js';
import { createStressModel, meshedStress } from '../packages/core/src/stress/index.js';
import { reducedOnce } from './fixtures/reduced.js';
import { discJoint, meshOf } from './fixtures/section-joints.js';
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

describe.runIf(hasMesher)('a tee that is meshed elsewhere', { tags: 'long', timeout: 180_000 }, () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'lumenfront-section-'));
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  const meshed = (order: 'complete' | 'incomplete'): SectionJoint => {
    const [geometry, mesh] = [join(folder, 'tee.geo'), join(folder, `${order}.msh`)];
    writeFileSync(geometry, teeGeometry(referenceJoint, { bend: 40, base: 54, layer: 1 }, order));
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
  const peaks = (model: ReducedModel) => {
    const stress = createStressModel(model, loads, []);
    return outlines.map((nodes) => {
      const { loads: found } = stress.evaluate(nodes, false);
      return Object.fromEntries(stress.loads.map((name, l) => [name, { ...found[l]! }]));
    });
  };

  /** What fails first at the border of the filler, around a channel. */
  const borderFailures = (joint: TeeJoint | SectionJoint, model: ReducedModel) => {
    const cases = ['pull', 'side'].map((name) => ({ name, factors: { [name]: 1, cure: 1 } }));
    const edge = createStressModel(model, loads, cases).evaluate(outlines[1]!, false);
    return createStrengthModel(model, joint, loads, cases, { edge: 'peak' })
      .survey(edge)
      .map(({ places }) =>
        places.filter(({ place }) => place.endsWith('-interface')).reduce((a, b) => (b.factor < a.factor ? b : a)),
      );
  };

  let expected: ReturnType<typeof peaks> | undefined;
  it.each(['complete', 'incomplete'] as const)(
    'has the peaks of the tee within half a percent, and its failures at the filler, quadrilaterals %s',
    (order) => {
      const tee = reducedOnce(referenceJoint, wish);
      expected ??= peaks(tee);
      const joint = meshed(order);
      const model = hostOf(joint).reduce(wish);
      const theirs = borderFailures(referenceJoint, tee);
      borderFailures(joint, model).forEach(({ factor, x, y }, k) => {
        const other = theirs[k]!;
        expect(Math.abs(factor / other.factor - 1)).toBeLessThan(0.02);
        expect(Math.hypot(x - other.x, y - other.y)).toBeLessThan(0.2);
      });
      peaks(model).forEach((found, k) => {
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
      meshedStress(joint, loads, [], nodes, { coarseness: 3 }),
    );
    for (const name of Object.keys(loads))
      expect(Math.abs(theirs!.loads[name]!.peak / own!.loads[name]!.peak - 1), name).toBeLessThan(0.005);
  });

  it('serves a filler that is long and thin to one side, on degrees that its polynomials bear', () => {
    const [geometry, mesh] = [join(folder, 'needle.geo'), join(folder, 'needle.msh')];
    writeFileSync(geometry, needle);
    expect(spawnSync('gmsh', ['-2', geometry, '-o', mesh]).status).toBe(0);
    const { surfaces, ...others } = discJoint();
    const joint: SectionJoint = {
      ...others,
      mesh: meshOf(readFileSync(mesh, 'utf8')),
      surfaces: { filler: surfaces.filler!, sheet: surfaces.sheet! },
    };
    const model = hostOf(joint).reduce({ wall: 0.15, edgeRadius: 0.15 });
    expect(model.accuracy).toBeLessThan(0.02);
    const acting = { cure: { deltaT: -100 }, lift: { force: 100 } };
    const stress = createStressModel(model, acting, []).evaluate(ellipseNodes(0.4, 0.3, [-3, 0.7], 0.3, 128), false);
    const meshed = meshedStress(joint, acting, [], ellipseNodes(0.4, 0.3, [-3, 0.7], 0.3, 256), { coarseness: 2 });
    Object.keys(acting).forEach((name, l) => {
      expect(Math.abs(stress.loads[l]!.peak / meshed.loads[name]!.peak - 1), name).toBeLessThan(0.005);
    });
  });

  /** A filler in a block of plies, from its geometry: points, and the lines of its border. */
  const fillerIn = (name: string, border: string, lines: number): SectionJoint => {
    const [geometry, mesh] = [join(folder, `${name}.geo`), join(folder, `${name}.msh`)];
    writeFileSync(geometry, `${border}\n${blockAround(lines)}`);
    expect(spawnSync('gmsh', ['-2', geometry, '-o', mesh]).status).toBe(0);
    const { surfaces, ...others } = discJoint();
    return {
      ...others,
      mesh: meshOf(readFileSync(mesh, 'utf8')),
      surfaces: { filler: surfaces.filler!, sheet: surfaces.sheet! },
    };
  };

  // A mesh twice as coarse is itself 0.5 % off there. Polynomials alone are 13 % off beside the re-entrant corner, and eight degrees more leave 0.85 of that.
  it('is within half a percent all over an L, told so, by poles beyond its re-entrant corner', {
    timeout: 300_000,
  }, () => {
    const corners = [
      [-2, -2],
      [2, -2],
      [2, 0.2],
      [0.2, 0.2],
      [0.2, 2],
      [-2, 2],
    ] as const;
    const border = [
      ...corners.map(([x, y], k) => `Point(${k + 1}) = {${x}, ${y}, 0, 0.3};`),
      ...corners.map((_, k) => `Line(${k + 1}) = {${k + 1}, ${((k + 1) % corners.length) + 1}};`),
    ];
    const joint = fillerIn('L', border.join('\n'), 6);
    const model = hostOf(joint).reduce({ wall: 0.2, edgeRadius: 0.2 });
    const acting = { cure: { deltaT: -100 }, pressure: { pressure: 1 } };
    const channel = {
      wall: 0.2,
      edgeRadius: 0.2,
      mirror: false,
      families: [],
      reference: {},
    } as unknown as ChannelWish;
    const strength = { edge: 'peak', startsAwayFromEdge: false, fatigue: usualFatigueSlopes } as const;
    const cases = [{ name: 'cooled', factors: { cure: 1 } }];
    const report = createChannelReporter({ joint, loads: acting, cases, channel, strength, model });
    const room = hostOf(joint).wholeRoom({ mirror: false });
    const errorOf = (x: number, y: number, width: number, height: number) => {
      const outline = outlineOf({ family: 'ellipse', parameters: { x, y, width, height, turn: 0 } }, room);
      const { design } = report(outline);
      const nodes = createCurveNodes(256);
      outline.place(nodes);
      const meshed = meshedStress(joint, acting, [], nodes, { coarseness: 1 });
      const shares = Object.keys(acting).map((name) => design.loads[name]!.peak / meshed.loads[name]!.peak - 1);
      return { told: design.accuracy!, found: Math.max(...shares.map(Math.abs)) - meshed.error };
    };
    for (const { told, found } of [
      errorOf(1.1, -0.9, 0.9, 0.7),
      errorOf(-0.7, -0.7, 1.7, 1.7),
      errorOf(-0.55, -0.55, 1.3, 1.3),
    ]) {
      expect(found).toBeLessThan(told);
      expect(told).toBeLessThan(0.005);
    }
    // Of the model that is searched with, which the finer fields improve on.
    expect(model.accuracy).toBeLessThan(0.01);
    expect(model.basis.poles).toHaveLength(3 * 5);
    expect(model.basis.degree).toBe(28 + 5);
  });

  it('tells the strength around a Z with two re-entrant corners as its mesh does, by poles', () => {
    const corners = [
      [-3, -1.8],
      [0.9, -1.8],
      [0.9, 0.2],
      [3, 0.2],
      [3, 1.8],
      [-0.9, 1.8],
      [-0.9, -0.2],
      [-3, -0.2],
    ] as const;
    const border = [
      ...corners.map(([x, y], k) => `Point(${k + 1}) = {${x}, ${y}, 0, 0.3};`),
      ...corners.map((_, k) => `Line(${k + 1}) = {${k + 1}, ${((k + 1) % corners.length) + 1}};`),
    ];
    const joint = fillerIn('Z', border.join('\n'), 8);
    const wish = { wall: 0.2, edgeRadius: 0.2 };
    const model = hostOf(joint).reduce(wish);
    const acting = { cure: { deltaT: -100 }, lift: { force: 100 } };
    const cases = [
      { name: 'cooled', factors: { cure: 1 } },
      { name: 'lifted', factors: { cure: 0.3, lift: 1 } },
    ];
    const channel = { ...wish, mirror: false, families: [], reference: {} } as unknown as ChannelWish;
    const strength = { edge: 'peak', startsAwayFromEdge: false, fatigue: usualFatigueSlopes } as const;
    const report = createChannelReporter({ joint, loads: acting, cases, channel, strength, model });
    const fast = createStrengthModel(model, joint, acting, cases, { edge: 'peak' });
    const room = hostOf(joint).wholeRoom({ mirror: false });
    for (const [x, y, width, height] of [
      [0, 0, 1, 1.2],
      [-1.8, -1, 1.2, 1],
    ] as const) {
      const outline = outlineOf({ family: 'ellipse', parameters: { x, y, width, height, turn: 0 } }, room);
      const nodes = createCurveNodes(256);
      outline.place(nodes);
      const told = fast.survey(report(outline).edge);
      meshedStrength({ joint, loads: acting, cases, model }, nodes, { coarseness: 1.5 }).forEach(({ places }, c) => {
        expect(places).toHaveLength(4);
        for (const { place, factor } of places) {
          const own = told[c]!.places.find((one) => one.place === place)!.factor;
          expect(Math.abs(own / factor - 1), `${cases[c]!.name} ${place}`).toBeLessThan(0.015);
        }
      });
    }
  });

  it('tells waists of three lobes by poles, on a border that is meshed coarsely', () => {
    const points = Array.from({ length: 90 }, (_, k) => {
      const angle = (Math.PI * k) / 45;
      const r = 2 + Math.cos(3 * angle);
      return `Point(${k + 1}) = {${r * Math.cos(angle)}, ${r * Math.sin(angle)}, 0, 0.2};`;
    });
    const border = `${points.join('\n')}\nSpline(1) = {1:46}; Spline(2) = {46:90, 1};`;
    const joint = fillerIn('lobes', border, 2);
    const wish = { wall: 0.2, edgeRadius: 0.2 };
    const model = hostOf(joint).reduce(wish);
    expect(model.accuracy).toBeLessThan(0.005);
    const outline = ellipseNodes(0.5, 0.45, [-0.3, 0.35], 0, 128);
    const acting = { cure: { deltaT: -100 }, pressure: { pressure: 1 } };
    const { loads: found } = createStressModel(model, acting, []).evaluate(outline, false);
    const meshed = meshedStress(joint, acting, [], ellipseNodes(0.5, 0.45, [-0.3, 0.35], 0, 256), { coarseness: 2 });
    Object.keys(acting).forEach((name, l) => {
      expect(Math.abs(found[l]!.peak / meshed.loads[name]!.peak - 1), name).toBeLessThan(0.005);
    });
  });
});

/** The plies around a filler whose border has so many lines, and the names of all. */
const blockAround = (lines: number) => `
Point(101) = {-14, -14, 0, 1.6}; Point(102) = {14, -14, 0, 1.6}; Point(103) = {14, 14, 0, 1.6}; Point(104) = {-14, 14, 0, 1.6};
Line(101) = {101, 102}; Line(102) = {102, 103}; Line(103) = {103, 104}; Line(104) = {104, 101};
Curve Loop(1) = {1:${lines}}; Plane Surface(1) = {1};
Curve Loop(2) = {101, 102, 103, 104}; Plane Surface(2) = {2, 1};
Physical Surface("filler") = {1}; Physical Surface("sheet") = {2};
Physical Curve("bottom") = {101}; Physical Curve("right") = {102}; Physical Curve("top") = {103}; Physical Curve("left") = {104};
Mesh.ElementOrder = 2; Mesh.MshFileVersion = 4.1;
`;

/** A triangle of 15 degrees in a block. */
const needle = `
Point(1) = {-4, 0, 0, 0.3}; Point(2) = {4, 0, 0, 0.3}; Point(3) = {-4, 2.1, 0, 0.3};
Point(4) = {-12, -12, 0, 2}; Point(5) = {12, -12, 0, 2}; Point(6) = {12, 12, 0, 2}; Point(7) = {-12, 12, 0, 2};
Line(1) = {1, 2}; Line(2) = {2, 3}; Line(3) = {3, 1};
Line(4) = {4, 5}; Line(5) = {5, 6}; Line(6) = {6, 7}; Line(7) = {7, 4};
Curve Loop(1) = {1, 2, 3}; Plane Surface(1) = {1};
Curve Loop(2) = {4, 5, 6, 7}; Plane Surface(2) = {2, 1};
Physical Surface("filler") = {1}; Physical Surface("sheet") = {2};
Physical Curve("bottom") = {4}; Physical Curve("right") = {5}; Physical Curve("top") = {6}; Physical Curve("left") = {7};
Mesh.ElementOrder = 2; Mesh.MshFileVersion = 4.1;
`;
