import { PassThrough } from 'node:stream';
import {
  type CheckDocument,
  type CheckedStrength,
  type CrackGrowth,
  type DesignDocument,
  type FrontDocument,
  type PickDocument,
  readBrief,
  starterBrief,
} from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { checkText } from './check-text.js';
import { describeDisagreement } from './describe-disagreement.js';
import { frontText } from './front-text.js';
import { pickText } from './pick-text.js';
import { crackTables } from './report-tables.js';
import { workersFor } from './search-options.js';
import { terminalOf } from './terminal.js';

const at = [-0.0001, 1.25] as const;

function design(family: string, area: number, peak: number): DesignDocument {
  return {
    family,
    parameters: { y: 2, width: 1 / 3 },
    area,
    perimeter: 4,
    conductance: area ** 2 / 20,
    width: 1,
    height: 1,
    wall: 0.2,
    minEdgeRadius: 0.25,
    peak,
    worstCase: 'pulled',
    loads: { pull: { peak, at, least: -9 } },
    cases: { cured: { peak: peak / 2, at, least: -1 }, pulled: { peak, at, least: -9 } },
    nodes: 128,
    change: 0.0002,
  };
}

const verified = (one: DesignDocument, difference: number): DesignDocument => ({
  ...one,
  ...{
    meshed: { loads: {}, cases: { pulled: { peak: 30.6, at, least: -9, error: 0.001 } }, error: 0.001, meshes: [] },
    difference: {
      loads: {},
      cases: { pulled: difference },
      worst: { under: 'case pulled', fast: one.peak, meshed: 30.6, difference, error: 0.001 },
      holds: Math.abs(difference) < 0.01,
    },
  },
});

const common = {
  title: 'a joint',
  reference: design('ellipse', 0.5, 40),
  allow: 32,
  cautions: ['material values are typical'],
  versions: {},
};

const run = (method: 'genetic' | 'descent', evaluations: number, stop: string) => ({
  ...{ family: 'spline', method, evaluations, stop },
});

const front: FrontDocument = {
  ...common,
  designs: [verified(design('ellipse', 1, 20), 0.002), design('spline', 2, 30), design('spline', 3, 35)],
  families: {
    ellipse: [design('ellipse', 1, 20), design('ellipse', 1.5, 33)],
    spline: [design('spline', 2, 30), design('spline', 3, 35)],
  },
  search: {
    seed: 7,
    evaluations: 4000,
    objective: { size: 'area', cost: 'peak' },
    hypervolume: 123.456,
    referencePoint: [0, 60],
    runs: [
      run('genetic', 100, 'front stalled'),
      run('descent', 20, 'no more gain'),
      run('descent', 30, 'budget spent'),
    ],
  },
};

const brief = await readBrief(starterBrief);
const timing = { seconds: 2.345, workers: 2 };
const told = { brief, timing, details: true, made: false };
const terminal = { width: 120, colour: false };
const row = (text: string, starts: RegExp) => text.split('\n').find((line) => starts.test(line));

