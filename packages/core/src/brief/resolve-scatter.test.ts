import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { readBrief } from './index.js';

const joint = `host: { kind: tee, bendRadius: 5 }
loads: { pull: {} }
`;
const scatterOf = async (text: string) => (await readBrief(joint + text)).scatter;

const usual = {
  distribution: 'normal',
  samples: 200,
  outline: 0.02,
  position: 0.05,
  turn: 0.5,
  strength: 0.05,
  cure: 0.05,
  quantile: 0.95,
};

describe('section scatter', () => {
  it('is there with its defaults without being asked for', async () => {
    expect(await scatterOf('')).toEqual(usual);
  });

  it('takes what is given, and nothing that scatters', async () => {
    const given = {
      distribution: 'uniform',
      samples: 50,
      outline: 0,
      position: 0,
      turn: 0,
      strength: 0,
      cure: 0,
      quantile: 0.5,
    };
    expect(await scatterOf(`scatter: ${JSON.stringify(given)}`)).toEqual(given);
    expect(await scatterOf('scatter: { position: 0.1 }')).toEqual({ ...usual, position: 0.1 });
  });

  for (const [text, path, message] of [
    ['scatter: { distribution: gaussian }', 'scatter.distribution', /one of normal, uniform/],
    ['scatter: { samples: 19 }', 'scatter.samples', /at least 20/],
    ['scatter: { samples: 50.5 }', 'scatter.samples', /a whole number/],
    ['scatter: { outline: -0.01 }', 'scatter.outline', /at least 0 and at most 1000 mm/],
    ['scatter: { position: .nan }', 'scatter.position', /at least 0/],
    ['scatter: { turn: 181 }', 'scatter.turn', /at most 180 deg/],
    ['scatter: { strength: 5 }', 'scatter.strength', /at most 1/],
    ['scatter: { cure: 5 }', 'scatter.cure', /at most 1/],
    ['scatter: { quantile: 1 }', 'scatter.quantile', /at least 0.5 and below 1/],
    ['scatter: { outlines: 0.1 }', 'scatter.outlines', /did you mean 'outline'/],
  ] as const)
    it(`refuses ${text}`, async () => {
      const error = await scatterOf(text).then(
        () => undefined,
        (e: unknown) => e,
      );
      expect(error).toBeInstanceOf(InputError);
      const [problem] = (error as InputError).problems;
      expect(problem!.path).toBe(path);
      expect(problem!.line).toBe(3);
      expect((error as InputError).message).toMatch(message);
    });
});
