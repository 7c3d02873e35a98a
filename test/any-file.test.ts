import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { anyChange } from './fixtures/any-change.js';
import { runCommand } from './fixtures/command.js';
import { holdsFor } from './fixtures/fuzz.js';

const plate = `
host: { kind: plate, material: generic-epoxy-resin }
loads: { farField: { sx: 10, sy: 5 } }
channel: { families: [ellipse, spline], largest: { width: 4, height: 4 } }
allow: 25
scatter: { samples: 20 }
search: { evaluations: 200 }
`;
const ellipse = { family: 'ellipse', parameters: { y: 0, width: 1, height: 0.8 } };

let folder: string;
const at = (name: string) => join(folder, name);
/** What every command wrote of the brief, and channels as users write them. */
let documents: unknown[];
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-files-'));
  writeFileSync(at('plate.yaml'), plate);
  writeFileSync(at('ellipse.json'), JSON.stringify(ellipse));
  const given = ['--channel', at('ellipse.json')];
  const commands = [
    ['front', '--verify', '0'],
    ['pick'],
    ['check', ...given],
    ['deliver', ...given],
    ['scatter', ...given],
    ['scatter', '--evaluations', '60'],
  ];
  const circle = Array.from({ length: 40 }, (_, i) => [Math.cos((i * Math.PI) / 20), Math.sin((i * Math.PI) / 20)]);
  documents = [ellipse, { points: circle }];
  for (const [command, ...options] of commands) {
    const { status, stdout, stderr } = await runCommand(command!, at('plate.yaml'), ...options, '--json', '--quiet');
    expect(status, stderr).toBe(0);
    documents.push(JSON.parse(stdout));
  }
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Who reads such files; those that take longer are drawn seldom. */
const readers = [
  ['draw', '--format', 'svg'],
  ['draw', '--format', 'dxf', '--design', '1'],
  ['deliver'],
  ['deliver', '--design', '1'],
  ['check', '--fast'],
  ['check', '--fast', '--design', '1'],
];
const slowReaders = [
  ['report', '--fast'],
  ['scatter', '--design', '1'],
];

it('out of any result that is read comes a result or a complete error', { tags: 'long' }, async () => {
  const reader = fc.oneof(
    { weight: 20, arbitrary: fc.constantFrom(...readers) },
    { weight: 1, arbitrary: fc.constantFrom(...slowReaders) },
  );
  await holdsFor(60, [anyChange(documents), reader], async (content, [command, ...options]) => {
    writeFileSync(at('channel.json'), JSON.stringify(content) ?? '');
    const out = command === 'report' ? ['--out', at('report.html'), '--force'] : [];
    const { status, stderr } = await runCommand(
      command!,
      at('plate.yaml'),
      ...['--channel', at('channel.json'), ...options, ...out],
    );
    expect([0, 1, 2, 4], stderr).toContain(status);
    if (status === 2) expect(stderr).toMatch(/: expected .*, received .*; /);
    expect(stderr).not.toMatch(/internal error|NaN|undefined|\[object/);
    if (status === 0 && command === 'report')
      expect(readFileSync(at('report.html'), 'utf8')).not.toMatch(/>NaN|undefined</);
  });
});