describe('a front for people', () => {
  const text = frontText(front, { ...told, shown: [0, 2] }, terminal);

  it('shows the chosen designs by their number in the file, with the reference beside them', () => {
    expect(row(text, /^ +1 +ellipse/)).toMatch(
      /1 +ellipse +1\.000 +2\.00 +1\.00 x 1\.00 +4\.00 +20\.0 +0\.50 +30\.6 +0\.20 +10\.0 +20\.0 +0\.200 +0\.250/,
    );
    expect(row(text, /^ +3 +spline/)).toMatch(/3\.000 +6\.00 +1\.00 x 1\.00 +36\.0 +35\.0 +0\.88 +- +- /);
    expect(row(text, /ref\. +ellipse/)).toMatch(/0\.500 +1\.00 +1\.00 x 1\.00 +1\.00 +40\.0 +1\.00/);
    // The design of the answer stands in the table, whether it was among the places or not.
    expect(row(text, /^ +2 +spline/)).toMatch(/2\.000 +4\.00 +1\.00 x 1\.00 +16\.0 +30\.0/);
    expect(text).toMatch(/the 3 designs of the front/);
  });

  it('compares the families at a few areas; one that does not reach there has a dash', () => {
    const rows = text.slice(text.indexOf('least peak of each family')).split('\n').slice(5, 11);
    expect(rows[0]).toMatch(/0\.429 +20\.0 +30\.0/);
    expect(rows[2]).toMatch(/1\.286 +33\.0 +30\.0/);
    expect(rows[4]).toMatch(/2\.143 +- +35\.0/);
  });

  it('tells the strength retained and where failure starts, and leaves both out on a plate', () => {
    const strength = { retained: 0.712, loadFactor: 1.2, worstCase: 'pulled', place: 'bend', at: [1, 2] } as const;
    const [first, ...others] = front.designs;
    const judged = frontText(
      { ...front, designs: [{ ...first!, strength }, ...others] },
      { ...told, shown: [0, 2] },
      terminal,
    );
    expect(judged).toContain('retained');
    expect(row(judged, /^ +1 +ellipse .*bend/)).toMatch(/71\.2 +bend/);
    expect(text).not.toContain('retained');
  });

  it('tells what the edge of a channel of known outline bears, and where that is more than the peak', () => {
    const known = (stress: number) => {
      const beside = { stress, at: [1, 2], worstCase: 'pushed' } as const;
      const strength = {
        retained: 0.7,
        loadFactor: 1.2,
        worstCase: 'pulled',
        place: 'bend',
        at: [1, 2],
        beside,
      } as const;
      const designs = front.designs.map((design) => ({ ...design, strength }));
      return frontText({ ...front, designs }, { ...told, shown: [0, 2] }, { ...terminal, width: 200 });
    };
    expect(row(known(33), /^ +1 +ellipse/)).toMatch(/10\.0 +20\.0 +33\.0 +70\.0/);
    expect(known(33)).toContain(
      'The channel of known outline beside it bears more, 33.00 MPa in case pushed: beyond the allowed 32 MPa, to which only each outline of the front is held.',
    );
    expect(known(29)).not.toContain('bears more');
    expect(text).not.toContain('known outline');
  });

  it('ends with the answer in words, what limits it, and what to type next', () => {
    expect(text).toContain(
      'Largest channel found that stays within the allowed 32 MPa: design 2, spline, 2.000 mm², peak 30.0 MPa in pulled.',
    );
    expect(text).toContain(
      'Against the reference of 0.5 mm²: 4.00 times the area, 16.0 times the flow, 25 % less peak stress',
    );
    expect(text).toMatch(
      /What limits it: the allowed peak; design 3, the next larger, has 35\.0 MPa; its shape lies against the wall/,
    );
    expect(text).toContain(
      'Smaller channels are not on the front: none found below 1.000 mm² has a lower peak than design 1 (20.0 MPa).',
    );
    expect(text).toContain('npx lumenfront front joint.yaml --out front.json');
    const kept = frontText(front, { ...told, shown: [0], briefFile: "Tom's joint.yaml", out: 'f.json' }, terminal);
    expect(kept).toContain(`npx lumenfront check 'Tom'\\''s joint.yaml' --channel f.json --design 2`);
  });

  it('keeps the words of the search for who asks for details', () => {
    const plain = frontText(front, { ...told, details: false, shown: [0] }, terminal);
    expect(plain).toContain('search: seed 7, 4000 outlines');
    for (const word of ['hypervolume', 'budget spent', 'twice the nodes']) expect(plain).not.toContain(word);
  });

  it('marks what fails as loaded, and a design whose models differ where it does not rule', () => {
    const strength = { retained: 0.3, loadFactor: 0.9, worstCase: 'pulled', place: 'edge', at: [1, 2] } as const;
    const [first, ...others] = front.designs;
    const failing = { ...verified(first!, 0.02), strength };
    const marked = frontText(
      { ...front, designs: [failing, ...others], reference: { ...front.reference, strength } },
      { ...told, shown: [0] },
      terminal,
    );
    expect(row(marked, /^ +1 +ellipse/)).toMatch(/2\.00 \*.*/);
    expect(marked).toContain('30.0 !');
    expect(marked).toContain('The reference itself fails below the loads as given: load factor 0.90 in pulled.');
    expect(marked).toContain('1 of the 3 designs fail below the loads as given (marked !)');
  });

  it('has the plot with all that it names', () => {
    for (const name of [
      'area [mm²]',
      'peak [MPa]',
      'o ellipse',
      'S spline, on the front',
      '# reference',
      'allowed 32 MPa',
    ])
      expect(text).toContain(name);
  });

  it('says how the search went, what to know of the brief, and the caution', () => {
    expect(text).toContain('search: seed 7, 4000 outlines in 2.3 s on 2 threads');
    expect(text).toContain(
      'spline: genetic 100 (front stalled); descent 50 in 2 runs (no more gain 1, budget spent 1)',
    );
    expect(text).toContain('hypervolume 123.456 mm² MPa, within area 0 mm² and peak 60.0 MPa');
    expect(text).toContain('twice the nodes change a peak by at most 0.02 %');
    expect(text).toContain('note: material values are typical');
    expect(text).toMatch(/qualified engineer/);
  });

  it('tells the spread over seeds where the search was repeated', () => {
    const seeds = [7, 8].map((seed) => ({ seed, hypervolume: 100 + seed }));
    const repeats = { referencePoint: [0, 60] as const, seeds, least: 107, median: 107.5, most: 108 };
    const repeated = frontText({ ...front, search: { ...front.search, repeats } }, { ...told, shown: [0] }, terminal);
    expect(repeated).toContain('over 2 seeds, 7 to 8: hypervolume 107 to 108, median 107.5 mm² MPa, spread 0.93 %');
    expect(text).not.toContain('seeds');
  });

  it('shows what was traded: flow against the load factor', () => {
    const strong = (one: DesignDocument, loadFactor: number): DesignDocument => ({
      ...one,
      strength: { retained: loadFactor / 2, loadFactor, worstCase: 'pulled', place: 'edge', at: [1, 2] },
    });
    const designs = [strong(design('ellipse', 1, 20), 1.5), strong(design('spline', 2, 30), 0.75)];
    const traded = frontText(
      {
        ...front,
        designs,
        reference: strong(front.reference, 0.5),
        families: { ellipse: [designs[0]!], spline: [designs[1]!] },
        search: { ...front.search, objective: { size: 'conductance', cost: 'loadFactor' }, referencePoint: [0, 2] },
      },
      { ...told, shown: [0, 1] },
      terminal,
    );
    expect(traded).toContain('conductance [mm⁴]');
    expect(traded).toMatch(/^load factor$/m);
    expect(traded).not.toContain('allowed');
    expect(traded).toContain('Largest channel found that bears the loads as given: design 1');
    expect(row(traded, /^ +2 +spline/)).toMatch(/2 +spline +2\.000 +4\.00 +1\.00 x 1\.00 +0\.2000 +16\.0 +30\.0/);
    expect(row(traded, /^ +2 +spline/)).toMatch(/0\.750 +37\.5 ! +channel edge/);
    expect(traded).toContain('largest load factor of each family by itself, at no less than a conductance:');
    expect(traded).toContain('hypervolume 123.456 mm⁴ / load factor, within conductance 0 mm⁴ and load factor 0.500');
    const retained = frontText(
      {
        ...front,
        search: { ...front.search, objective: { size: 'area', cost: 'strengthRetained' }, referencePoint: [0, 4] },
      },
      { ...told, shown: [0] },
      terminal,
    );
    expect(retained).toContain('mm² / share of strength retained, within area 0 mm² and strength retained 25.0 %');
  });

  it('leaves out columns of the mesh where nothing was verified, and the comparison where there is one family', () => {
    const plain = frontText(
      { ...front, designs: front.designs.slice(1), families: { spline: front.families.spline! } },
      { ...told, shown: [0, 1] },
      terminal,
    );
    expect(plain).not.toContain('meshed');
    expect(plain).not.toContain('least peak of each family');
    expect(plain).toContain('the 2 designs of the front');
  });
});

