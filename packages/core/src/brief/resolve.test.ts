import { describe, expect, it } from 'vitest';
import { InputError, type InputProblem } from '../errors.js';
import type { PlateHost, TeeJoint } from '../host/index.js';
import { canonicalBrief, canonicalHost, readBrief, resolveBrief, starterBrief } from './index.js';
import type { ResolvedBrief } from './resolved.js';

/** The brief of the architecture sketch: 2 mm carbon/epoxy overlaminates. */
const sketch = `title: Pull-off joint, 2 mm overlaminates
host:
  kind: tee
  bendRadius: 5
  overlaminate: { layup: [45, -45, 0, 90, 90, 0, -45, 45], plyThickness: 0.25, ply: carbon-epoxy }
  web: { height: 25 }
  foot: { length: 20 }
  skin: { thickness: 3, halfSpan: 40, ply: carbon-epoxy, layup: quasi-isotropic }
  filler: { ply: carbon-epoxy }
  support: clamped
materials:
  carbon-epoxy: { E1: 126000, E2: 11000, nu12: 0.28, nu23: 0.40, G12: 6600, alpha1: -1e-6, alpha2: 26e-6,
                  transverseTension: 48, interlaminarShear: 79 }
loads:
  pull: { force: 100 }
  cure: { deltaT: -155 }
cases:
  pull-off: { pull: 1 }
  service: { pull: 0.2, cure: 1 }
channel:
  families: [ellipse, teardrop, spline]
  wall: 0.15
  edgeRadius: 0.15
  mirror: true
  reference: { family: ellipse, at: [0, 1.25], width: 0.5, height: 0.5 }
allow: 48
search: { seed: 1, evaluations: 20000 }
`;

const plate = `host: { kind: plate, material: sheet }
materials: { sheet: { E: 70000, nu: 0.3, alpha: 0, transverseTension: 100, interlaminarShear: 60 } }
loads: { farField: { sx: 2, sy: 1 } }
`;

async function problemsOf(text: string): Promise<readonly InputProblem[]> {
  const error = await readBrief(text, { file: 'joint.yaml' }).then(
    () => undefined,
    (reason: unknown) => reason,
  );
  if (!(error instanceof InputError)) throw new Error(`expected an InputError, got ${error}`);
  for (const problem of error.problems) {
    expect(problem.expected, problem.path).toBeTruthy();
    expect(problem.received, problem.path).toBeTruthy();
    expect(problem.remedy, problem.path).toBeTruthy();
    expect(problem.file).toBe('joint.yaml');
  }
  return error.problems;
}

const edit = (from: string | RegExp, to: string, text = sketch) => {
  const edited = text.replace(from, to);
  if (edited === text) throw new Error(`${from} is not in the brief`);
  return edited;
};

function teeOf({ joint }: ResolvedBrief): TeeJoint {
  if (joint.kind !== 'tee') throw new Error('expected a tee');
  return joint as TeeJoint;
}

