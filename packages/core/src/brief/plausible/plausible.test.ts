import { describe, expect, it } from 'vitest';
import { readBrief, starterBrief } from '../index.js';

/** What is told of the starter brief after a change, of one path. */
async function toldOf(path: string, from: string | RegExp, to: string): Promise<string[]> {
  const text = starterBrief.replace(from, to);
  expect(text).not.toBe(starterBrief);
  const { cautions } = await readBrief(text);
  return cautions.filter((caution) => caution.startsWith(`${path}:`));
}

describe('what is hardly meant', () => {
  it.each([
    ['0.03', /less than a hundredth of the transverse strength .*; given in GPa\? Then write 30$/],
    ['0.0003', /less than a hundredth of the transverse strength .*; check it$/],
    ['300', /more than the transverse strength/],
  ])('is told of an allowed stress of %s MPa', async (allow, message) => {
    const [told, ...others] = await toldOf('allow', /allow: [\d.]+/, `allow: ${allow}`);
    expect(told).toMatch(message);
    expect(others).toEqual([]);
  });

  it.each([
    ['1000000', '5 min'],
    ['60000000', '5 h'],
  ])('is told of a search of %s outlines: %s', async (evaluations, time) => {
    expect(await toldOf('search.evaluations', /evaluations: \d+/, `evaluations: ${evaluations}`)).toEqual([
      `search.evaluations: ${evaluations} outlines in 3 cases take about ${time} on one core`,
    ]);
  });

  it('is told of what many cases take, search and made channels', async () => {
    const many = Array.from({ length: 997 }, (_, i) => `  case${i}: { cure: 1, pull: 0.5 }`).join('\n');
    const cases = (text: string) => text.replace(/^ {2}limit: /m, `${many}\n  limit: `);
    const { cautions } = await readBrief(cases(starterBrief).replace(/samples: \d+/, 'samples: 1000'));
    expect(cautions.filter((one) => one.includes('take about'))).toEqual([
      expect.stringMatching(/^search\.evaluations: \d+ outlines in 1000 cases take about \d min on one core$/),
      'scatter.samples: 1000 made channels in 1000 cases take about 8 min on one core',
    ]);
  });
});
