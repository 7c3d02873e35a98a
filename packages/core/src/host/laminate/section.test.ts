import { describe, expect, it } from 'vitest';
import { readBrief } from '../../brief/index.js';
import { InputError } from '../../errors.js';
import type { LaminateJoint } from './laminate.js';
import { pocketForm } from './pocket.js';

const layup = '[90, 90, 0, 0, 0, 0, 90, 90, 90, 90, 0, 0]';
const brief = (pocket: string, more = '') => `title: Pocket
host: { kind: laminate, layup: ${layup}, pocket: ${pocket}${more} }
loads: { cure: { deltaT: -100 } }
channel: { wall: 0.04, edgeRadius: 0.06 }
`;

async function refusal(text: string): Promise<string> {
  try {
    await readBrief(text);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error.problems.map((one) => `${one.path}: ${one.expected}; ${one.remedy}`).join('\n');
  }
  return 'accepted';
}

describe('a pocket that cannot be', () => {
  it.each([
    [
      'deeper than the thinner stack',
      '{ made: drape, above: 2, height: 0.9 }',
      /pocket\.height: .*at most 0\.5 mm.*deeper/,
    ],
    ['on the last ply', '{ made: drape, above: 12 }', /pocket\.above: a ply with one above it: 1 to 11 of 12/],
    ['under a film that is too thin', '{ made: drape, height: 0.8, film: 0.01 }', /pocket\.film: at least 0\.0246 mm/],
    ['too short for its height', '{ made: drape, length: 1 }', /pocket\.length: at least 2\.9 mm/],
    ['wider than the laminate', '{ made: cut, plies: [6, 7], width: 60 }', /pocket\.width: at most 34 mm/],
    ['cut in no ply', '{ made: cut, plies: [7, 6] }', /pocket\.plies: .*write \[6, 7\]/],
    ['cut through', '{ made: cut, plies: [1, 12] }', /pocket\.plies: plies 2 to 11 of 12.*deeper/],
    [
      'too short for its preforms',
      '{ made: drape, length: 3, flat: 1 }',
      /pocket\.length: at least 3\.9 mm, 5 times the height of the pocket \(preform and film\) and flat/,
    ],
    [
      'of any height over several preforms',
      '{ made: drape, heights: [0.3, 0.5], flat: 1 }',
      /pocket\.heights: one height where plies run level/,
    ],
    ['made in another way', '{ made: laser }', /pocket\.made: cut or drape/],
  ])('is refused: %s', async (_name, pocket, says) => {
    expect(await refusal(brief(pocket))).toMatch(says);
  });
});

describe('a pocket after its brief', () => {
  const pocketOf = async (pocket: string, more?: string) =>
    ((await readBrief(brief(pocket, more))).joint as LaminateJoint).pocket;

  it('holds the preform with its film on both sides', async () => {
    expect(await pocketOf('{ made: drape, height: 0.42, film: 0.04 }')).toEqual({
      made: 'drape',
      below: 6,
      height: 0.5,
      halfLength: 2,
      faces: 'both-flat',
    });
  });

  it('is longer where plies of one side alone give way: by the fourth root of two', async () => {
    const pocket = await pocketOf('{ made: drape, height: 0.42, film: 0.04 }', ', faces: bottom-flat');
    expect(pocket.made === 'drape' && pocket.halfLength / 2).toBeCloseTo(Math.sqrt(Math.SQRT2), 12);
  });

  it('is longer by what lies under level plies', async () => {
    const pocket = await pocketOf('{ made: drape, height: 0.42, film: 0.04, flat: 1 }');
    expect(pocket).toMatchObject({ halfLength: 2.5, flat: 0.5 });
    const layers = { thickness: 0.25, angle: 90, ply: {} as never };
    const form = pocketForm({ layup: Array.from({ length: 12 }, () => layers), pocket });
    const round = pocketForm({
      layup: Array.from({ length: 12 }, () => layers),
      pocket: { ...pocket, halfLength: 2, flat: 0 } as never,
    });
    for (const x of [0, 0.3, 0.5]) expect([form.lower.at(x), form.upper.at(x)]).toEqual([1.25, 1.75]);
    for (const x of [0.2, 0.9, 1.7]) {
      expect(form.upper.at(x + 0.5)).toBeCloseTo(round.upper.at(x), 12);
      expect(form.angle(x + 0.5, 2)).toBeCloseTo(round.angle(x, 2), 12);
      expect(form.distance(x + 0.5, 1.5)).toBeCloseTo(round.distance(x, 1.5), 12);
    }
    expect(form.distance(0.2, 1.6)).toBeCloseTo(0.15, 12);
  });

  it('counts cut plies from one at the bottom', async () => {
    expect(await pocketOf('{ made: cut, plies: [6, 7], width: 3 }')).toEqual({
      made: 'cut',
      first: 5,
      count: 2,
      halfWidth: 1.5,
    });
  });
});
