import {
  type FrontDocument,
  outlineOf,
  type PickDocument,
  type ResolvedBrief,
  readBrief,
  readResult,
  starterBrief,
  UnmetError,
} from '@lumenfront/core';
import { beforeAll, describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import {
  judgeMade,
  openThread,
  runCheck,
  runDelivery,
  runFront,
  runMadePick,
  runPick,
  runPickRepeats,
  runRepeats,
  runScatterFront,
  runScatterStudy,
} from './index.js';
import { describeNearest } from './nearest.js';
import { referenceCurve, referenceData } from './reference.js';
import type { RunOptions } from './session.js';
import type { Scoring } from './workplace.js';

/** This thread, its joints solved once in a run of all tests. */
const workplace = { ...openThread(), prepare: preparedTask };
let brief: ResolvedBrief;
/** Of the brief, with the evaluations told on the way. */
let front: FrontDocument;
const progress: number[] = [];
let pick: PickDocument;
beforeAll(async () => {
  brief = await readBrief(starterBrief.replace(/evaluations: \d+/, 'evaluations: 400'));
  front = await runFront(brief, { workplace, onProgress: ({ evaluations }) => void progress.push(evaluations) });
  pick = await runPick(brief, { workplace });
});

function listener() {
  const notes: string[] = [];
  return { notes, workplace: { ...workplace, note: (text: string) => void notes.push(text) } };
}

const plate = (largest: number) =>
  readBrief(
    JSON.stringify({
      title: 'sheet',
      host: { kind: 'plate' },
      loads: { farField: { sx: 2, sy: 1, txy: 0 } },
      cases: { pulled: { farField: 1 } },
      channel: { families: ['ellipse'], edgeRadius: 0.1, largest: { width: largest, height: largest } },
      search: { evaluations: 400 },
    }),
  );

describe('a pick as it is made', () => {
  const quickly = (): ResolvedBrief => ({
    ...brief,
    scatter: { ...brief.scatter, samples: 60 },
    channel: { ...brief.channel, families: ['ellipse'] },
  });

  it('is kept by fewer made channels than one that was picked for them, which is smaller', {
    tags: 'long',
  }, async () => {
    const usual = await runPick(quickly(), { workplace });
    expect(judgeMade(quickly(), usual, workplace).withinAllowed).toBeLessThan(0.5);
    const { design, made, allow, ...rest } = await runMadePick(quickly(), { workplace });
    expect(allow).toBe(brief.allow);
    expect(made!.withinAllowed).toBeGreaterThanOrEqual(0.95);
    expect(made!.peak).toBeLessThanOrEqual(allow);
    expect(design.area).toBeLessThan(usual.design.area);
    // A result of the same brief, that is read again.
    expect(rest.brief!.fingerprint).toBe(usual.brief!.fingerprint);
    await readResult(JSON.parse(JSON.stringify({ ...rest, design, made, allow })), ['pick'], 'made.json');
  });

  it('leaves out a channel around which the fast model is off, where another is not, and says so', async () => {
    const offAtLargest: RunOptions['workplace'] = {
      ...workplace,
      evaluate: async (task) => {
        const scoring = await workplace.evaluate(task);
        const report: Scoring['report'] = async (outlines) => {
          const reported = await scoring.report(outlines);
          const most = Math.max(...reported.map(({ design }) => design.area));
          return reported.map((one) =>
            one.design.area < most ? one : { ...one, design: { ...one.design, change: 0.02 } },
          );
        };
        return { ...scoring, report };
      },
    };
    const both: ResolvedBrief = { ...brief, channel: { ...brief.channel, families: ['ellipse', 'teardrop'] } };
    const { design, families, cautions } = await runPick(both, { workplace: offAtLargest });
    const [largest, next] = Object.values(families).sort((a, b) => b!.area - a!.area);
    expect(largest!.area).toBeGreaterThan(next!.area);
    expect(design).toEqual(next);
    expect(cautions.join()).toMatch(/a channel of [\d.]+ mm² was left out: .*off by more than 1 %/);
  });

  it('is the largest over the seeds, which are told', async () => {
    const { design, search } = await runPickRepeats(quickly(), 2, { workplace });
    const { seeds, least, median, most } = search.repeats!;
    expect(seeds.map(({ seed }) => seed)).toEqual([brief.search.seed, brief.search.seed + 1]);
    expect(design.area).toBe(most);
    expect(median).toBeCloseTo((least + most) / 2, 12);
  });

  it('goes on where one of the seeds finds none, and says so', { tags: 'long' }, async () => {
    const few = { ...quickly(), search: { ...quickly().search, evaluations: 200 } };
    const leastOf = async (seed: number) => {
      const found = runPick({ ...few, search: { ...few.search, seed }, allow: 1 }, { workplace });
      return found.then(
        () => 0,
        (error: UnmetError) => error.leastPeak!,
      );
    };
    const least = [await leastOf(1), await leastOf(2)];
    const between = { ...few, allow: (least[0]! + least[1]!) / 2 };
    const met = 1 + least.indexOf(Math.min(...least));
    const { cautions, search } = await runPickRepeats(between, 2, { workplace });
    expect(search.repeats!.seeds.map(({ seed }) => seed)).toEqual([met]);
    expect(cautions.join()).toMatch(
      new RegExp(`the search with seed ${3 - met} found none: no channel stays within the allowed peak`),
    );
    await expect(runPickRepeats({ ...few, allow: 1 }, 2, { workplace })).rejects.toMatchObject({
      leastPeak: Math.min(...least),
    });
  });
});

describe('a front', () => {
  it('holds admissible designs by growing area, none dominated, evaluated with more nodes than the search took', () => {
    expect(front.designs.length).toBeGreaterThan(3);
    front.designs.forEach((design, i) => {
      const before = front.designs[i - 1];
      if (before !== undefined) {
        expect(design.area).toBeGreaterThan(before.area);
        expect(design.peak).toBeGreaterThan(before.peak);
      }
      expect(design.wall).toBeGreaterThan(0.999 * brief.channel.wall);
      expect(design.minEdgeRadius).toBeGreaterThan(0.995 * brief.channel.edgeRadius);
      expect(design.peak).toBe(Math.max(...Object.values(design.cases).map(({ peak }) => peak)));
      expect(design.cases[design.worstCase]!.peak).toBe(design.peak);
      expect(Math.abs(design.change)).toBeLessThan(0.01);
    });
  });

  it('is no worse than the front of any family', () => {
    expect(Object.keys(front.families)).toEqual(brief.channel.families);
    for (const [name, members] of Object.entries(front.families))
      for (const member of members) {
        expect(member.family).toBe(name);
        const better = front.designs.some((one) => one.area >= member.area * 0.999 && one.peak <= member.peak * 1.001);
        expect(better, `${name} of ${member.area} mm²`).toBe(true);
      }
  });

  it("evaluates a design once, whether it is on a family's front, the common one or both", () => {
    const members = new Map(
      Object.values(front.families).flatMap((family) => family.map((one) => [JSON.stringify(one.parameters), one])),
    );
    const shared = front.designs.filter((one) => members.get(JSON.stringify(one.parameters)) === one);
    expect(shared.length).toBeGreaterThan(0);
    for (const one of front.designs) {
      const member = members.get(JSON.stringify(one.parameters));
      if (member !== undefined) expect(member).toBe(one);
    }
  });

  it('has the reference beside it, and says how it was searched', () => {
    expect(front.reference.area).toBeCloseTo(Math.PI * 0.4 ** 2, 6);
    expect(front.reference.family).toBe('ellipse');
    expect(front.search).toMatchObject({ seed: 1 });
    expect(front.search.evaluations).toBeLessThanOrEqual(400);
    expect(front.search.runs.every(({ stop }) => stop !== '')).toBe(true);
    expect(front.versions).toBe(workplace.versions);
  });

  it('keeps what is asked of strength, or says that it cannot', async () => {
    const asking = (leastRetained: number, evaluations: number) => ({
      ...brief,
      search: { ...brief.search, evaluations },
      strength: { ...brief.strength, leastRetained },
    });
    const retained = ({ designs }: FrontDocument) => designs.map(({ strength }) => strength!.retained);
    const least = (Math.min(...retained(front)) + Math.max(...retained(front))) / 2;
    const strong = await runFront(asking(least, 1000), { workplace });
    expect(strong.designs.length).toBeGreaterThan(0);
    expect(Math.min(...retained(strong))).toBeGreaterThanOrEqual(least);
    await expect(runFront(asking(5, 400), { workplace })).rejects.toThrow(
      /no channel keeps what is asked of strength \(strength\.leastRetained/,
    );
  });

  it('trades strength retained for area where that is asked, and flow for area', { tags: 'long' }, async () => {
    const asking = (objective: ResolvedBrief['search']['objective'], evaluations: number) =>
      runFront({ ...brief, search: { ...brief.search, evaluations, objective } }, { workplace });
    const strong = await asking({ size: 'area', cost: 'strengthRetained' }, 2000);
    expect(strong.search.objective).toEqual({ size: 'area', cost: 'strengthRetained' });
    expect(strong.designs.length).toBeGreaterThan(3);
    strong.designs.slice(1).forEach(({ area, strength }, i) => {
      const before = strong.designs[i]!;
      expect(area).toBeGreaterThan(before.area);
      expect(strength!.retained).toBeLessThan(before.strength!.retained);
      expect(1 / strength!.retained).toBeLessThan(strong.search.referencePoint[1]);
    });
    const retained = ({ designs }: FrontDocument) => designs.map(({ strength }) => strength!.retained);
    expect(Math.max(...retained(strong))).toBeGreaterThan(Math.max(...retained(front)));

    const flowing = await asking({ size: 'conductance', cost: 'peak' }, 800);
    expect(flowing.designs.length).toBeGreaterThan(3);
    flowing.designs.slice(1).forEach(({ conductance, peak }, i) => {
      expect(conductance).toBeGreaterThan(flowing.designs[i]!.conductance);
      expect(peak).toBeGreaterThan(flowing.designs[i]!.peak);
    });
  });

  it('of a plate trades no strength', async () => {
    const sheet = await plate(10);
    const asking = { ...sheet, search: { ...sheet.search, objective: { size: 'area', cost: 'loadFactor' } as const } };
    await expect(runFront(asking, { workplace })).rejects.toThrow(/search\.against: expected peak/);
  });

  it('tells its progress', () => {
    expect(progress.length).toBeGreaterThan(2);
    expect(progress).toEqual([...progress].sort((a, b) => a - b));
    expect(progress.at(-1)).toBeLessThanOrEqual(400);
  });

  it('of a plate with room finds the ellipse of uniform hoop: axes 2:1 and peak sx + sy', async () => {
    const { designs } = await runFront(await plate(10), { workplace });
    expect(designs.some(({ strength }) => strength !== undefined)).toBe(false);
    expect(Math.min(...designs.map(({ peak }) => peak)) / 3).toBeLessThan(1.01);
  });
});

describe('a repeated front', () => {
  it('is that of the first seed, with the spread of the hypervolume over all, against one reference point', async () => {
    const done: number[] = [];
    const repeated = await runRepeats(brief, 3, {
      workplace,
      onProgress: ({ evaluations }) => void done.push(evaluations),
    });
    expect(done).toEqual([...done].sort((a, b) => a - b));
    expect(done.at(-1)).toBeGreaterThan(800);
    const { repeats, ...search } = repeated.search;
    expect(repeats!.seeds.map(({ seed }) => seed)).toEqual([1, 2, 3]);
    // The brief alone says what hypervolumes are measured from: three times the peak of its reference channel.
    expect(repeated.search.referencePoint).toEqual([0, 3 * repeated.reference.peak]);
    expect(repeats!.referencePoint).toEqual(repeated.search.referencePoint);
    expect(repeats!.seeds[0]!.hypervolume).toBe(repeated.search.hypervolume);
    const volumes = repeats!.seeds.map((one) => one.hypervolume).sort((a, b) => a - b);
    expect([repeats!.least, repeats!.median, repeats!.most]).toEqual(volumes);
    expect(volumes[0]).toBeGreaterThan(0);
    expect({ ...repeated, search }).toEqual(front);
  });
});

describe('a pick', () => {
  it('looks for area within the allowed peak, whatever a front is asked to trade', async () => {
    const other = { size: 'conductance', cost: 'strengthRetained' } as const;
    const asked = await runPick({ ...brief, search: { ...brief.search, objective: other } }, { workplace });
    expect({ ...asked, brief: pick.brief }).toEqual(pick);
  });

  it('stays within the allowed peak as evaluated for the report, and is the largest over the families', async () => {
    const within30 = await runPick({ ...brief, allow: 30 }, { workplace });
    const members = Object.values(within30.families);
    for (const member of members) expect(member.peak).toBeLessThanOrEqual(30);
    expect(within30.design.area).toBe(Math.max(...members.map(({ area }) => area)));
    expect(within30.allow).toBe(30);
  });

  it('says how far the least peak is beyond what is allowed', async () => {
    const none = runPick({ ...brief, allow: 2 }, { workplace });
    await expect(none).rejects.toThrow(UnmetError);
    await expect(none).rejects.toThrow(/allowed peak of 2 MPa: the least that was found is [\d.]+ MPa, [\d.]+ MPa/);
  });

  it('that is stopped before any channel was judged tells no peak', async () => {
    await expect(runPick(brief, { workplace, signal: { aborted: true } })).rejects.toThrow(/^no channel was judged$/);
  });
});

describe('where no channel is found', () => {
  const circle = (y: number, size: number) => ({ family: 'ellipse', parameters: { y, width: size, height: size } });

  it('the message says which constraint is missed, by how much in mm, and what would help', () => {
    const near = describeNearest(brief, { ...circle(0.9, 1.6), constraint: 'room', violation: 0.05 });
    expect(near).toMatch(
      /no channel was found that keeps channel\.wall: .* an ellipse of 2\.01\d mm², has a wall of 0\.1 mm, 0\.1 mm short of 0\.2 mm; the reference keeps both, so that there are some: search longer/,
    );
    const sharp = { family: 'ellipse', parameters: { y: 2, width: 2, height: 0.5 } };
    expect(describeNearest(brief, { ...sharp, constraint: 'edgeRadius', violation: 0.75 })).toMatch(
      /keeps channel\.edgeRadius: .* radius of 0\.062\d mm, 0\.187\d mm short of 0\.25 mm; the reference keeps both/,
    );
    const flat = { ...brief.channel, reference: { ...brief.channel.reference, height: 0.2 } };
    expect(
      describeNearest({ ...brief, channel: flat }, { ...sharp, constraint: 'edgeRadius', violation: 0.75 }),
    ).toMatch(/short of 0\.25 mm; lower channel\.edgeRadius or channel\.wall, or search longer/);
    expect(describeNearest(brief, { ...circle(2, 1), constraint: 'crossing', violation: 1 })).toMatch(/cross itself/);
    expect(describeNearest(brief, { ...circle(2, 1), constraint: 'peak', violation: 0.123 })).toMatch(
      /misses it by 12\.3 %/,
    );
    expect(describeNearest(brief, undefined)).toMatch(/raise search\.evaluations/);
  });

  it('the message says what is missed of strength: what is asked of it, or the cure alone', () => {
    const near = { ...circle(2, 1), constraint: 'strength', violation: 0.25 } as const;
    expect(describeNearest(brief, near)).toMatch(/whole in the cure alone: .* misses it by 25 %; lower loads\.cure/);
    const asking = { ...brief, strength: { ...brief.strength, leastRetained: 0.9 } };
    expect(describeNearest(asking, near)).toMatch(/what is asked of strength .* misses it by 25 %; ask for less/);
  });

  it('the message of several channels names their pitch where it is missed, and counts the area of each', async () => {
    const sheet = await plate(4);
    const pair = {
      ...sheet,
      channel: { ...sheet.channel, wall: 0.1, group: { number: 2, pitch: 3, connected: 'parallel' as const } },
    };
    const parameters = { x: 1, y: 0, width: 1, height: 1, turn: 0 };
    expect(describeNearest(pair, { family: 'ellipse', parameters, constraint: 'room', violation: 0.1 })).toMatch(
      /no channels keep channels\.pitch: .* an ellipse of 0\.7854 mm² each, would have a pitch of 2 mm, 3 mm is asked for/,
    );
  });

  it('the message of a plate names its largest extent', async () => {
    const sheet = await plate(1);
    expect(describeNearest(sheet, { ...circle(0, 1), constraint: 'room', violation: 0.1 })).toMatch(
      /within channel\.largest: .* 1 mm wide and 1 mm high, the most is 1 by 1 mm/,
    );
  });
});

describe('the reference', () => {
  it('stands where the brief puts it, also beside the mirror line', () => {
    const reference = { family: 'ellipse', at: [0.3, 2], width: 0.8, height: 0.5 } as const;
    expect(referenceData(reference).parameters).toEqual({ x: 0.3, y: 2, width: 0.8, height: 0.5, turn: 0 });
    expect(referenceCurve(reference).mirror).toBe(false);
    expect(referenceCurve({ ...reference, at: [0, 2] }).mirror).toBe(true);
  });

  it('is evaluated though sharper than the brief allows, by a model of its own, and this is said', {
    tags: 'long',
  }, async () => {
    const { notes, workplace } = listener();
    const flat = { ...brief.channel, reference: { family: 'ellipse', at: [0, 2], width: 1.2, height: 0.3 } } as const;
    const front = await runFront({ ...brief, channel: flat }, { workplace });
    // Radius of curvature at the end of an ellipse: b^2 / a.
    expect(front.reference.minEdgeRadius).toBeCloseTo(0.15 ** 2 / 0.6, 4);
    expect(front.reference.peak).toBeGreaterThan(0);
    expect(notes.join('\n')).toMatch(/reference channel has .* least edge radius of 0\.03[78]/);
    expect(notes.join('\n')).toMatch(/solved once more, for the reference channel/);
  });
});

describe('a check', () => {
  const room = { mirror: true, xMin: -8, xMax: 8, yMin: 0, yMax: 8, edgeRadius: 0, bendRadius: 8 };
  const ellipse = (y: number, width: number, height: number) =>
    outlineOf({ family: 'ellipse', parameters: { y, width, height } }, room);

  it('gives both models, which agree', { tags: 'long' }, async () => {
    const { notes, workplace } = listener();
    const check = await runCheck(brief, ellipse(1.5, 3, 1.4), { mesh: true, workplace });
    expect(Object.keys(check.fast.loads)).toEqual(['pull', 'cure']);
    expect(Object.keys(check.meshed!.loads)).toEqual(['pull', 'cure']);
    expect(Object.keys(check.meshed!.cases)).toEqual(Object.keys(check.fast.cases));
    expect(check.difference!.holds).toBe(true);
    expect(Math.abs(check.difference!.worst.difference)).toBeLessThan(0.005);
    expect(check.meshed!.error).toBeLessThan(0.005);
    expect(notes.filter((text) => text.startsWith('note:'))).toEqual([]);
  });

  it('tells what the channel leaves of the joint, case by case, as the front tells it in short', async () => {
    const { design, reference } = pick;
    const { strength } = await runCheck(brief, outlineOf(design, room), { mesh: false, workplace });
    expect(strength!.cuspDistance).toBeCloseTo(0.8, 12);
    expect(strength!.edge).toBe('peak');
    expect(Object.keys(strength!.cases)).toEqual(Object.keys(design.cases));
    for (const [name, one] of Object.entries(strength!.cases)) {
      expect(one.retained, name).toBeCloseTo(one.loadFactor / one.withoutChannel.loadFactor, 12);
      expect(one.places[0]!.factor).toBeCloseTo(one.loadFactor, 6);
      // A case that scales as a whole fails at the edge where the peak meets the strength.
      if (one.scales === 'cure')
        expect(one.places.find(({ place }) => place === 'edge')!.factor).toBeCloseTo(38 / design.cases[name]!.peak, 3);
    }
    const { retained, loadFactor, worstCase, place } = strength!;
    expect(design.strength).toMatchObject({ worstCase, place });
    expect(design.strength!.retained).toBeCloseTo(retained, 6);
    expect(design.strength!.loadFactor).toBeCloseTo(loadFactor, 6);
    expect(reference.strength!.retained).toBeLessThan(1);
  });

  it('leaves the mesh out when asked to', async () => {
    const check = await runCheck(brief, ellipse(1.5, 3, 1.4), { mesh: false, workplace });
    expect(check.meshed).toBeUndefined();
    expect(check.difference).toBeUndefined();
  });

  it('takes a model of its own for an outline nearer to the laminate than the brief allows', {
    tags: 'long',
  }, async () => {
    const { notes, workplace } = listener();
    const check = await runCheck(brief, ellipse(0.7, 1.6, 1.2), { mesh: true, workplace });
    expect(check.wall).toBeCloseTo(0.1, 6);
    expect(notes.join('\n')).toMatch(/the channel has a wall of 0\.100 mm .* asks for 0\.2/);
    expect(check.difference!.holds).toBe(true);
  });
});

describe('what studies write', () => {
  it('is read again as it was, every key known to the schema of its kind', { tags: 'long' }, async () => {
    const room = { mirror: true, xMin: -8, xMax: 8, yMin: 0, yMax: 8, edgeRadius: 0, bendRadius: 8 };
    const outline = outlineOf({ family: 'ellipse', parameters: { y: 1.5, width: 3, height: 1.4 } }, room);
    const few = { ...brief, scatter: { ...brief.scatter, samples: 20 } };
    const check = await runCheck(brief, outline, { mesh: false, workplace });
    const scatter = runScatterStudy(few, outline, workplace);
    const delivery = runDelivery(brief, outline, workplace);
    const documents = [
      front,
      pick,
      check,
      delivery,
      scatter,
      runScatterFront(few, front.designs, { workplace, evaluations: 0, onProgress: () => {} }),
      await runFront(await plate(10), { workplace }),
    ];
    expect(scatter.nominal.peak).toBe(check.fast.peak);
    expect(scatter.nominal.loadFactor).toBeCloseTo(check.strength!.loadFactor, 6);
    for (const document of documents) {
      const { kind, result } = await readResult(JSON.parse(JSON.stringify(document)), [document.kind!], 'file');
      expect(kind).toBe(document.kind);
      expect(result).toEqual(document);
      expect(document.brief!.fingerprint).toMatch(/^[0-9a-f]{64}$/);
    }
    const older = JSON.stringify(delivery).replaceAll('"conductance"', '"flowFactor"');
    expect((await readResult(JSON.parse(older), ['deliver'], 'file')).result).toEqual(delivery);
  });
});
