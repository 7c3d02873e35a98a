import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holdsFor, settle } from '../../../../test/fixtures/fuzz.js';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { type ResolvedBrief, readBrief, starterBrief } from '../brief/index.js';
import {
  type Curve,
  type CurveNodes,
  curvatureParameters,
  fitCurvature,
  fitPoints,
  outlineOf,
} from '../outline/index.js';
import type { ChannelDesign } from '../result/index.js';
import { createChannelReporter, createChannelScorer, scoreAt, scoreSize, wholeRoom } from './index.js';

type Points = [number, number][];

const around =
  (radius: (angle: number) => number) =>
  (count: number): Points =>
    Array.from({ length: count }, (_, i) => {
      const angle = (2 * Math.PI * i) / count;
      return [radius(angle) * Math.cos(angle), radius(angle) * Math.sin(angle)];
    });

/** Sound outlines and unsound ones: figures of eight, needles, cusps, polygons, lobes that meet. */
const shapes: Readonly<Record<string, (count: number) => Points>> = {
  circle: around(() => 1),
  lobes: around((angle) => 1 + 0.4 * Math.cos(3 * angle)),
  crossing: around((angle) => 0.3 + Math.cos(2 * angle)),
  square: around((angle) => 1 / Math.max(Math.abs(Math.cos(angle)), Math.abs(Math.sin(angle)))),
  needle: (count) => around(() => 1)(count).map(([x, y]) => [3 * x, 0.01 * y]),
  cusp: (count) => around(() => 1)(count).map(([x, y]) => [x ** 3, y ** 3]),
  eight: (count) => around(() => 1)(count).map(([x, y]) => [x, x * y]),
  bean: around((angle) => 1 - 0.9 * Math.cos(angle)),
  segment: (count) => Array.from({ length: count }, (_, i) => [i, 0]),
};

const number = fc.oneof(
  fc.double(),
  fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, 0, -0, 1e-300, 1e300, 5e-324, Number.MAX_VALUE),
);

/** What happens to points on their way. */
const mishap: fc.Arbitrary<(points: Points) => Points> = fc.oneof(
  fc.constant((points: Points) => points),
  fc.constant((points: Points) => [...points].reverse()),
  fc.constant((points: Points) => [...points, points[0] ?? [0, 0]]),
  fc.constant((points: Points) => points.flatMap((point) => [point, point])),
  fc.constant((points: Points) => [...points, ...points]),
  fc
    .integer({ min: 0, max: 6 })
    .map(
      (decimals) => (points: Points) =>
        points.map(([x, y]): [number, number] => [Number(x.toFixed(decimals)), Number(y.toFixed(decimals))]),
    ),
  fc
    .double({ min: -12, max: 12, noNaN: true })
    .map((power) => (points: Points) => points.map(([x, y]): [number, number] => [x * 10 ** power, y * 10 ** power])),
  fc.tuple(fc.nat(), fc.nat()).map(([i, j]) => (points: Points) => {
    const moved = [...points];
    const [a, b] = [i % (points.length || 1), j % (points.length || 1)];
    [moved[a], moved[b]] = [points[b] ?? [0, 0], points[a] ?? [0, 0]];
    return moved;
  }),
  fc.tuple(fc.nat(), number, number).map(
    ([at, x, y]) =>
      (points: Points) =>
        points.with(at % (points.length || 1), [x, y]),
  ),
  fc
    .double({ min: 0, max: 0.2, noNaN: true })
    .map(
      (size) => (points: Points) =>
        points.map(([x, y], i): [number, number] => [x + size * Math.sin(i * i), y + size * Math.cos(3 * i * i)]),
    ),
);

/** Mostly all over the bounds, sometimes at them or at their middle, rarely any number. */
const between = (lower: number, upper: number) =>
  fc.oneof(
    { weight: 20, arbitrary: fc.double({ min: lower, max: upper, noNaN: true }) },
    { weight: 2, arbitrary: fc.constantFrom(lower, upper, (lower + upper) / 2) },
    { weight: 1, arbitrary: number },
  );

/** Of one outline in so many all is evaluated that a report tells: a wild one takes a thousand nodes. */
const reportedOf = 20;
const reported = fc.nat(reportedOf - 1).map((drawn) => drawn === 0);