describe('a sound brief', () => {
  it('becomes joint, loads, cases and wishes', async () => {
    const brief = await readBrief(sketch);
    const joint = teeOf(brief);
    expect(joint.bendRadius).toBe(5);
    expect(joint.overlaminate.map((layer) => layer.angle)).toEqual([45, -45, 0, 90, 90, 0, -45, 45]);
    expect(joint.overlaminate.every((layer) => layer.thickness === 0.25)).toBe(true);
    expect(joint.skin).toEqual([{ thickness: 3, angle: 'quasi-isotropic', ply: joint.filler }]);
    expect(joint.filler.alpha1).toBe(-1e-6);
    expect(brief.loads).toEqual({ pull: { force: 100 }, cure: { deltaT: -155 } });
    expect(brief.cases).toEqual([
      { name: 'pull-off', factors: { pull: 1 } },
      { name: 'service', factors: { pull: 0.2, cure: 1 } },
    ]);
    expect(brief.channel).toEqual({
      families: ['ellipse', 'teardrop', 'spline'],
      wall: 0.15,
      edgeRadius: 0.15,
      mirror: true,
      reference: { family: 'ellipse', at: [0, 1.25], width: 0.5, height: 0.5 },
    });
    expect(brief.allow).toBe(48);
    expect(brief.search).toEqual({ seed: 1, evaluations: 20000, objective: { size: 'area', cost: 'peak' } });
    expect(brief.cautions.join()).toMatch(/cured state alone/);
  });

  it('may be JSON, and plain data, with the same result', async () => {
    const { default: yaml } = await import('yaml');
    const data = yaml.parse(sketch) as unknown;
    const brief = await readBrief(sketch);
    expect(await readBrief(JSON.stringify(data, undefined, '\t'))).toEqual(brief);
    expect(await resolveBrief(data)).toEqual(brief);
  });

  it('may be the starter brief, which holds the cured state among its cases', async () => {
    const brief = await readBrief(starterBrief);
    expect(brief.cautions).toEqual([]);
    expect(brief.cases.some(({ factors }) => factors.cure === 1 && Object.keys(factors).length === 1)).toBe(true);
  });

  it('takes what is left out from the defaults and says which material values are built in', async () => {
    const brief = await readBrief('host: { kind: tee }\nloads: { pull: {}, cure: {} }');
    const joint = teeOf(brief);
    expect(brief.cases).toEqual([
      { name: 'pull', factors: { pull: 1 } },
      { name: 'cure', factors: { cure: 1 } },
    ]);
    expect(brief.allow).toBe(joint.filler.transverseTension);
    expect(brief.channel.reference.at).toEqual([0, joint.bendRadius / 4]);
    expect(brief.cautions).toEqual([
      'material generic-carbon-epoxy: taken where the brief names none (host.overlaminate, host.skin, host.filler); typical values, from memory; replace by your data sheet',
      'loads.pull: no size is given; force 100 is taken, which says nothing of your joint',
      'loads.cure: no size is given; deltaT -150 is taken, which says nothing of your joint',
      'cases: left out, so that pull and cure each act alone; combine what acts together, for example service: { pull: 1, cure: 1 }',
    ]);
    expect(brief.materials).toEqual([
      {
        name: 'generic-carbon-epoxy',
        at: ['host.overlaminate', 'host.skin', 'host.filler'],
        source: 'default',
      },
    ]);
  });

  it('may be a plate of an isotropic material, which is a ply with the same constants in every direction', async () => {
    const brief = await readBrief(plate);
    const { E1, E2, nu12, nu23, G12, alpha1, alpha2 } = (brief.joint as PlateHost).material;
    expect([E1, E2, nu12, nu23, alpha1, alpha2]).toEqual([70000, 70000, 0.3, 0.3, 0, 0]);
    expect(G12).toBeCloseTo(70000 / 2.6, 9);
    expect(brief.loads.farField).toEqual({ sx: 2, sy: 1, txy: 0 });
    expect(brief.channel.largest).toEqual({ width: 10, height: 10 });
  });

  it('takes a thickness per ply, a skin by angles, and aliases', async () => {
    const text = edit('plyThickness: 0.25', 'plyThickness: &t [0.1, 0.2, 0.3, 0.4, 0.4, 0.3, 0.2, 0.1]');
    const brief = await readBrief(edit('layup: quasi-isotropic', 'layup: [0, 90, 0]', text));
    const joint = teeOf(brief);
    expect(joint.overlaminate.map((layer) => layer.thickness)).toEqual([0.1, 0.2, 0.3, 0.4, 0.4, 0.3, 0.2, 0.1]);
    expect(joint.skin.map(({ thickness, angle }) => [thickness, angle])).toEqual([
      [1, 0],
      [1, 90],
      [1, 0],
    ]);
  });
});

