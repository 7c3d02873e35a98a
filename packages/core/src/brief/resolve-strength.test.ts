import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { readBrief } from './index.js';

const joint = `host: { kind: tee, bendRadius: 5 }
loads: { pull: {} }
`;
const strengthOf = async (text: string) => (await readBrief(joint + text)).strength;

describe('section strength', () => {
  it('judges the edge by its peak and asks for nothing by default', async () => {
    expect(await strengthOf('')).toEqual({
      edge: 'peak',
      startsAwayFromEdge: false,
      fatigue: { tension: 10, delamination: 10 },
    });
  });

  it('takes what is given', async () => {
    const text = `strength:
  edge: { distance: 0.3, average: true }
  cuspDistance: 0.4
  leastRetained: 0.7
  startsAwayFromEdge: true
  fatigue: { tension: 12 }
`;
    expect(await strengthOf(text)).toEqual({
      edge: { distance: 0.3, average: true },
      cuspDistance: 0.4,
      leastRetained: 0.7,
      startsAwayFromEdge: true,
      fatigue: { tension: 12, delamination: 10 },
    });
    expect((await strengthOf('strength: { edge: { distance: 0.3 } }')).edge).toEqual({ distance: 0.3, average: false });
  });

  for (const [text, path, line, message] of [
    ['strength: { edge: peek }', 'strength.edge', 3, /did you mean 'peak'|'peak' or/],
    ['strength:\n  edge: { distance: 0 }', 'strength.edge.distance', 4, /above 0 and at most 1000 mm, received 0/],
    ['strength:\n  edge:\n    distance: 3', 'strength.edge.distance', 5, /below 1.25 mm/],
    ['strength: { cuspDistance: 2.6 }', 'strength.cuspDistance', 3, /half the bend radius/],
    ['strength: { leastRetained: seventy }', 'strength.leastRetained', 3, /at least 0 and at most 10/],
    ['strength: { startsAwayFromEdge: 1 }', 'strength.startsAwayFromEdge', 3, /true or false/],
    ['strength: { fatigue: { tension: 1 } }', 'strength.fatigue.tension', 3, /above 1 and at most 100/],
    ['strength: { leastRetaned: 1 }', 'strength.leastRetaned', 3, /did you mean 'leastRetained'/],
  ] as const)
    it(`refuses ${text.replaceAll('\n', ' ')}`, async () => {
      const error = await readBrief(joint + text).then(
        () => undefined,
        (e: unknown) => e,
      );
      expect(error).toBeInstanceOf(InputError);
      const [problem] = (error as InputError).problems;
      expect(problem!.path).toBe(path);
      expect(problem!.line).toBe(line);
      expect((error as InputError).message).toMatch(message);
    });
});