describe('a pick for people', () => {
  const pick: PickDocument = {
    ...common,
    design: design('spline', 2, 31.9),
    families: { ellipse: design('ellipse', 1.5, 31.8), spline: design('spline', 2, 31.9) },
    search: (({ seed, evaluations, runs }) => ({ seed, evaluations, runs }))(front.search),
  };

  it('shows the pick, the other families and the reference, and the parameters', () => {
    const text = pickText(pick, told, terminal);
    expect(row(text, /^ pick +spline/)).toMatch(/2\.000 +4\.00 +1\.00 x 1\.00 +16\.0 +31\.9/);
    expect(row(text, /^other +ellipse/)).toMatch(/1\.500 +3\.00 +1\.00 x 1\.00 +9\.00 +31\.8/);
    expect(row(text, /^ ref\. +ellipse/)).toBeDefined();
    expect(text).toContain('within 32 MPa, the largest of the other families, and the reference');
    expect(text).toContain('y 2, width 0.333333');
    expect(text).toMatch(/qualified engineer/);
  });

  it('tells what chance and scatter make of it', () => {
    const repeats = {
      seeds: [
        { seed: 7, area: 1.9 },
        { seed: 8, area: 2 },
      ],
      least: 1.9,
      median: 1.95,
      most: 2,
    };
    const made = { withinAllowed: 0.04, quantile: 0.95, peak: 34.5, samples: 200 };
    const text = pickText({ ...pick, made, search: { ...pick.search, repeats } }, told, terminal);
    expect(text).toContain('Over 2 seeds, 7 to 8, picks have 1.900 to 2.000 mm², median 1.950: a spread of 5.1 %.');
    expect(text).toContain('4 % of 200 channels like it stay within 32 MPa, 95 % within 34.5 MPa');
    expect(text).toContain('add --made');
  });

  it('speaks of no other families where there are none', () => {
    expect(pickText({ ...pick, families: { spline: pick.design } }, told, terminal)).toContain(
      'within 32 MPa, and the reference',
    );
  });
});