/** What scores and reports outlines of all families in one joint. */
function judgesOf(brief: ResolvedBrief) {
  const task = preparedTask(brief);
  const room = { ...wholeRoom(task), mirror: brief.channel.mirror };
  const scorer = createChannelScorer(task);
  const report = createChannelReporter(task);
  return {
    room,
    families: scorer.families,
    score(family: number, values: ArrayLike<number>) {
      const score = new Float64Array(scoreSize);
      scorer.score(family, values, score);
      return score;
    },
    /** Finite, or refused in words. */
    report: (outline: Curve) =>
      settle(() => {
        const { design } = report(outline);
        for (const value of [design.area, design.perimeter, design.peak, design.minEdgeRadius, design.conductance])
          if (!Number.isFinite(value)) throw new Error(`not finite: ${JSON.stringify(design)}`);
        expect(design.area).toBeGreaterThan(0);
        return design;
      }),
  };
}

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

/** That a score is one: numbers, and none of a stress where a limit is missed. */
function isScore(score: Float64Array): void {
  const { peak, cost, ...others } = scoreAt;
  for (const at of Object.values(others)) expect(score[at], `${score}`).not.toBeNaN();
  const missed = [scoreAt.room, scoreAt.edgeRadius, scoreAt.crossing].some((at) => score[at]! > 0);
  if (missed) expect([score[peak], score[cost]]).toEqual([0, 0]);
}

const isAdmissible = (score: Float64Array) =>
  [scoreAt.room, scoreAt.edgeRadius, scoreAt.crossing].every((at) => score[at]! <= 0) &&
  Number.isFinite(score[scoreAt.peak]!);

/** What a search may go by beside what it tells: a score within one part in a hundred of the report, as a share of the largest hoop stress, unless the report itself is in doubt. */
function agree(score: Float64Array, design: ChannelDesign): void {
  const { peak, least } = design.cases[design.worstCase]!;
  const difference = Math.abs(score[scoreAt.peak]! - design.peak) / Math.max(Math.abs(peak), Math.abs(least));
  if (!(Math.max(Math.abs(design.change), design.accuracy ?? 0) > 0.01)) expect(difference).toBeLessThan(0.01);
}

describe('out of whatever outline is given comes a finite design or a complete error', () => {
  it('of points', () =>
    holdsFor(
      150,
      [
        fc.constantFrom(...Object.keys(shapes)),
        fc.integer({ min: 0, max: 200 }),
        fc.array(mishap, { maxLength: 3 }),
        reported,
      ],
      async (shape, count, mishaps, whole) => {
        const points = mishaps.reduce((done, next) => (done.length === 0 ? done : next(done)), shapes[shape]!(count));
        const outline = await settle(() => fitPoints(points));
        if (outline !== undefined && whole) await plate.report(outline);
      },
    ));

  it('of points that are none', () => {
    const odd = fc.oneof(number, fc.string(), fc.constant(null), fc.array(number, { maxLength: 3 }));
    return holdsFor(200, [fc.array(fc.oneof(odd, fc.tuple(number, number)), { maxLength: 60 })], (points) =>
      settle(() => fitPoints(points as Points)),
    );
  });

  it('of a million points, at once', () => {
    expect(() => fitPoints(shapes.circle!(1e6))).toThrow(/at most 10000 points, received 1000000/);
  });

  it.each(['ellipse', 'teardrop', 'spline', 'inset'])('of parameters of a family: %s', (name) => {
    const made = hosts.flatMap(({ families }, host) =>
      families.flatMap((family, at) => (family.name === name ? [{ host: hosts[host]!, family, at }] : [])),
    );
    const outline = fc.nat(made.length - 1).chain((one) =>
      fc.record({
        one: fc.constant(one),
        values: fc.tuple(...made[one]!.family.parameters.map(({ lower, upper }) => between(lower, upper))),
        // A third of the way out from the middle, most outlines of many parameters are channels.
        spread: fc.constantFrom(1, 1, 0.3, 0.1),
      }),
    );
    return holdsFor(40, [outline, reported], async ({ one, values, spread }, whole) => {
      const { host, family, at } = made[one]!;
      const chosen = family.parameters.map(({ lower, upper }, i) => {
        const middle = (lower + upper) / 2;
        return middle + spread * (values[i]! - middle);
      });
      const parameters = Object.fromEntries(family.parameters.map(({ name }, i) => [name, chosen[i]!]));
      const given = await settle(() => outlineOf({ family: name, parameters }, host.room));
      // A given outline may lie in more than the room of a search.
      const searched = family.parameters.every(({ lower, upper }, i) => chosen[i]! >= lower && chosen[i]! <= upper);
      if (given === undefined) return;
      if (!searched) {
        if (whole) await host.report(given);
        return;
      }
      const score = host.score(at, chosen);
      isScore(score);
      if (!whole) return;
      const design = await host.report(given);
      if (!isAdmissible(score)) return;
      expect(design).toBeDefined();
      agree(score, design!);
    });
  });

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
