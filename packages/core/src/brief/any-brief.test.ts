import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { holdsFor, settle } from '../../../../test/fixtures/fuzz.js';
import { discInSheet, meshText } from '../../../../test/fixtures/mesh-text.js';
import { InputError } from '../errors.js';
import { hostOf } from '../host/index.js';
import { estimateEffort, readBrief, readBriefText, resolveBrief, starterBrief } from './index.js';

const example = (name: string) =>
  readFileSync(fileURLToPath(new URL(`../../../../test/examples/${name}.yaml`, import.meta.url)), 'utf8');

const plate = `host: { kind: plate, material: generic-epoxy-resin }
loads: { farField: { sx: 10, sy: 4 }, pressure: { pressure: 1 } }
cases: { pulled: { farField: 1, pressure: 0.5 } }
channel: { families: [ellipse, spline], largest: { width: 8, height: 8 }, edgeRadius: 0.05, mirror: false }
scatter: { distribution: normal, samples: 20 }
`;

const disc = `host:
  kind: section
  mesh: disc.msh
  filler: filler
  surfaces:
    filler: { material: generic-epoxy-resin }
    wrap: { material: generic-carbon-epoxy, angle: 0, tangent: { along: seam } }
    sheet: { material: generic-carbon-epoxy, angle: 90, tangent: 20 }
  supports: { bottom: { hold: [x, y], under: all } }
  loads: { lift: { top: [0, 1] } }
loads: { lift: { force: 50 }, cure: { deltaT: -80 } }
cases: { cured: { cure: 1 }, lifted: { cure: 1, lift: 1 } }
channel: { wall: 0.2, edgeRadius: 0.2 }
`;
const mesh = meshText(discInSheet({ radius: 2, wrap: 0.5, half: 8, around: 16, rows: 2 }));
const textOf = (file: string) => {
  if (file === 'disc.msh') return mesh;
  throw new InputError({ path: file, expected: 'a mesh', received: 'no such file', remedy: 'check the name' });
};

/** One of every host, of pockets made both ways, and of two channels. */
const texts: Readonly<Record<string, string>> = {
  starter: starterBrief,
  laminate: example('pocket'),
  'pocket in a bend': example('pocket-in-bend'),
  'two channels': example('two-channels'),
  row: example('row'),
  'a pocket as high as its channel': example('pocket-heights'),
  choices: example('choices'),
  plate,
  section: disc,
};
const briefs = await Promise.all(Object.values(texts).map(async (text) => (await readBriefText(text)).data));

/** What must hold of every brief that is accepted. */
async function isSound(brief: ReturnType<typeof resolveBrief>): Promise<void> {
  const { joint, cautions } = await brief;
  const { summary } = hostOf(joint);
  const effort = estimateEffort(await brief);
  const said = [...cautions, ...summary.flat(), ...[effort ?? []].flat().flatMap((one) => Object.values(one).flat())];
  expect(said.filter((one) => !one || /NaN|undefined|Infinity|\[object/.test(String(one)))).toEqual([]);
}

/** Values that have upset readers before. */
const oddValue = fc.oneof(
  fc.constantFrom(null, true, 0, -0, -1, 1e-300, 1e300, Number.NaN, Number.POSITIVE_INFINITY, '', '5', 'tee', [], {}),
  fc.double(),
  fc.string(),
  fc.array(fc.double(), { maxLength: 4 }),
  fc.dictionary(fc.string(), fc.integer(), { maxKeys: 3 }),
);

type Path = readonly (string | number)[];

/** Every place in the data of a brief. */
function placesOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  const below = Object.entries(value).flatMap(([key, part]) =>
    placesOf(part, [...path, Array.isArray(value) ? Number(key) : key]),
  );
  return [path, ...below];
}

const valueAt = (data: unknown, path: Path): unknown =>
  path.reduce<unknown>((value, step) => (value as Record<string | number, unknown> | undefined)?.[step], data);

/** A copy with another value at a place; `undefined` takes its key away. A place that an earlier change took away is left alone. */
function withValue(data: unknown, path: Path, value: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (typeof data !== 'object' || data === null) return data;
  const copy = (Array.isArray(data) ? [...data] : { ...data }) as Record<string | number, unknown>;
  copy[step] = withValue(copy[step], rest, value);
  if (copy[step] === undefined) {
    if (Array.isArray(copy)) copy.splice(Number(step), 1);
    else delete copy[step];
  }
  return copy;
}

type Change = (data: unknown) => unknown;

/** Places of any brief, and what is done there. */
const places = briefs.flatMap((data, brief) => placesOf(data).map((path) => ({ brief, path })));
const place = fc.constantFrom(...places);
const change: fc.Arbitrary<(own: Path) => Change> = fc.oneof(
  oddValue.map((value) => (own: Path) => (data: unknown) => withValue(data, own, value)),
  fc.constant((own: Path) => (data: unknown) => withValue(data, own, undefined)),
  // Sound parts of other briefs, or of another place.
  place.map(
    ({ brief, path }) =>
      (own: Path) =>
      (data: unknown) =>
        withValue(data, own, valueAt(briefs[brief], path)),
  ),
  place.map(
    ({ brief, path }) =>
      () =>
      (data: unknown) =>
        withValue(data, path, valueAt(briefs[brief], path)),
  ),
  // Numbers near the given ones: what is accepted must be sound too.
  fc.double({ min: -3, max: 3, noNaN: true }).map((power) => (own: Path) => (data: unknown) => {
    const value = valueAt(data, own);
    return typeof value === 'number' ? withValue(data, own, value * 10 ** power) : data;
  }),
  fc
    .string()
    .map((key) => (own: Path) => (data: unknown) => withValue(data, [...own.slice(0, -1), key], valueAt(data, own))),
);

/** A brief after one to three changes, each at a place of its own. */
const changed = fc
  .nat(briefs.length - 1)
  .chain((brief) =>
    fc
      .array(fc.tuple(fc.constantFrom(...placesOf(briefs[brief])), change), { minLength: 1, maxLength: 3 })
      .map((changes) => changes.reduce<unknown>((data, [path, changeAt]) => changeAt(path)(data), briefs[brief])),
  );

const inserted = fc.oneof(
  fc.string(),
  fc.constantFrom(
    '\n',
    '- ',
    '{',
    '[',
    ':',
    '&a ',
    '*a',
    '!!',
    '"',
    '\t',
    '? ',
    '|',
    'null',
    '.nan',
    '-',
    '1e999',
    '{}',
  ),
);
const edited = fc
  .constantFrom(...Object.values(texts))
  .chain((text) =>
    fc
      .tuple(fc.nat(text.length), fc.nat(60), inserted)
      .map(([at, removed, added]) => text.slice(0, at) + added + text.slice(at + removed)),
  );

it('out of any text comes a brief or a complete error', () =>
  holdsFor(100, [fc.oneof({ weight: 1, arbitrary: fc.string() }, { weight: 3, arbitrary: edited })], (text) =>
    settle(() => isSound(readBrief(text, { file: 'any.yaml', textOf }))),
  ));

it('out of any changes of a brief comes a brief or a complete error', () =>
  holdsFor(250, [changed], (data) => settle(() => isSound(resolveBrief(data, { textOf })))));