describe('a faulty brief', () => {
  const table: readonly [name: string, text: string, path: string, line: number | undefined, says: RegExp][] = [
    ['unknown key', edit('bendRadius: 5', 'bendRadis: 5'), 'host.bendRadis', 4, /did you mean 'bendRadius'/],
    ['unknown section', `${sketch}sweep: 3\n`, 'sweep', 28, /one of the keys title, host.*remove it/],
    ['wrong type', edit('bendRadius: 5', 'bendRadius: wide'), 'host.bendRadius', 4, /"wide"; write a plain number/],
    ['number in quotes', edit('bendRadius: 5', 'bendRadius: "5"'), 'host.bendRadius', 4, /without quotes/],
    ['no number', edit('bendRadius: 5', 'bendRadius:'), 'host.bendRadius', 4, /received nothing/],
    ['NaN', edit('bendRadius: 5', 'bendRadius: .nan'), 'host.bendRadius', 4, /received NaN/],
    ['infinity', edit('force: 100', 'force: .inf'), 'loads.pull.force', 15, /received Infinity/],
    ['overflow', edit('force: 100', 'force: 1e999'), 'loads.pull.force', 15, /received "1e999"/],
    ['negative thickness', edit('thickness: 3', 'thickness: -3'), 'host.skin.thickness', 8, /above 0.*received -3/],
    ['zero ply', edit('plyThickness: 0.25', 'plyThickness: 0'), 'host.overlaminate.plyThickness', 5, /received 0/],
    ['bend of no radius', edit('bendRadius: 5', 'bendRadius: 2'), 'host.bendRadius', 4, /more than .* 2 mm/],
    [
      'bend of no radius but for rounding',
      edit('bendRadius: 5', 'bendRadius: 2.7').replace(
        /layup: \[.*\], plyThickness: 0.25/,
        'layup: [0, 0, 0, 0, 0, 0, 0, 0, 0], plyThickness: 0.3',
      ),
      'host.bendRadius',
      4,
      /more than .* 2.7 mm/,
    ],
    ['plies that miss a thickness', edit('0.25', '[0.2, 0.3]'), 'host.overlaminate.plyThickness', 5, /8, one for each/],
    ['angle out of range', edit('[45,', '[450,'), 'host.overlaminate.layup[0]', 5, /received 450/],
    ['no plies', edit(/layup: \[.*\], ply/, 'layup: [], ply'), 'host.overlaminate.layup', 5, /an empty list/],
    [
      'layup by a wrong name',
      edit('quasi-isotropic', 'isotropic'),
      'host.skin.layup',
      8,
      /'quasi-isotropic' or the layup/,
    ],
    ['skin too short', edit('halfSpan: 40', 'halfSpan: 20'), 'host.skin.halfSpan', 8, /at least .* 25 mm/],
    ['wrong support', edit('clamped', 'clammped'), 'host.support', 10, /did you mean 'clamped'/],
    [
      'wrong kind',
      edit('kind: tee', 'kind: pipe'),
      'host.kind',
      3,
      /tee or plate or laminate or section, received "pipe"/,
    ],
    [
      'absent material',
      edit('filler: { ply: carbon-epoxy', 'filler: { ply: carbon-epxy'),
      'host.filler.ply',
      9,
      /did you/,
    ],
    ['material property missing', edit('E2: 11000, ', ''), 'materials.carbon-epoxy.E2', 12, /received nothing; add it/],
    ['material that gains energy', edit('nu23: 0.40', 'nu23: 0.999'), 'materials.carbon-epoxy.nu23', 12, /less than/],
    [
      'Poisson ratios swapped',
      edit('nu12: 0.28', 'nu12: 1.99').replace('126000', '11000'),
      'materials.carbon-epoxy.nu12',
      12,
      /sqrt/,
    ],
    ['unknown load', edit('  cure: {', '  cur: {'), 'loads.cur', 16, /did you mean 'cure'/],
    [
      'case of an absent load',
      edit('{ pull: 1 }', '{ side: 1 }'),
      'cases.pull-off.side',
      18,
      /a load under loads: pull, cure/,
    ],
    [
      'case of a load written otherwise',
      edit('{ pull: 1 }', '{ pul: 1 }'),
      'cases.pull-off.pul',
      18,
      /a load under loads: pull, cure.*did you mean 'pull'/,
    ],
    ['case without load', edit('{ pull: 1 }', '{}'), 'cases.pull-off', 18, /not zero/],
    ['case of zero', edit('{ pull: 1 }', '{ pull: 0 }'), 'cases.pull-off', 18, /not zero/],
    [
      'too many cases',
      edit(
        /cases:\n.*\n.*\n/,
        `cases: { ${Array.from({ length: 1001 }, (_, c) => `c${c}: { pull: 1 }`).join(', ')} }\n`,
      ),
      'cases',
      17,
      /at most 1000 cases, received 1001 cases/,
    ],
    ['no cases', edit(/cases:\n.*\n.*\n/, 'cases: {}\n'), 'cases', 17, /at least one case/],
    [
      'no loads',
      edit(/loads:\n.*\n.*\n/, 'loads: {}\n').replace(/cases:\n.*\n.*\n/, ''),
      'loads',
      14,
      /at least one load/,
    ],
    ['no families', edit('[ellipse, teardrop, spline]', '[]'), 'channel.families', 21, /an empty list/],
    [
      'unknown family',
      edit('[ellipse, teardrop', '[elipse, teardrop'),
      'channel.families[0]',
      21,
      /did you mean 'ellipse'/,
    ],
    ['family twice', edit('[ellipse, teardrop', '[spline, teardrop'), 'channel.families[2]', 21, /each family once/],
    ['room gone', edit('wall: 0.15', 'wall: 1.2'), 'channel.wall', 22, /below 1.2 mm.* 1.25 mm/],
    ['reference outside', edit('[0, 1.25]', '[0, 9]'), 'channel.reference', 25, /inside the filler/],
    ['reference across the base', edit('[0, 1.25]', '[0, 0.2]'), 'channel.reference', 25, /crosses the border/],
    ['reference thin-walled', edit('[0, 1.25]', '[0, 0.3]'), 'channel.reference', 25, /a wall of 0.05 mm/],
    ['reference off the mirror', edit('[0, 1.25]', '[0.1, 1.25]'), 'channel.reference.at[0]', 25, /mirror/],
    ['position of three', edit('[0, 1.25]', '[0, 1.25, 0]'), 'channel.reference.at', 25, /a position \[x, y\]/],
    ['mirror as a word', edit('mirror: true', 'mirror: "yes"'), 'channel.mirror', 24, /true or false/],
    ['allowed stress of zero', edit('allow: 48', 'allow: 0'), 'allow', 26, /received 0/],
    ['seed with a fraction', edit('seed: 1', 'seed: 1.5'), 'search.seed', 27, /a whole number/],
    ['section left empty', edit(/skin: .*/, 'skin:'), 'host.skin', 8, /a mapping of thickness/],
    [
      'no host',
      edit(/host:\n(?: {2}.*\n)+/, ''),
      'host',
      1,
      /kind: tee or kind: plate or kind: laminate or kind: section, received nothing/,
    ],
    ['a list', '[1, 2]', 'brief', 1, /a mapping of title/],
    ['a word', 'hello', 'brief', 1, /received "hello"/],
    ['a load of a tee on a plate', edit('farField', 'pull: {}, farField', plate), 'loads.pull', 3, /loads of a plate/],
    ['inset in a plate', `${plate}channel: { families: [inset] }`, 'channel.families[0]', 4, /needs no tee/],
    ['name of a case that is no name', edit('service:', '"<b>":'), 'cases["<b>"]', 19, /a name of at most/],
    [
      'title that moves the cursor',
      edit('Pull-off joint', '"\\e[2J"').replace(', 2 mm overlaminates', ''),
      'title',
      1,
      /one line of/,
    ],
    [
      'title that turns the writing',
      edit('Pull-off joint', '"\\u202e"').replace(', 2 mm overlaminates', ''),
      'title',
      1,
      /one line of/,
    ],
    ['prototype as key', `${sketch}__proto__: { a: 1 }\n`, '__proto__', 28, /one of the keys/],
  ];

  it.each(table)('%s', async (_name, text, path, line, says) => {
    const problems = await problemsOf(text);
    const problem = problems.find((one) => one.path === path);
    expect(problem, JSON.stringify(problems)).toBeDefined();
    if (line !== undefined) expect(problem?.line).toBe(line);
    expect(`expected ${problem?.expected}, received ${problem?.received}; ${problem?.remedy}`).toMatch(says);
    expect(problems.length).toBeLessThan(4);
  });

  it('is reported whole, in schema and geometry at once', async () => {
    const text = edit('bendRadius: 5', 'bendRadius: 2').replace('clamped', 'glued').replace('wall: 0.15', 'wal: 0.15');
    const paths = (await problemsOf(text.replace('{ pull: 1 }', '{ side: 1 }'))).map((problem) => problem.path);
    expect(paths).toEqual(expect.arrayContaining(['host.support', 'channel.wal', 'cases.pull-off.side']));
  });

  it('lists at most 50 problems', async () => {
    const keys = Array.from({ length: 300 }, (_, i) => `key${i}: 1`).join('\n');
    expect((await problemsOf(`${sketch}${keys}`)).length).toBe(50);
  });
});

