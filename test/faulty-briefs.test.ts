import { readFileSync } from 'node:fs';
import { InputError, readBrief, starterBrief } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';

type Edit = readonly [from: string | RegExp, to: string];

const ofExample = (name: string) => readFileSync(new URL(`examples/${name}`, import.meta.url), 'utf8');

function editedText(whole: string, edits: readonly Edit[]): string {
  let text = whole;
  for (const [from, to] of edits) {
    const next = text.replace(from, to);
    if (next === text) throw new Error(`${from} is not in the brief`);
    text = next;
  }
  return text;
}

/** The starter brief with parts of it exchanged, each of which must be there. */
const edited = (...edits: readonly Edit[]) => editedText(starterBrief, edits);

/** The same of an example's. */
const editedExample = (name: string, ...edits: readonly Edit[]) => editedText(ofExample(`${name}.yaml`), edits);

/** What every brief with such a pocket is told, faulty or not. */
const usual = /resin yields and relaxes|plies kink where they drape/;

/** All that is said of a brief: what is refused, and what it is cautioned for. */
async function saidOf(text: string): Promise<{ readonly refused: boolean; readonly said: readonly string[] }> {
  const cautioned = (cautions: readonly string[]) => cautions.filter((one) => !usual.test(one));
  try {
    const { cautions } = await readBrief(text, { file: 'joint.yaml', textOf: ofExample });
    return { refused: false, said: cautioned(cautions) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const refusals = error.problems.map(
      ({ path, expected, received, remedy, line }) =>
        `${line ?? ''}|${path}: expected ${expected}, received ${received}; ${remedy}`,
    );
    return { refused: true, said: [...refusals, ...cautioned(error.cautions)] };
  }
}

/** `says`: one expression for each message, in order; there must be as many messages. */
type Faulty = readonly [mistake: string, text: string, says: readonly RegExp[]];

const material = /transverseTension: 38 .*\n.*interlaminarShear: 55/;

const cautioned: readonly Faulty[] = [
  // Units
  [
    'a whole ply in GPa',
    edited(['E1: 39000', 'E1: 39'], ['E2: 11500', 'E2: 11.5'], ['G12: 4300', 'G12: 4.3']),
    [
      /^materials\.demo-glass-epoxy: E1 39, E2 11\.5 and G12 4\.3 MPa .*given in GPa\? Then write 39000, 11500 and 4300$/,
    ],
  ],
  ['one modulus in GPa', edited(['E2: 11500', 'E2: 11.5']), [/\.E2: 11\.5 MPa .*given in GPa\? Then write 11500$/]],
  [
    'a resin in GPa',
    edited(
      [
        'materials:\n',
        'materials:\n  resin: { E: 3.4, nu: 0.36, alpha: 58e-6, transverseTension: 70, interlaminarShear: 55 }\n',
      ],
      ['filler: { ply: demo-glass-epoxy }', 'filler: { ply: resin }'],
    ),
    [/^materials\.resin\.E: 3\.4 MPa .*given in GPa\? Then write 3400$/],
  ],
  [
    'a shear modulus in kPa',
    edited(['G12: 4300', 'G12: 4300e2']),
    [/\.G12: 430000 MPa .*given in kPa\? Then write 430$/],
  ],
  [
    'a strength in GPa',
    edited(['transverseTension: 38 ', 'transverseTension: 0.038 '], ['allow: 32 ', 'allow: 0.03 ']),
    [/\.transverseTension: 0\.038 MPa .*GPa\? Then write 38$/],
  ],
  [
    'the strength along the fibres',
    edited(['transverseTension: 38 ', 'transverseTension: 900 ']),
    [/\.transverseTension: 900 MPa is outside what is usual, 3 to 400; check it/],
  ],
  [
    'both strengths in GPa',
    edited([material, 'transverseTension: 0.038\n    interlaminarShear: 0.055'], ['allow: 32 ', 'allow: 0.03 ']),
    [/transverseTension 0\.038 and interlaminarShear 0\.055 MPa .*GPa\? Then write 38 and 55/],
  ],
  [
    'a pull in kN',
    edited(['force: 20 ', 'force: 0.02 ']),
    [/^loads\.pull\.force: 0\.02 N\/mm .*given in kN\/mm\? Then write 20$/],
  ],
  [
    'a pull per metre',
    edited(['force: 20 ', 'force: 20000 ']),
    [/force: 20000 N\/mm .*given in N\/m\? Then write 20$/],
  ],
  [
    'a pressure in bar',
    edited(
      ['  cure: { deltaT', '  pressure: { pressure: 50 }\n  cure: { deltaT'],
      ['limit: { cure: 1,', 'limit: { pressure: 1, cure: 1,'],
    ),
    [/^loads\.pressure\.pressure: 50 MPa .*given in bar\? Then write 5$/],
  ],
  [
    'a moment in N m',
    edited(
      ['  cure: { deltaT', '  moment: { moment: 0.5 }\n  cure: { deltaT'],
      ['limit: { cure: 1,', 'limit: { moment: 1, cure: 1,'],
    ),
    [/^loads\.moment\.moment: 0\.5 N mm\/mm .*given in N m\/mm\? Then write 500$/],
  ],
  [
    'angles in radians',
    edited([/layup: \[45[^\]]*\]/, 'layup: [0.785, -0.785, 0, 1.571]']),
    [/^host\.overlaminate\.layup: .*in radians\? Then write \[45, -45, 0, 90\]$/],
  ],
  [
    'a bend radius and a skin in metres',
    edited(
      ['bendRadius: 8 ', 'bendRadius: 0.008 '],
      ['plyThickness: 0.3 ', 'plyThickness: 0.0003 '],
      ['height: 30', 'height: 0.03'],
      ['length: 25', 'length: 0.025'],
      ['thickness: 5 ', 'thickness: 0.005 '],
      ['halfSpan: 60 ', 'halfSpan: 0.06 '],
      ['wall: 0.2 ', 'wall: 0.0002 '],
      ['edgeRadius: 0.25', 'edgeRadius: 0.00025'],
      ['[0, 2] ', '[0, 0.002] '],
      ['width: 0.8', 'width: 0.0008'],
      ['height: 0.8', 'height: 0.0008'],
    ),
    [
      /^host: bendRadius 0\.008, .*skin\.halfSpan 0\.06 mm .*given in m\? Then write 8, 0\.3, 30, 25, 5 and 60$/,
      /^channel: wall 0\.0002, edgeRadius 0\.00025, .*Then write 0\.2, 0\.25, 0\.8 and 0\.8$/,
    ],
  ],
  [
    'an agent in Pa s',
    edited(['viscosity: 90 ', 'viscosity: 0.09 ']),
    [/^delivery\.agents\[2\]\.viscosity: 0\.09 mPa s .*given in Pa s\? Then write 90$/],
  ],
  [
    'an agent in g/cm3',
    edited(['largestGap: 0.5 ', 'density: 1.1\n      largestGap: 0.5 ']),
    [/\.density: 1\.1 kg\/m3 .*given in g\/cm3\? Then write 1100$/],
  ],
  [
    'a surface tension in N/m',
    edited(['largestGap: 0.5 ', 'surfaceTension: 0.04\n      largestGap: 0.5 ']),
    [/\.surfaceTension: 0\.04 mN\/m .*given in N\/m\? Then write 40$/],
  ],
  [
    'a channel length in metres',
    edited(['length: 150 ', 'length: 0.15 ']),
    [/^delivery\.length: 0\.15 mm .*given in m\? Then write 150$/],
  ],
  [
    'a supply in kPa',
    edited(['pressure: 0.2 ', 'pressure: 200 ']),
    [/^delivery\.supply\.pressure: 200 MPa .*given in kPa\? Then write 0\.2$/],
  ],
  [
    'a coolant in kJ',
    edited([
      'cooling: { pressureDrop: 0.002 }',
      'cooling: { pressureDrop: 0.002, coolant: { name: oil, viscosity: 20, density: 900, heatCapacity: 2 } }',
    ]),
    [/\.heatCapacity: 2 J\/\(kg K\) .*given in kJ\/\(kg K\)\? Then write 2000$/],
  ],
  [
    'a factor in percent',
    edited(['pull: 0.5 }', 'pull: 50 }']),
    [/^cases\.pulled\.pull: .*50 times; given in percent\? Then write 0\.5$/],
  ],
  // Signs
  [
    'a cure with its sign lost',
    edited(['deltaT: -100', 'deltaT: 100']),
    [/^loads\.cure\.deltaT: 100 K .*with its sign lost\? Then write -100$/],
  ],
  [
    'a cure that heats by its factor',
    edited(['cured: { cure: 1 }', 'cured: { cure: -1 }']),
    [/^cases\.cured\.cure: -1 turns cooling down into heating up/],
  ],
  [
    'a pull that pushes',
    edited(['force: 20 ', 'force: -20 ']),
    [/^loads\.pull\.force: -20 N\/mm pushes the web onto the skin/],
  ],
  [
    'an expansion with a sign too many',
    edited(['alpha2: 25e-6', 'alpha2: -25e-6']),
    [/\.alpha2: -0\.000025 1\/K .*with its sign lost\? Then write 0\.000025/],
  ],
  [
    "a negative Poisson's ratio",
    edited(['nu12: 0.27', 'nu12: -0.27']),
    [/\.nu12: -0\.27 .*with its sign lost\? Then write 0\.27/],
  ],
  // What no laminate has, what is exchanged
  [
    "the minor Poisson's ratio",
    edited(['nu12: 0.27', 'nu12: 0.08']),
    [/\.nu12: 0\.08 is small for a ply; the smaller ratio nu21.*write 0\.271304/],
  ],
  [
    "a Poisson's ratio of rubber",
    edited(['nu23: 0.42', 'nu23: 0.9']),
    [/\.nu23: 0\.9 is outside what is usual, 0\.1 to 0\.7; check it/],
  ],
  [
    'moduli exchanged',
    edited(['E1: 39000', 'E1: 11500'], ['E2: 11500 ', 'E2: 39000 ']),
    [/E1, along the fibres, is smaller than E2/],
  ],
  [
    'expansions exchanged',
    edited(['alpha1: 7.5e-6', 'alpha1: 25e-6'], ['alpha2: 25e-6', 'alpha2: 7.5e-6']),
    [/alpha1, along the fibres, is larger than alpha2/],
  ],
  [
    'a shear modulus above the modulus',
    edited(['G12: 4300', 'G12: 43000']),
    [/\.G12: 43000 MPa is too stiff in shear/],
  ],
  // What is left out or beyond
  [
    'allow above every strength',
    edited(['allow: 32 ', 'allow: 600 ']),
    [/^allow: 600 MPa is more than the transverse strength .*38 MPa/],
  ],
  ['allow in GPa', edited(['allow: 32 ', 'allow: 0.032 ']), [/^allow: 0\.032 MPa .*given in GPa\? Then write 32$/]],
  [
    'a cure without its size',
    edited(['cure: { deltaT: -100 }', 'cure: {}']),
    [/^loads\.cure: no size is given; deltaT -150 is taken/],
  ],
  [
    'a cure that hardly cools',
    edited(['deltaT: -100', 'deltaT: -1']),
    [/^loads\.cure\.deltaT: -1 K is outside what is usual, -300 to -20; check it/],
  ],
  [
    'a load in no case',
    edited(['limit: { cure: 1, pull: 1 }', 'limit: { cure: 1 }'], ['  pulled: { cure: 1, pull: 0.5 }\n', '']),
    [/^loads\.pull: acts in no case$/],
  ],
  [
    'no case for the cured state',
    edited(['  cured: { cure: 1 } ', '  # '], ['during: cured', 'during: limit']),
    [/^no case holds the cured state alone/],
  ],
  [
    'a foot that reaches the support',
    edited(['halfSpan: 60', 'halfSpan: 33']),
    [/^host\.foot\.length: the foot reaches the support, where the skin alone is clamped/],
  ],
  [
    'no material for the filler',
    edited(['filler: { ply: demo-glass-epoxy }', 'filler: {}']),
    [/^material generic-carbon-epoxy: taken where the brief names none \(host\.filler\)/],
  ],
  [
    'a built-in material',
    edited(['filler: { ply: demo-glass-epoxy }', 'filler: { ply: generic-epoxy-resin }']),
    [/^material generic-epoxy-resin \(host\.filler\): typical values/],
  ],
  [
    'a search for hours',
    edited(['evaluations: 20000', 'evaluations: 100000000']),
    [/^search\.evaluations: 100000000 outlines in 3 cases take about 8 h on one core/],
  ],
  [
    'a skin in centimetres',
    edited(['thickness: 5 ', 'thickness: 0.5 ']),
    [
      /^host\.skin\.thickness: 0\.5 mm is less than a third of the overlaminate upon it, 2\.7 mm; given in cm\? Then write 5$/,
    ],
  ],
  [
    'a reference in metres',
    edited(['width: 0.8 ', 'width: 0.0008 '], ['height: 0.8 ', 'height: 0.0008 ']),
    [/^channel: reference\.width 0\.0008 and reference\.height 0\.0008 mm .*given in m\? Then write 0\.8 and 0\.8$/],
  ],
  [
    'an edge radius in metres',
    edited(['edgeRadius: 0.25', 'edgeRadius: 0.00025']),
    [/edgeRadius: .*m\? Then write 0\.25$/],
  ],
  [
    'a distance from the edge in metres',
    edited(['edge: peak ', 'edge: { distance: 0.0003 } ']),
    [/^strength\.edge\.distance: 0\.0003 mm .*given in m\? Then write 0\.3$/],
  ],
  [
    'scatter in micrometres',
    edited(['outline: 0.02 ', 'outline: 20 '], ['position: 0.05 ', 'position: 50 ']),
    [/^scatter: outline 20 and position 50 mm .*given in micrometres\? Then write 0\.02 and 0\.05$/],
  ],
  [
    'strengths of an agent in GPa',
    edited(['    viscosity: 90 ', '    tensileStrength: 0.045\n      viscosity: 90 ']),
    [/^delivery\.agents\[2\]\.tensileStrength: 0\.045 MPa .*GPa\? Then write 45$/],
  ],
  ['a gel time in minutes', edited(['gelTime: 600 ', 'gelTime: 1 ']), [/gelTime: 1 s .*given in min\? Then write 60$/]],
  [
    'an agent that stands there twice',
    edited(['- low-viscosity-epoxy', '- thin-cyanoacrylate']),
    [/^delivery\.agents: thin cyanoacrylate stands there twice$/],
  ],
  // Other hosts
  [
    'a strain in percent',
    editedExample('pocket', ['strain: 0.0005', 'strain: 0.05']),
    [/^loads\.stretch\.strain: 0\.05 .*given in percent\? Then write 0\.0005$/],
  ],
  [
    'a stress through the thickness in GPa',
    editedExample('pocket', ['stress: 5 ', 'stress: 0.005 ']),
    [/^loads\.flatwise\.stress: 0\.005 MPa .*GPa\? Then write 5$/],
  ],
  [
    'a force and a cure of a joint with a pocket',
    editedExample('pocket-in-bend', ['force: 3 ', 'force: 0.003 '], ['deltaT: -60', 'deltaT: 60']),
    [/^loads\.side\.force: .*kN\/mm\? Then write 3$/, /^loads\.cure\.deltaT: .*sign lost\? Then write -60$/],
  ],
  [
    'a cure with its sign lost, of all that is open',
    editedExample('choices', ['deltaT: -60', 'deltaT: 60']),
    [/^loads\.cure\.deltaT: .*sign lost\? Then write -60$/],
  ],
  [
    'a force of a meshed section in kN',
    editedExample('hat-foot', ['lift: { force: 8 }', 'lift: { force: 0.008 }']),
    [/^loads\.lift\.force: 0\.008 N\/mm .*kN\/mm\? Then write 8$/],
  ],
  [
    'an angle of a meshed section in radians',
    editedExample('hat-foot', ['angle: 45, tangent: { along: hat', 'angle: 0.7854, tangent: { along: hat']),
    [/^host\.surfaces\.hat-45\.angle: \[0\.7854\] .*radians\? Then write \[45\]$/],
  ],
];

