import fc from 'fast-check';
import { expect, it } from 'vitest';
import { holdsFor, settle } from '../../../../../test/fixtures/fuzz.js';
import { discInSheet, meshText } from '../../../../../test/fixtures/mesh-text.js';
import { resolveBrief } from '../../brief/index.js';
import { hostOf } from '../index.js';

const sound = meshText(discInSheet({ radius: 2, wrap: 0.5, half: 8, around: 16, rows: 2 })).split('\n');
const brief = {
  host: {
    kind: 'section',
    mesh: 'disc.msh',
    filler: 'filler',
    surfaces: {
      filler: { material: 'generic-epoxy-resin' },
      wrap: { material: 'generic-carbon-epoxy', angle: 0, tangent: { along: 'seam' } },
      sheet: { material: 'generic-carbon-epoxy', angle: 90, tangent: 20 },
    },
    supports: { bottom: { hold: ['x', 'y'], under: 'all' } },
    loads: { lift: { top: [0, 1] } },
  },
  loads: { lift: { force: 50 }, cure: { deltaT: -80 } },
  channel: { wall: 0.2, edgeRadius: 0.2 },
};

type Lines = readonly string[];

const line = fc.nat(sound.length - 1);
const word = fc.oneof(
  fc.constantFrom('', '0', '-1', '1', '3', '9', '16', '1e300', 'NaN', 'Infinity', '$EndNodes', '$Nodes', '4294967296'),
  fc.integer({ min: 0, max: 200 }).map(String),
  fc.double({ min: -10, max: 10, noNaN: true }).map(String),
  fc.string(),
);

/** Damage of a file: words, lines and ends of it lost, doubled, moved or changed. */
const damage: fc.Arbitrary<(lines: Lines) => Lines> = fc.oneof(
  fc.tuple(line, fc.nat(9), word).map(
    ([at, column, text]) =>
      (lines: Lines) =>
        lines.map((one, i) => {
          if (i !== at) return one;
          const words = one.split(' ');
          return words.with(column % words.length, text).join(' ');
        }),
  ),
  fc.tuple(line, line).map(
    ([at, other]) =>
      (lines: Lines) =>
        lines.with(at % lines.length, lines[other] ?? ''),
  ),
  line.map((at) => (lines: Lines) => lines.toSpliced(at, 1)),
  line.map((at) => (lines: Lines) => lines.toSpliced(at, 0, lines[at] ?? '')),
  line.map((at) => (lines: Lines) => lines.slice(0, at)),
  fc.tuple(line, fc.double({ min: -3, max: 3, noNaN: true })).map(
    ([at, power]) =>
      (lines: Lines) =>
        lines.map((one, i) =>
          i === at
            ? one
                .split(' ')
                .map((text) => String(Number(text) * 10 ** power))
                .join(' ')
            : one,
        ),
  ),
);

it('out of any mesh comes a model with finite numbers or a complete error', () =>
  holdsFor(
    60,
    [fc.array(damage, { minLength: 1, maxLength: 3 }), fc.nat(19).map((drawn) => drawn === 0)],
    (damages, whole) =>
      settle(async () => {
        const lines = damages.reduce<Lines>((done, next) => (done.length === 0 ? done : next(done)), sound);
        const { joint, channel } = await resolveBrief(brief, { textOf: () => lines.join('\n') });
        if (!whole) return;
        const model = hostOf(joint).reduce(channel);
        for (const { undisturbed } of model.loads) expect(undisturbed.every(Number.isFinite)).toBe(true);
      }),
  ));
