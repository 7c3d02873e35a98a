import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { readBrief } from '../brief/index.js';
import { InputError, UnmetError } from '../errors.js';
import { type Curve, createFamily, familyNames, fitPoints, outlineOf } from '../outline/index.js';
import { channelRoom, createChannelReporter } from './index.js';

/** A few seconds in the suite; `benchmarks/fuzz.js` asks for more. */
const runs = (usual: number) => ({
  seed: Number(process.env.FUZZ_SEED ?? 1),
  numRuns: Math.round(usual * Number(process.env.FUZZ_TIMES ?? 1)),
});

const brief = await readBrief(`host: { kind: plate }
loads: { farField: { sx: 10, sy: 4 }, pressure: { pressure: 1 } }
channel: { families: [ellipse], largest: { width: 8, height: 8 }, edgeRadius: 0.05, mirror: false }
`);
const task = preparedTask(brief);
const report = createChannelReporter(task);

/** Either a finite design, or an error that says what to do: nothing else may come out. */
function settles(outline: () => Curve): void {
  try {
    const { design } = report(outline());
    for (const value of [design.area, design.perimeter, design.peak, design.minEdgeRadius, design.conductance])
      if (!Number.isFinite(value)) throw new Error(`not finite: ${JSON.stringify(design)}`);
    expect(design.area).toBeGreaterThan(0);
  } catch (error) {
    if (error instanceof UnmetError) expect(error.message).not.toMatch(/NaN|undefined/);
    else if (!(error instanceof InputError)) throw error;
    else
      for (const { path, expected, received, remedy } of error.problems)
        expect([path, expected, received, remedy].every(Boolean)).toBe(true);
  }
}

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

describe('whatever outline is given', () => {
  it('as points, a finite design or a complete error comes out', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.keys(shapes)),
        fc.integer({ min: 0, max: 200 }),
        fc.array(mishap, { maxLength: 3 }),
        (shape, count, mishaps) => {
          const points = mishaps.reduce((done, next) => (done.length === 0 ? done : next(done)), shapes[shape]!(count));
          settles(() => fitPoints(points));
        },
      ),
      runs(150),
    );
  });

  it('as points that are none, a complete error comes out', () => {
    const odd = fc.oneof(number, fc.string(), fc.constant(null), fc.array(number, { maxLength: 3 }));
    fc.assert(
      fc.property(fc.array(fc.oneof(odd, fc.tuple(number, number)), { maxLength: 60 }), (points) =>
        settles(() => fitPoints(points as Points)),
      ),
      runs(200),
    );
  });

  it('as a million points, it is refused at once', () => {
    expect(() => fitPoints(shapes.circle!(1e6))).toThrow(/at most 10000 points, received 1000000/);
  });

  it.each(familyNames)('as parameters of a family, a finite design or a complete error comes out: %s', (family) => {
    const room = { ...channelRoom(task), bendRadius: 5 };
    const { parameters } = createFamily(family, room);
    const value = (lower: number, upper: number) =>
      fc.oneof(
        { weight: 20, arbitrary: fc.double({ min: lower, max: upper, noNaN: true }) },
        { weight: 2, arbitrary: fc.constantFrom(lower, upper, (lower + upper) / 2) },
        { weight: 1, arbitrary: number },
      );
    const values = fc.tuple(...parameters.map(({ lower, upper }) => value(lower, upper)));
    fc.assert(
      fc.property(values, (chosen) =>
        settles(() =>
          outlineOf(
            { family, parameters: Object.fromEntries(parameters.map(({ name }, i) => [name, chosen[i]!])) },
            room,
          ),
        ),
      ),
      runs(12),
    );
  });
});
