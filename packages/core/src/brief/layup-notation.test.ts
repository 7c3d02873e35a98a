import { describe, expect, it } from 'vitest';
import { parseLayup } from '../material/index.js';
import { readBrief, starterBrief } from './index.js';
import { quoteLayups } from './quote-layups.js';

describe('the notation of the trade for layups', () => {
  it.each([
    ['[45/0/-45/90]', [45, 0, -45, 90]],
    ['[45/0/-45/90]s', [45, 0, -45, 90, 90, -45, 0, 45]],
    ['[90_2/0_2]s', [90, 90, 0, 0, 0, 0, 90, 90]],
    ['[90₂/0₂]S', [90, 90, 0, 0, 0, 0, 90, 90]],
    ['[0/90]2s', [0, 90, 0, 90, 90, 0, 90, 0]],
    ['[0/90]_{2}s', [0, 90, 0, 90, 90, 0, 90, 0]],
    ['[±45/0]', [45, -45, 0]],
    ['[+-45_2/0]', [45, -45, 45, -45, 0]],
    ['[(45/-45)_2/0]', [45, -45, 45, -45, 0]],
    ['[ 0 / 22.5 / −45° ]', [0, 22.5, -45]],
    ['[0]8', [0, 0, 0, 0, 0, 0, 0, 0]],
    ['[0/90]T', [0, 90]],
  ])('%s', (text, angles) => {
    expect(parseLayup(text)).toEqual(angles);
  });

  it.each(['', '45/0', '[45/0', '[45//0]', '[45/x]', '[45/0]z', '[0_999999999]', '[]', '[(0/90]', '[0/90]s5'])(
    'is not %s',
    (text) => {
      expect(parseLayup(text)).toBeUndefined();
    },
  );

  it('may stand in a brief, with and without quotes', async () => {
    const list = await readBrief(starterBrief.replace(/layup: \[45.*\]/, 'layup: [45, -45, 0, 0, -45, 45]'));
    for (const layup of ['[45/-45/0]s', '"[45/-45/0]s"', "'[±45/0]s'", '[±45/0]s'])
      expect((await readBrief(starterBrief.replace(/layup: \[45.*\]/, `layup: ${layup}`))).joint).toEqual(list.joint);
    const skin = await readBrief(starterBrief.replace('layup: quasi-isotropic', 'layup: [0/90]2s'));
    expect(skin.joint).toMatchObject({ skin: Array(8).fill({ thickness: 5 / 8 }) });
  });

  it('is put in quotes only where it is one', () => {
    for (const text of ['layup: [45, 0]', 'layup: quasi-isotropic', 'layup: "[45/0]s"', 'title: a [45/0]s layup'])
      expect(quoteLayups(text)).toBe(text);
    expect(quoteLayups('layup: [0]8 # eight')).toBe('layup: "[0]8" # eight');
    expect(quoteLayups('layup: [90_2, 0]')).toBe('layup: "[90_2, 0]"');
    expect(quoteLayups('{ layup: [45/0]s, ply: x }')).toBe('{ layup: "[45/0]s", ply: x }');
  });
});
