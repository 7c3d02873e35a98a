import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  isJudged,
  judgesOf,
  number,
  outlinesOf,
  points,
  reported,
  shapes,
} from '../../../../test/fixtures/any-outline.js';
import { holdsFor, settle } from '../../../../test/fixtures/fuzz.js';
import { readBrief, starterBrief } from '../brief/index.js';
import { type CurveNodes, curvatureParameters, fitCurvature, fitPoints, outlineOf } from '../outline/index.js';

const plate = judgesOf(
  await readBrief(`host: { kind: plate }
loads: { farField: { sx: 10, sy: 4 }, pressure: { pressure: 1 } }
channel: { families: [ellipse, teardrop, spline], largest: { width: 8, height: 8 }, edgeRadius: 0.05, mirror: false }
`),
);
const inTee = async (mirror: boolean) =>
  judgesOf(
    await readBrief(
      starterBrief
        .replace('[ellipse, teardrop, spline]', '[ellipse, teardrop, spline, inset]')
        .replace('mirror: true', `mirror: ${mirror}`),
    ),
  );
const hosts = [plate, await inTee(true), await inTee(false)];

describe('out of whatever outline is given comes a finite design or a complete error', () => {
  it('of points', () =>
    holdsFor(90, [points, reported], async (given, whole) => {
      const outline = await settle(() => fitPoints(given));
      if (outline !== undefined && whole) await plate.report(outline);
    }));

  it('of points that are none', () => {
    const odd = fc.oneof(number, fc.string(), fc.constant(null), fc.array(number, { maxLength: 3 }));
    return holdsFor(200, [fc.array(fc.oneof(odd, fc.tuple(number, number)), { maxLength: 60 })], (points) =>
      settle(() => fitPoints(points as [number, number][])),
    );
  });

  it('of a million points, at once', () => {
    expect(() => fitPoints(shapes.circle!(1e6))).toThrow(/at most 10000 points, received 1000000/);
  });

  it.each(['ellipse', 'teardrop', 'spline', 'inset'])('of parameters of a family: %s', (name) =>
    holdsFor(40, [outlinesOf(hosts, name), reported], isJudged),
  );

  it('of an outline by curvature with a number lost or changed', () => {
    const [lens] = plate.families;
    const ellipse = { ...lens!, place: (nodes: CurveNodes) => lens!.place([0, 0, 2, 1, 0], nodes) };
    const { outline, values } = fitCurvature(ellipse, 24, 0.05)!;
    const sound = curvatureParameters({ form: outline.form, values });
    const at = fc.constantFrom(...Object.keys(sound));
    const changed = fc.oneof(
      fc.tuple(at, number).map(([name, value]) => ({ ...sound, [name]: value })),
      fc
        .tuple(at, fc.double({ min: -2, max: 2, noNaN: true }))
        .map(([name, power]) => ({ ...sound, [name]: sound[name]! * 10 ** power })),
      at.map((name) => Object.fromEntries(Object.entries(sound).filter(([other]) => other !== name))),
      fc.tuple(fc.string(), number).map(([name, value]) => ({ ...sound, [name]: value })),
    );
    return holdsFor(60, [changed, reported], async (parameters, whole) => {
      const given = await settle(() => outlineOf({ family: 'spline', parameters }, plate.room));
      if (given !== undefined && whole) await plate.report(given);
    });
  });
});
