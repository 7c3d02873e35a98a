import { describe, expect, it } from 'vitest';
import { readBrief } from '../../../brief/index.js';
import { InputError } from '../../../errors.js';
import { hostOf } from '../../registry.js';
import type { TeeJoint } from '../tee.js';

const brief = (pocket: string, skin = '[90_2/0_2/90_2/0_2]s') => `title: Pocket
host:
  kind: tee
  bendRadius: 6
  overlaminate: { layup: "[90_2/0_2]s", plyThickness: 0.25 }
  skin: { thickness: 3.2, halfSpan: 40, layup: "${skin}" }
  pocket: ${pocket}
loads: { cure: { deltaT: -90 } }
channel: { wall: 0.05, edgeRadius: 0.06 }
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

describe('a pocket of a tee that cannot be', () => {
  it.each([
    [
      'deeper than the overlaminate',
      '{ made: drape, above: 2, height: 0.9 }',
      /pocket\.height: .*at most 0\.5 mm.*deeper/,
    ],
    ['under a film that is too thin', '{ made: drape, above: 4, film: 0.01 }', /pocket\.film: at least 0\.0156 mm/],
    ['out of the bend', '{ made: drape, above: 4, turn: 5 }', /pocket\.turn: .* to .* degrees.*outside of the bend/],
    ['longer than the bend', '{ made: drape, above: 4, length: 9 }', /pocket\.turn: a pocket that lies in the bend/],
    ['out of the foot', '{ in: foot, made: drape, above: 4, at: 3 }', /pocket\.at: 8\.\d+ to 23\.\d+ mm/],
    [
      'across the end of the filler',
      '{ in: skin, made: drape, above: 8, at: 5 }',
      /pocket\.at: .* or -3\.\d+ to 3\.\d+ or /,
    ],
    [
      'over the first ply of the skin',
      '{ in: skin, made: drape, above: 1 }',
      /pocket\.above: a ply with one over it: 2 to 16/,
    ],
    ['told by a length in a bend', '{ made: drape, above: 4, at: 8 }', /pocket\.at: no `at` in a bend; write turn/],
    ['of many heights', '{ made: drape, above: 4, heights: [0.2, 0.4] }', /pocket\.heights: one height: in a tee/],
    ['longer than the foot', '{ in: foot, made: drape, above: 4, at: 12, length: 90 }', /pocket\.at: a foot with room/],
    ['of neither kind', '{ made: laser }', /pocket\.made: cut or drape/],
  ])('is refused: %s', async (_name, pocket, says) => {
    expect(await refusal(brief(pocket))).toMatch(says);
  });

  it('is refused in a smeared skin, which has no plies', async () => {
    expect(await refusal(brief('{ in: skin, made: drape }', 'quasi-isotropic'))).toMatch(
      /pocket\.in: a laminate of at least 2 plies.*layup/,
    );
  });

  it('takes no channel in the filler', async () => {
    const text = `${brief('{ made: drape, above: 4 }').replace('edgeRadius: 0.06 }', 'edgeRadius: 0.06, reference: { family: ellipse, at: [0, 3], width: 0.3, height: 0.3 } }')}`;
    expect(await refusal(text)).toMatch(/inside the pocket in the bend/);
  });
});

describe('a pocket of a tee after its brief', () => {
  const pocketOf = async (pocket: string) => ((await readBrief(brief(pocket))).joint as TeeJoint).pocket!;

  it('lies in the middle of the bend, of the foot, or below the filler', async () => {
    expect((await pocketOf('{ made: drape, above: 4 }')).at).toBeCloseTo(Math.PI / 4, 12);
    expect((await pocketOf('{ in: foot, made: drape, above: 4 }')).at).toBe(16);
    expect((await pocketOf('{ in: skin, made: drape, above: 8 }')).at).toBe(0);
  });

  it('counts plies from the filler: in the skin downwards', async () => {
    expect((await pocketOf('{ made: drape, above: 3 }')).form).toMatchObject({ below: 3 });
    expect((await pocketOf('{ in: skin, made: drape, above: 7 }')).form).toMatchObject({ below: 10 });
    expect((await pocketOf('{ in: skin, made: cut, plies: [3, 4] }')).form).toMatchObject({ first: 12, count: 2 });
  });

  it("holds repair of the joint's own filler against that, of the pocket's against its resin", async () => {
    const { joint } = await readBrief(brief('{ made: drape, above: 4 }'));
    const tee = joint as TeeJoint;
    const weak = { ...tee, filler: { ...tee.filler, transverseTension: 11, interlaminarShear: 12 } };
    const soundAt = (place: string) => hostOf(weak).strengthAt({ place, layer: -1, x: 0, y: 0, normalAngle: 0 }).sound;
    const { resin } = tee.pocket!;
    expect(soundAt('joint-filler')).toEqual({ tension: 11, shear: 12 });
    expect(soundAt('joint-arc')).toEqual({ tension: 11, shear: 12 });
    expect(soundAt('filler')).toEqual({ tension: resin.transverseTension, shear: resin.interlaminarShear });
  });

  it('has a border whose distances are true where the bend rolls it up', async () => {
    const { joint } = await readBrief(brief('{ made: drape, above: 4, height: 0.6 }'));
    const { border } = hostOf(joint);
    // Points of it, made independently: on rays from the bend's centre, 6 mm above the filler's face.
    const [level, rise, half] = [1, 0.34, (4 / 2) * (0.34 / 0.25) ** 0.25];
    const points = Array.from({ length: 20001 }, (_, k) => {
      const s = (k / 10000 - 1) * half;
      const e = 1 - Math.abs(s) / half;
      return [1, -1].map((sign) => {
        const radius = 6 - level - sign * rise * (4 * e ** 3 - 3 * e ** 4);
        return [radius * Math.sin(s / (6 - level)), 6 - radius * Math.cos(s / (6 - level))] as const;
      });
    }).flat();
    for (const [x, y] of [
      [0, 1],
      [0.3, 1.1],
      [-0.5, 0.95],
      [0.9, 1.05],
    ] as const) {
      const nearest = Math.min(...points.map(([X, Y]) => Math.hypot(x - X, y - Y)));
      expect(border.distance(x, y)).toBeCloseTo(nearest, 6);
    }
  });
});