const refused: readonly Faulty[] = [
  [
    'plies in metres',
    edited(['plyThickness: 0.3 ', 'plyThickness: 0.0003 ']),
    [
      /host\.overlaminate\.plyThickness: .*1 GB.*; host\.overlaminate\.plyThickness: 0\.0003 mm .*given in m\? Then write 0\.3$/,
    ],
  ],
  [
    'plies in micrometres',
    edited(['plyThickness: 0.3 ', 'plyThickness: 300 ']),
    [/host\.overlaminate\.plyThickness: .*received 300; .*micrometres\? Then write 0\.3/],
  ],
  [
    'a modulus in Pa',
    edited(['E1: 39000', 'E1: 39e9']),
    [/\.E1: .*received 39000000000; .*given in Pa\? Then write 39000$/],
  ],
  [
    'an expansion in millionths',
    edited(['alpha2: 25e-6', 'alpha2: 25']),
    [/\.alpha2: .*received 25; .*given in 1e-6\/K\? Then write 0\.000025$/],
  ],
  [
    "a Poisson's ratio that gives energy away",
    edited(['nu12: 0.27', 'nu12: 1.9']),
    [/\.nu12: expected less than sqrt\(E1\/E2\) = 1\.84/],
  ],
  [
    "Poisson's ratios that give energy away together",
    edited(['nu23: 0.42', 'nu23: 0.98']),
    [/\.nu23: expected less than 1 - 2 nu12\^2 E2\/E1 = 0\.957/],
  ],
  [
    'an isotropic material that is too incompressible',
    edited([
      'materials:\n',
      'materials:\n  rubber: { E: 30, nu: 0.5, alpha: 2e-4, transverseTension: 5, interlaminarShear: 5 }\n',
    ]),
    [/materials\.rubber\.nu: expected a number above -1 and below 0\.499/],
  ],
  ['a negative modulus', edited(['E1: 39000', 'E1: -39000']), [/\.E1: expected a number above 0 .*received -39000/]],
  [
    'a number in quotes',
    edited(['allow: 32 ', 'allow: "32" ']),
    [/allow: .*received "32"; write the number without quotes/],
  ],
  [
    'a number with its unit',
    edited(['allow: 32 ', 'allow: 32 MPa ']),
    [/allow: .*received "32 MPa"; write a plain number, its unit is MPa/],
  ],
  ['a decimal comma', edited(['wall: 0.2 ', 'wall: 0,2 ']), [/channel\.wall: .*received "0,2"; write a plain number/]],
  [
    'a family as a word',
    edited(['families: [ellipse, teardrop, spline]', 'families: ellipse']),
    [/channel\.families: expected a list .*received "ellipse"/],
  ],
  ['tabs', starterBrief.replace(/^ {2}/gm, '\t'), [/brief: expected indentation by blanks, received a tab/]],
  ['two briefs', `${starterBrief}---\n${starterBrief}`, [/brief: expected one brief in a file/]],
  ['a misspelled section', edited(['\nloads:', '\nlodas:']), [/lodas: .*did you mean 'loads'\?/]],
  ['a misspelled property', edited(['G12: 4300', 'G21: 4300']), [/\.G21: .*did you mean 'G12'\?/]],
  [
    'a material renamed in one place',
    edited(['  demo-glass-epoxy: ', '  demo-glass-epxy: ']),
    [/host\.overlaminate\.ply: .*did you mean 'demo-glass-epxy'\?/],
  ],
  [
    'a joint without loads',
    edited([/loads:[\s\S]*?\n\n/, 'loads: {}\n\n'], [/cases:[\s\S]*?\n\n/, '']),
    [/loads: expected at least one load/],
  ],
  [
    'a layup that is no list',
    edited([/layup: \[45[^\]]*\]/, 'layup: 45/-45']),
    [/host\.overlaminate\.layup: .*received "45\/-45"; write, for example, .*\[45\/0\/-45\/90\]s/],
  ],
  [
    'a thickness for too few plies',
    edited(['plyThickness: 0.3 ', 'plyThickness: [0.3, 0.3] ']),
    [/host\.overlaminate\.plyThickness: .*one for each angle/],
  ],
  [
    'a skin shorter than its feet',
    edited(['halfSpan: 60', 'halfSpan: 30']),
    [/host\.skin\.halfSpan: expected at least bendRadius \+ foot\.length = 33 mm/],
  ],
  [
    'an edge too round for the filler',
    edited(['edgeRadius: 0.25', 'edgeRadius: 2.5']),
    [/channel\.edgeRadius: expected wall \+ edgeRadius below 1\.92 mm/],
  ],
  [
    'two hundred plies',
    edited([/layup: \[45[^\]]*\]/, 'layup: [0_200]'], ['plyThickness: 0.3 ', 'plyThickness: 0.03 ']),
    [/host\.overlaminate\.layup: .*40,000 triangles/],
  ],
  [
    'strengths by half of their names',
    edited(['transverseTension: 38 ', 'tension: 38 '], ['interlaminarShear: 55 ', 'shear: 55 ']),
    [/\.tension: .*did you mean 'transverseTension'\?/, /\.shear: .*did you mean 'interlaminarShear'\?/],
  ],
  [
    'a wall for which there is no room',
    edited(['wall: 0.2 ', 'wall: 2 ']),
    [/channel\.wall: expected wall \+ edgeRadius below 1\.92 mm/],
  ],
  [
    'a load of another host where a case asks for its own',
    edited(['pull: { force: 20 }', 'flatwise: { stress: 5 }']),
    [/loads\.flatwise: expected one of the loads of a tee/],
  ],
  // What is hardly meant is told beside what is refused.
  [
    'a resin in GPa beside a misspelled key',
    editedExample('pocket', ['wall: ', 'wal: '], ['E: 3000', 'E: 3.4']),
    [/channel\.wal: .*did you mean 'wall'/, /^materials\..*E: 3\.4 MPa .*GPa\? Then write 3400$/],
  ],
  [
    'allow above every strength beside a misspelled family, a force in kN and a cure without sign',
    edited(['[ellipse, teardrop', '[elipse, teardrop'], ['allow: 32 ', 'allow: 320 '], ['force: 20 ', 'force: 0.02 ']),
    [/families\[0\]: .*'ellipse'/, /^loads\.pull\.force: .*kN/, /^allow: 320 MPa is more than/],
  ],
  [
    'a modulus in GPa beside text for a number of the same section',
    edited(['E2: 11500', 'E2: 11.5'], ['force: 20 ', 'force: twenty ']),
    [/loads\.pull\.force: .*"twenty"/, /^materials\.demo-glass-epoxy\.E2: .*GPa/],
  ],
  [
    'a modulus in GPa that makes a ply impossible',
    edited(['E1: 39000', 'E1: 39']),
    [/\.nu12: expected less than sqrt\(E1\/E2\).*; materials\.demo-glass-epoxy\.E1: 39 MPa .*GPa\? Then write 39000$/],
  ],
  [
    'a joint in metres',
    edited(
      ['bendRadius: 8 ', 'bendRadius: 0.008 '],
      ['plyThickness: 0.3 ', 'plyThickness: 0.0003 '],
      ['thickness: 5 ', 'thickness: 0.005 '],
    ),
    [
      /host\.skin|host\.overlaminate|channel\.edgeRadius: .*; host: bendRadius 0\.008, .* mm are outside .*m\? Then write 8, 0\.3 and 5$/,
    ],
  ],
  [
    'a layup with a suffix that is none',
    edited([/layup: \[45[^\]]*\]/, 'layup: [45/0/-45/90]x']),
    [/host\.overlaminate\.layup: .*notation of the trade, received "\[45\/0\/-45\/90\]x"; write/],
  ],
  [
    'a layup without commas',
    edited([/layup: \[45[^\]]*\]/, 'layup: [45 0 -45 90]']),
    [/host\.overlaminate\.layup\[0\]: .*received "45 0 -45 90"; separate numbers by commas/],
  ],
  [
    'a load of a case by another name',
    edited(['limit: { cure: 1, pull: 1 }', 'limit: { cure: 1, pul: 1 }']),
    [/cases\.limit\.pul: expected a load under loads: pull, cure, .*did you mean 'pull'\?$/],
  ],
  [
    'a misspelled load that a case asks for',
    edited(
      ['pull: { force: 20 }', 'lift: { force: 20 }'],
      ['pulled: { cure: 1, pull: 0.5 }', 'pulled: { cure: 1, lift: 0.5 }'],
      ['limit: { cure: 1, pull: 1 }', 'limit: { cure: 1, lift: 1 }'],
    ),
    [/loads\.lift: expected one of the loads of a tee: pull, side, moment, cure, pressure, .*; remove it$/],
  ],
  [
    'a case as a list',
    edited(['limit: { cure: 1, pull: 1 }', 'limit: [cure, pull]']),
    [
      /cases\.limit: expected a factor for each load that acts: pull, cure, .*write, for example, \{ pull: 1, cure: 1 \}$/,
    ],
  ],
  [
    'a load as a number',
    edited(['pull: { force: 20 }', 'pull: 20']),
    [/loads\.pull: .*received 20; write \{ force: 20 \}$/],
  ],
  [
    'loads of nothing',
    edited(
      ['force: 20 ', 'force: 0 '],
      ['deltaT: -100', 'deltaT: 0'],
      [/cases:[\s\S]*?\n\n/, ''],
      ['during: cured', 'during: cure'],
    ),
    [/loads\.pull\.force: expected a size other than 0/, /loads\.cure\.deltaT: expected a size other than 0/],
  ],
  [
    'a share in percent',
    edited(['startsAwayFromEdge: false', 'leastRetained: 80']),
    [/strength\.leastRetained: .*received 80; .*given in percent\? Then write 0\.8$/],
  ],
  [
    'a strain in millionths',
    editedExample('pocket', ['strain: 0.0005', 'strain: 500']),
    [/loads\.stretch\.strain: .*received 500; .*given in millionths\? Then write 0\.0005$/],
  ],
  [
    'a laminate in metres',
    editedExample('pocket', ['width: 40', 'width: 0.04']),
    [/host\.pocket\.length: .*; host\.width: 0\.04 mm .*given in m\? Then write 40$/],
  ],
  [
    'a film thicker than its preform',
    editedExample('pocket', ['film: 0.05', 'film: 0.5']),
    [/host\.pocket\.height: expected with its film/],
  ],
  [
    'a preform above the last ply',
    editedExample('pocket-in-bend', ['above: 4', 'above: 40']),
    [/host\.pocket\.above: expected a ply with one above it: 1 to 7 of 8/],
  ],
  [
    'a preform in metres',
    editedExample('pocket-in-bend', ['height: 0.4\n', 'height: 0.0004\n']),
    [/channel\.edgeRadius: .*; host\.pocket\.height: 0\.0004 mm .*given in m\? Then write 0\.4$/],
  ],
  [
    'a surface of a mesh by another name',
    editedExample('hat-foot', ['    panel: { material', '    panle: { material']),
    [/host\.surfaces\.panle: .*did you mean 'panel'\?$/],
  ],
  [
    'a support along the channel',
    editedExample('hat-foot', ['hold: [x, y]', 'hold: [x, z]']),
    [/hold\[1\]: expected one of x, y, received "z"; choose one of these$/],
  ],
  [
    'a section that nothing holds',
    editedExample('hat-foot', [/\n {4}panel-end: .*/, '']),
    [/^\d+\|host\.loads\.lift: expected a load that the supports hold/],
  ],
  [
    'one of several choices that cannot be',
    editedExample('choices', ['[5, 6]] #', '[5, 60]] #']),
    [/host\.pocket\.plies: expected plies 2 to 11 of 12/],
  ],
  [
    'a slot in a laminate of one ply',
    editedExample('two-channels', ['layup: "[90_2/0_2]2s"', 'layup: [0]']),
    [/host\.layup: expected at least 2 plies/, /host\.pocket\.plies: expected plies 2 to 0 of 1: one stays below/],
  ],
  [
    'a shear on an endless row',
    editedExample(
      'row',
      ['bend: { moment: 20 }', 'shear: { force: 20 }'],
      ['bent: { cure: 1, bend: 1 }', 'sheared: { cure: 1, shear: 1 }'],
    ),
    [/loads\.shear: expected no shear on an endless row/],
  ],
  // Several mistakes at once: each once.
  [
    'three mistakes',
    edited(['bendRadius: 8 ', 'bendRadius: 0 '], ['support: clamped', 'support: glued'], ['seed: 1 ', 'sed: 1 ']),
    [/host\.bendRadius: .*received 0/, /host\.support: .*"glued"/, /search\.sed: .*did you mean 'seed'\?/],
  ],
  [
    'mistakes of type, name and range',
    edited(
      ['E1: 39000', 'E1: many'],
      ['families: [ellipse, teardrop, spline]', 'families: [elipse]'],
      ['allow: 32 ', 'allow: -32 '],
    ),
    [/\.E1: .*"many"/, /families\[0\]: .*did you mean 'ellipse'/, /allow: .*-32/],
  ],
];