describe('canonical content', () => {
  it('of the host depends on joint, materials, wall and edge radius only', async () => {
    const host = canonicalHost(await readBrief(sketch));
    const same = [
      edit('title: Pull-off', 'title: Other'),
      edit('force: 100', 'force: 7'),
      edit('  cure: {', '  side: {}\n  cure: {'),
      edit('seed: 1', 'seed: 2'),
      edit('allow: 48', 'allow: 50'),
      edit(
        '  carbon-epoxy: {',
        '  resin: { E: 1, nu: 0, alpha: 0, transverseTension: 1, interlaminarShear: 1 }\n  carbon-epoxy: {',
      ),
      edit('  pull: { force: 100 }\n  cure: { deltaT: -155 }', '  cure: { deltaT: -155 }\n  pull: { force: 100 }'),
      edit(/carbon-epoxy/g, 'lamina'),
    ];
    for (const text of same) expect(canonicalHost(await readBrief(text))).toBe(host);
    const other = [
      edit('bendRadius: 5', 'bendRadius: 5.5'),
      edit('clamped', 'simple'),
      edit('E2: 11000', 'E2: 11001'),
      edit('wall: 0.15', 'wall: 0.16'),
      edit('edgeRadius: 0.15', 'edgeRadius: 0.16'),
      edit('45, -45, 0', '-45, 45, 0'),
    ];
    for (const text of other) expect(canonicalHost(await readBrief(text)), text).not.toBe(host);
  });

  it('of the whole brief depends on everything but the title', async () => {
    const whole = canonicalBrief(await readBrief(sketch));
    expect(canonicalBrief(await readBrief(edit('title: Pull-off', 'title: Other')))).toBe(whole);
    expect(canonicalBrief(await readBrief(edit('force: 100', 'force: 7')))).not.toBe(whole);
    expect(canonicalBrief(await readBrief(edit('seed: 1', 'seed: 2')))).not.toBe(whole);
  });
});
