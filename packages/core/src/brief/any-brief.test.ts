import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { anyChange } from '../../../../test/fixtures/any-change.js';
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

const beside = example('pocket-beside-filler');
const knownChannel = '{ at: [0, 1.4], width: 0.7, height: 0.5 }';
const circle = Array.from({ length: 48 }, (_, i) => {
  const angle = (2 * Math.PI * i) / 48;
  return [0.3 * Math.cos(angle), 1.4 + 0.3 * Math.sin(angle)];
});
const channel = JSON.stringify({ points: circle });
const textOf = (file: string) => {
  if (file === 'disc.msh') return mesh;
  if (file === 'channel.json') return channel;
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
  'cracks out of a pocket': `${example('pocket')}
strength: { crackGrowth: { length: 0.4, modeI: 0.2, modeII: 0.6 } }
`,
  'a known channel beside the pocket': beside,
  'a known channel of points': beside.replace(knownChannel, `{ points: ${JSON.stringify(circle)} }`),
  'a known channel of a file': beside.replace(knownChannel, '{ file: channel.json }'),
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
  holdsFor(40, [fc.oneof({ weight: 1, arbitrary: fc.string() }, { weight: 3, arbitrary: edited })], (text) =>
    settle(() => isSound(readBrief(text, { file: 'any.yaml', textOf }))),
  ));

it('out of any changes of a brief comes a brief or a complete error', () =>
  holdsFor(60, [anyChange(briefs)], (data) => settle(() => isSound(resolveBrief(data, { textOf })))));
