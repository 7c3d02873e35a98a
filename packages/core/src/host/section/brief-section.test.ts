import { describe, expect, it } from 'vitest';
import { discInSheet, meshText } from '../../../../../test/fixtures/mesh-text.js';
import { briefSchema, canonicalHost, markOf, type ResolvedBrief, readBrief } from '../../brief/index.js';
import { InputError } from '../../errors.js';
import type { SectionJoint } from '../index.js';

const mesh = meshText(discInSheet({ radius: 2, wrap: 0.5, half: 8, around: 24, rows: 4 }));

const sound = `host:
  kind: section
  mesh: disc.msh
  filler: filler
  surfaces:
    filler: { material: generic-epoxy-resin }
    wrap: { material: generic-carbon-epoxy, angle: 0, tangent: { along: seam } }
    sheet: { material: generic-carbon-epoxy, angle: 90 }
  supports:
    bottom: { hold: [x, y] }
  loads:
    lift: { top: [0, 1] }
loads:
  lift: { force: 50 }
  cure: { deltaT: -80 }
cases:
  cured: { cure: 1 }
  lifted: { cure: 1, lift: 1 }
channel: { wall: 0.2, edgeRadius: 0.2 }
`;

const textOf = (name: string) => {
  if (name === 'disc.msh') return mesh;
  throw new InputError({ path: name, expected: 'a mesh', received: 'no such file', remedy: 'check the name' });
};
const resolve = (text: string, of = textOf): Promise<ResolvedBrief> =>
  readBrief(text, { file: 'brief.yaml', textOf: of });

describe('a brief of a section from a mesh', () => {
  it('has loads of its own, and outlines that need no mirror line', async () => {
    const { joint, loads, cases, channel } = await resolve(sound);
    const { supports, surfaces, filler } = joint as SectionJoint;
    expect(loads).toEqual({ lift: { force: 50 }, cure: { deltaT: -80 } });
    expect(cases[1]!.factors).toEqual({ cure: 1, lift: 1 });
    expect(supports).toEqual([{ curve: 'bottom', hold: ['x', 'y'], under: 'loads' }]);
    expect(surfaces[filler]!.angle).toBe(90);
    expect(channel.mirror).toBe(false);
    expect(channel.reference.at[0]).toBeCloseTo(0, 6);
  });

  it('is told by the hash of its mesh: in the key of a model and in results', async () => {
    const brief = await resolve(sound);
    for (const text of [canonicalHost(brief), JSON.stringify(markOf(brief))]) {
      expect(text).toContain('sha256');
      expect(text.length).toBeLessThan(3000);
    }
    const other = await resolve(sound, () => mesh.replace(' 0\n', ' 0 \n'));
    expect(canonicalHost(other)).not.toBe(canonicalHost(brief));
    expect(markOf(other).fingerprint).not.toBe(markOf(brief).fingerprint);
  });

  it('has its own loads in the schema', async () => {
    const text = JSON.stringify(await briefSchema({ host: { kind: 'section', loads: { hoist: {} } } }));
    expect(text).toContain('"hoist"');
    expect(JSON.stringify(await briefSchema())).not.toContain('"hoist"');
  });

  it.each([
    ['no such mesh', sound.replace('disc.msh', 'disk.msh'), 'brief.yaml:3: host.mesh: .*no such file'],
    [
      'a surface without material',
      sound.replace(/ {4}sheet.*\n/, ''),
      'host.surfaces: .*every surface.*none for "sheet"',
    ],
    [
      'a surface too many',
      sound.replace('    sheet:', '    sheets: {}\n    sheet:'),
      "host.surfaces.sheets: .*did you mean 'sheet'",
    ],
    ['another filler', sound.replace('filler: filler', 'filler: fillet'), "host.filler: .*did you mean 'filler'"],
    [
      'a hole in the filler',
      sound.replace('filler: filler', 'filler: wrap').replace('angle: 0,', ''),
      'disc.msh: host.mesh: .*holes',
    ],
    ['no angle', sound.replace(', angle: 90', ''), 'host.surfaces.sheet.angle: .*0 in the section, 90 along'],
    ['plies that follow nothing', sound.replace('along: seam', 'along: seem'), "tangent.along: .*did you mean 'seam'"],
    ['a support of nothing', sound.replace('bottom:', 'botom:'), "host.supports.botom: .*did you mean 'bottom'"],
    [
      'a load on nothing',
      sound.replace('top: [0, 1]', 'up: [0, 1]'),
      'host.loads.lift.up: .*named curve.*right, top, left',
    ],
    [
      'a load without force',
      sound.replace('[0, 1]', '[0, 0]'),
      'host.loads.lift: .*a force or a moment on at least one',
    ],
    [
      'a load that nothing holds',
      sound.replace('bottom: { hold: [x, y] }', 'bottom: { hold: [x] }'),
      'host.loads.lift: .*moving along y',
    ],
    ['a load by a taken name', sound.replace('    lift:', '    cure:'), 'host.loads.cure: .*no other load has'],
    [
      'a size of no load',
      sound.replace('  lift: { force: 50 }', '  lifd: { force: 50 }'),
      "loads.lifd: .*did you mean 'lift'",
    ],
    [
      'a load of another host',
      sound.replace('  lift: { force: 50 }', '  shear: { force: 50 }'),
      'loads.shear: .*cure, pressure, lift',
    ],
    [
      'a mirror line beside the filler',
      sound.replace('wall: 0.2', 'wall: 0.2, mirror: true'),
      'channel.mirror: expected false',
      (text: string) => text.replaceAll(/^(-?[\d.e-]+) (-?[\d.e-]+) 0$/gm, (_, x, y) => `${Number(x) + 30} ${y} 0`),
    ],
    ['walls that leave no room', sound.replace('wall: 0.2', 'wall: 1.9'), 'wall \\+ edgeRadius below'],
  ] as const)('is refused with what to do: %s', async (_, text, message, moved = (same: string) => same) => {
    const error = await resolve(text, (name) => moved(textOf(name))).then(
      () => undefined,
      (reason: unknown) => reason,
    );
    expect(error).toBeInstanceOf(InputError);
    expect((error as InputError).message).toMatch(new RegExp(message));
  });

  it('tells the line of the mesh that is wrong', async () => {
    const broken = mesh.replace(/ 0\n\$EndNodes/, ' 1\n$EndNodes');
    const line = broken.split('\n').indexOf('$EndNodes');
    await expect(resolve(sound, () => broken)).rejects.toThrow(`disc.msh:${line}: host.mesh: expected z = 0`);
  });

  it('wants the text of its mesh where a program hands it over', async () => {
    await expect(readBrief(sound)).rejects.toThrow(/host.mesh: .*handed over.*textOf/);
  });
});
