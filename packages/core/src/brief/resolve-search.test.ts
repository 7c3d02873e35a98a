import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { readBrief } from './index.js';

const brief = (search: string) => `host: { kind: tee, bendRadius: 5 }
loads: { pull: { force: 100 } }
channel: { families: [ellipse], wall: 0.15, edgeRadius: 0.15 }
search: ${search}
`;

describe('what a front trades', () => {
  it.each([
    ['{}', 'area', 'peak'],
    ['{ enlarge: conductance }', 'conductance', 'peak'],
    ['{ enlarge: flow }', 'conductance', 'peak'],
    ['{ against: load-factor }', 'area', 'loadFactor'],
    ['{ enlarge: area, against: strength-retained }', 'area', 'strengthRetained'],
  ])('%s: %s against %s', async (search, size, cost) => {
    expect((await readBrief(brief(search))).search.objective).toEqual({ size, cost });
  });

  it.each([
    ['{ against: strength }', 'search.against', /one of peak, load-factor, strength-retained/],
    ['{ enlarge: flwo }', 'search.enlarge', /one of area, conductance, flow/],
  ])('refuses %s', async (search, path, expected) => {
    const refused = await readBrief(brief(search)).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(InputError);
    const [problem] = (refused as InputError).problems;
    expect(problem).toMatchObject({ path });
    expect(problem!.expected).toMatch(expected);
  });
});