const several: readonly Faulty[] = [
  [
    'a ply in GPa, a cure without sign and kN at once',
    edited(
      ['E1: 39000', 'E1: 39'],
      ['E2: 11500', 'E2: 11.5'],
      ['G12: 4300', 'G12: 4.3'],
      ['deltaT: -100', 'deltaT: 100'],
      ['force: 20 ', 'force: 0.02 '],
    ),
    [/^materials.*GPa/, /^loads\.pull\.force: .*kN/, /^loads\.cure\.deltaT: .*sign lost/],
  ],
];

const check = async (text: string, says: readonly RegExp[], isRefused: boolean) => {
  const { refused: was, said } = await saidOf(text);
  expect(was, said.join('\n')).toBe(isRefused);
  expect(said.length, said.join('\n')).toBe(says.length);
  says.forEach((one, i) => {
    expect(said[i]).toMatch(one);
  });
};

describe('a faulty brief is cautioned, once for each mistake', () => {
  it.each([...cautioned, ...several])('%s', (_mistake, text, says) => check(text, says, false));
});

describe('a faulty brief is refused, once for each mistake', () => {
  it.each(refused)('%s', (_mistake, text, says) => check(text, says, true));
});

it('at least a hundred of them', () => {
  expect(cautioned.length + several.length + refused.length).toBeGreaterThanOrEqual(100);
});
