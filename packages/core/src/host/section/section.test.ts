import { describe, expect, it } from 'vitest';
import { discInSheet, meshText } from '../../../../../test/fixtures/mesh-text.js';
import { discJoint, meshOf } from '../../../../../test/fixtures/section-joints.js';
import { ellipseNodes } from '../../../../../test/fixtures/tee-reference.js';
import { InputError } from '../../errors.js';
import { createStressModel, meshedStress } from '../../stress/index.js';
import { hostOf, type SectionJoint } from '../index.js';
import { readSection } from './body.js';
import { controlContour } from './contour.js';
import { divide } from './division.js';
import { areaOf, boxOf, polygonBorder } from './outline-border.js';

/** A thick wall takes few edges of a contour: what is asked here asks no more. */
const wish = { wall: 0.19, edgeRadius: 0.1 };

describe('a section that is meshed elsewhere', () => {
  // Peaks in closed form: `test/published/goodier.ts`.
  it('is the same with plies round a point, along the curve about it, and with quadrilaterals of eight nodes', {
    tags: 'long',
    timeout: 120_000,
  }, () => {
    const joint = discJoint();
    const around: SectionJoint = {
      ...joint,
      mesh: meshOf(meshText(discInSheet({ radius: 2, wrap: 0.5, half: 8, around: 48, rows: 8, nodes: 8 }))),
      surfaces: { ...joint.surfaces, wrap: { ...joint.surfaces.wrap!, tangent: { around: [0, 0] } } },
    };
    const loads = { cure: { deltaT: -100 }, lift: { force: 100 } };
    const nodes = ellipseNodes(0.7, 0.35, [0.5, -0.3], 0.4, 128);
    const [first, second] = [joint, around].map((one) =>
      createStressModel(hostOf(one).reduce(wish), loads, [])
        .evaluate(nodes, false)
        .loads.map(({ peak }) => peak),
    );
    first!.forEach((peak, l) => {
      expect(Math.abs(second![l]! / peak - 1)).toBeLessThan(1e-4);
    });
  });

  // Free to shrink, nothing is stressed: what the solution has of it is rounding, of which degrees may differ by as much as it is.
  it('is not in doubt where all is of one material, which no cure stresses', { tags: 'long', timeout: 60_000 }, () => {
    const joint = discJoint();
    const { filler } = joint.surfaces;
    const uniform: SectionJoint = { ...joint, surfaces: { filler: filler!, wrap: filler!, sheet: filler! } };
    const model = hostOf(uniform).reduce(wish);
    expect(model.accuracy).toBeLessThan(0.001);
    const { loads } = createStressModel(model, { cure: { deltaT: -100 } }, []).evaluate(
      ellipseNodes(0.7, 0.35, [0.5, -0.3], 0.4, 128),
      false,
    );
    expect(Math.max(Math.abs(loads[0]!.peak), Math.abs(loads[0]!.least))).toBeLessThan(1e-9);
  });

  it('refuses a filler that is no surface of the mesh', () => {
    expect(() => readSection({ ...discJoint(), filler: 'core' })).toThrow(
      /surface core with one border all round, .*received no such surface among filler, wrap, sheet/,
    );
  });

  it('keeps the contour between the border and every admissible channel', () => {
    const { border, box } = readSection(discJoint());
    const contour = controlContour(border, box, wish);
    // The border is a circle of radius 2: so is the contour, inset by 0.6 walls.
    for (let i = 0; i < contour.x.length; i++)
      expect(Math.hypot(contour.x[i]!, contour.y[i]!)).toBeCloseTo(2 - 0.6 * wish.wall, 3);
    expect(areaOf(contour)).toBeGreaterThan(0);
    expect(contour.x.length / 2).toBeGreaterThanOrEqual(4 * contour.degree);
    expect(contour.distance(0.4, 0.3)).toBeCloseTo(2 - 0.6 * wish.wall - 0.5, 3);
    expect(() => controlContour(border, box, { wall: 1.5, edgeRadius: 0.5 })).toThrow(InputError);
  });

  it('finds the smallest room, and refuses a wall that leaves none', () => {
    const corners = { x: [0, 4, 2], y: [0, 0, 2 * Math.sqrt(3)] };
    const [border, box] = [polygonBorder(corners), boxOf(corners)];
    const radius = 2 / Math.sqrt(3);
    const { x } = controlContour(border, box, { wall: 0.659 * radius, edgeRadius: 0.3 * radius });
    expect(x.length).toBeGreaterThan(200);
    for (const wall of [0.97 * radius, -1, 0, Number.NaN])
      expect(() => controlContour(border, box, { wall, edgeRadius: 0 })).toThrow(
        /expected wall > 0, .*: reduce wall or edgeRadius/,
      );
  });

  it('divides elements without gaps: areas and named curves stay', () => {
    const { file } = readSection(discJoint());
    const division = divide(file);
    const area = () =>
      division.faces().reduce((sum, { corners }) => {
        const of = (v: readonly number[]) => corners.map((corner) => v[corner]!);
        return sum + areaOf({ x: of(division.x), y: of(division.y) });
      }, 0);
    const before = division.faces().length;
    division.refine((x, y) => 0.02 + 0.2 * Math.abs(Math.hypot(x - 2, y) - 0.2));
    expect(division.faces().length).toBeGreaterThan(2 * before);
    // Corners on curved sides move outwards and inwards alike: the whole is a square.
    expect(area()).toBeCloseTo(256, 9);
    const round = division.curve('seam');
    expect(round.length).toBeGreaterThan(48);
    for (const corner of round.flat()) expect(Math.hypot(division.x[corner]!, division.y[corner]!)).toBeCloseTo(2, 3);
    // Every side has one face or two, and none has a corner of another within it.
    const least = Math.min(...division.faces().map(({ corners }) => corners.length));
    expect(least).toBe(3);
  });

  it('refuses loads that nothing holds, in which direction', () => {
    const joint = discJoint();
    const bodyless = { ...joint, supports: [] };
    expect(() => hostOf(bodyless).reduce(wish)).toThrow(/host.loads.lift: .* moving along y/);
    const guided: SectionJoint = {
      ...joint,
      supports: [{ curve: 'bottom', hold: ['y'], under: 'loads' }],
      loads: { ...joint.loads, shove: [{ curve: 'top', force: [1, 0] }] },
    };
    expect(() => hostOf(guided).reduce(wish)).toThrow(/host.loads.shove: .* moving along x/);
  });

  it('refuses a channel that leaves the filler', () => {
    const nodes = ellipseNodes(0.7, 0.35, [1.6, -0.3], 0.4, 128);
    expect(() => meshedStress(discJoint(), { cure: { deltaT: -1 } }, [], nodes, { coarseness: 2 })).toThrow(InputError);
  });
});