describe('a check for people', () => {
  const { area, perimeter, conductance, width, height, wall, minEdgeRadius, ...fast } = design('spline', 2, 31);
  const plain: CheckDocument = {
    ...{ area, perimeter, conductance, width, height, wall, minEdgeRadius, fast },
    ...{ title: 'a joint', allow: 32, cautions: [], versions: {} },
  };
  const mesh = (peak: number) => ({ peak, at, least: -9, error: 0.001 });
  const both: CheckDocument = {
    ...plain,
    meshed: {
      loads: { pull: mesh(31.5) },
      cases: { cured: mesh(15.5), pulled: mesh(31.5) },
      error: 0.001,
      meshes: [
        { triangles: 800, unknowns: 9 },
        { triangles: 400, unknowns: 5 },
      ],
    },
    difference: {
      loads: { pull: -0.0159 },
      cases: { cured: 0, pulled: -0.0159 },
      worst: { under: 'load pull', fast: 31, meshed: 31.5, difference: -0.0159, error: 0.001 },
      holds: false,
    },
  };

  it('sets both models side by side, with difference and the own error of the mesh', () => {
    const text = checkText(both, terminal);
    expect(row(text, /^load pull/)).toMatch(/31\.00 +31\.50 +-1\.59 +0\.10 +0\.000, 1\.250 +-9\.00 +-9\.00/);
    expect(row(text, /^case cured/)).toMatch(/15\.50 +15\.50 +0\.00/);
    expect(text).toContain('within the allowed 32 MPa');
    expect(text).toContain('conductance 0.2 mm⁴');
    expect(text).toContain('mesh: 800 and 400 triangles, own error 0.10 %');
  });

  it('tells the load factor to first failure with and without channel, where it starts, the weakest places and the limits', () => {
    const place = (name: 'edge' | 'bend' | 'foot' | 'skin', factor: number) => ({ place: name, factor, x: 1, y: 2 });
    const strength: CheckedStrength = {
      ...{ retained: 0.75, loadFactor: 1.5, worstCase: 'pulled', place: 'bend', at: [1, 2], cuspDistance: 0.5 },
      edge: { distance: 0.3, average: true },
      cases: {
        pulled: {
          ...{
            scales: 'loads',
            loadFactor: 1.5,
            retained: 0.75,
            place: 'bend',
            at: [1, 2],
            clarity: 1.2,
            next: 'edge',
          },
          places: [place('bend', 1.5), place('edge', 1.8), place('foot', 4), place('skin', 9)],
          withoutChannel: {
            loadFactor: 2,
            place: 'foot',
            at: [6, 1],
            clarity: 1.5,
            next: 'bend',
            places: [place('foot', 2), place('bend', 3)],
          },
          fatigue: { life: 57.7, ratio: 0.0563, place: 'bend', at: [1, 2] },
        },
        held: {
          ...{ scales: 'loads', loadFactor: Number.POSITIVE_INFINITY, retained: Number.NaN, place: 'none' },
          ...{ at: [Number.NaN, Number.NaN], places: [] },
          withoutChannel: {
            loadFactor: Number.POSITIVE_INFINITY,
            place: 'none',
            at: [Number.NaN, Number.NaN],
            places: [],
          },
          fatigue: { life: Number.POSITIVE_INFINITY, ratio: Number.NaN, place: 'none', at: [Number.NaN, Number.NaN] },
        },
      },
    };
    const text = checkText({ ...plain, strength }, terminal);
    expect(row(text, /^pulled /)).toMatch(
      /1\.500 +2\.000 +75\.0 +bend +1, 2 +1\.20, channel edge +foot +1\.50, bend +0\.0563/,
    );
    expect(row(text, /^held /)).toMatch(/held +- +- +- +nowhere +- +- +nowhere +- +-/);
    expect(row(text, /^pulled +channel edge/)).toMatch(/1\.800 +- +1, 2/);
    expect(text).toMatch(/where failure starts: bend at 1, 2 mm/);
    expect(text).not.toMatch(/^pulled +skin/m);
    expect(text).toContain('Places within 0.5 mm of the tips of the filler or the pocket are not judged');
    expect(text).toContain('averaged over 0.3 mm');
    expect(text).toMatch(/common practice, without a source/);
    expect(checkText(plain, terminal)).not.toContain('strength');

    const beside = (stress: number) =>
      checkText({ ...plain, strength: { ...strength, beside: { stress, at, worstCase: 'pulled' } } }, terminal);
    const own = plain.fast.peak;
    expect(beside(own + 20)).toMatch(
      /of known outline beside it bears more, [\d.]+ MPa in case pulled: beyond the allowed/,
    );
    expect(beside(own - 1)).not.toContain('bears more');
  });

  it('tells of cracks what the report does', () => {
    const crackGrowth: CrackGrowth = {
      ...{ length: 0.5, modeI: 0.2, modeII: 0.6, loadFactor: 6.05 },
      cracks: [
        {
          ...{ end: 'left', below: 4, between: '0/90' },
          cases: {
            cured: { modeI: 0, modeII: 9.04e-5, closed: true, loadFactor: Number.POSITIVE_INFINITY, error: 0.0016 },
            pulled: { modeI: 0.00483, modeII: 0.00182, closed: false, loadFactor: 6.05, error: 0.0006 },
          },
        },
      ],
    };
    const text = checkText({ ...both, crackGrowth }, terminal);
    expect(row(text, /^cured +left/)).toMatch(/left end +4 +0\/90 +closed +0\.0000904 +0\.16 +-/);
    const [table] = crackTables(crackGrowth);
    expect(table!.rows[0]).toEqual(['cured', 'left end', '4', '0/90', 'closed', '0.0000904', '0.16', '–']);
    expect(
      row(text, /^pulled +left/)!
        .trim()
        .split(/ {2,}/),
    ).toEqual(table!.rows[1]);
    expect(text.toLowerCase()).toContain(table!.heading.toLowerCase());
    expect(table!.note).toContain('least load factor at which one grows: 6.050. Crack: one at a time');
    expect(crackTables(undefined)).toEqual([]);
  });

  it('says when the mesh was left out, and when the peak is not allowed', () => {
    const text = checkText({ ...plain, allow: 30 }, terminal);
    expect(text).not.toContain('meshed');
    expect(text).toContain('the independent mesh was left out');
    expect(text).toContain('beyond the allowed 30 MPa');
  });

  it('tells of a disagreement what was expected and what to do', () => {
    const message = describeDisagreement('the channel', both.difference!, both);
    expect(message).toMatch(/disagree on the channel: under load pull they give 31\.00 and 31\.50 MPa, 1\.59 %/);
    expect(message).toMatch(/expected at most 1 %, or the mesh's own error of 0\.10 %\. Use the meshed values/);
    expect(message).toMatch(/channel\.wall above 0\.200 mm, channel\.edgeRadius above 0\.250 mm/);
    const sheet = describeDisagreement('design 3', both.difference!, {
      wall: Number.POSITIVE_INFINITY,
      minEdgeRadius: 0.2,
    });
    expect(sheet).not.toContain('channel.wall');
  });
});

describe('threads and terminals', () => {
  it('takes one thread for a small search, all cores for a large one, and as many as asked for', async () => {
    const brief = await readBrief(starterBrief);
    const small = { ...brief, search: { ...brief.search, evaluations: 400 } };
    expect(workersFor({}, small)).toBe(1);
    expect(workersFor({}, brief)).toBeGreaterThanOrEqual(1);
    expect(workersFor({ workers: 4 }, small)).toBe(4);
  });

  it('knows the width of a terminal, and takes a fair one for a pipe', () => {
    expect(terminalOf(new PassThrough())).toEqual({ width: 100, colour: false });
    expect(terminalOf(Object.assign(new PassThrough(), { columns: 80, isTTY: false })).width).toBe(80);
  });
});
