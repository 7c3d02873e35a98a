import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { canonicalHost, markOf, resolveBrief } from './index.js';

const row = {
  host: { kind: 'laminate', pocket: { made: 'cut', plies: [5, 6], width: 3 } },
  loads: { cure: { deltaT: -50 } },
  channel: { wall: 0.06, edgeRadius: 0.1 },
  channels: { number: 'row', pitch: 5 },
};

async function refused(data: object): Promise<string[]> {
  const error = await resolveBrief(data).catch((reason: unknown) => reason);
  if (!(error instanceof InputError)) throw new Error('expected an InputError');
  return error.problems.map(({ path, expected, remedy }) => `${path}: ${expected}; ${remedy}`);
}

describe('an endless row of a brief', () => {
  it('is a cell, a pitch wide, with one channel that keeps its mirror symmetry', async () => {
    const { joint, channel } = await resolveBrief(row);
    expect(joint).toMatchObject({ kind: 'laminate', width: 5, row: true });
    expect(channel).toMatchObject({ mirror: true, row: { pitch: 5, connected: 'parallel' } });
    expect(channel.reference.at[0]).toBe(0);
    expect(channel.group).toBeUndefined();
  });

  it('is another joint than one channel in a laminate as wide, and than another pitch', async () => {
    const alone = await resolveBrief({ ...row, host: { ...row.host, width: 9 }, channels: {} });
    const wide = await resolveBrief({ ...row, channels: { number: 'row', pitch: 9 } });
    const all = [alone, wide, await resolveBrief(row)];
    expect(new Set(all.map(canonicalHost)).size).toBe(3);
    expect(new Set(all.map((brief) => markOf(brief).fingerprint)).size).toBe(3);
  });

  it('needs a pitch, wide enough for the pocket, and a host that repeats itself', async () => {
    expect(await refused({ ...row, channels: { number: 'row' } })).toEqual([
      expect.stringContaining('channels.pitch: the distance of neighbours in the row'),
    ]);
    expect(await refused({ ...row, channels: { number: 'row', pitch: 3.1 } })).toEqual([
      expect.stringContaining('channels.pitch: at least 3.25 mm: every channel lies in a pocket of its own, 3 mm wide'),
    ]);
    expect(await refused({ loads: row.loads, host: { kind: 'tee' }, channels: row.channels })).toEqual([
      expect.stringMatching(/^channels\.number: 1 or 2: .* does not repeat itself along x; .*host\.kind: laminate/),
    ]);
    expect(await refused({ ...row, channels: { number: 'rows' } })).toEqual([
      expect.stringContaining('channels.number: 1 to 8, or row'),
    ]);
  });

  it('has no shear, and says why', async () => {
    const [told, ...more] = await refused({ ...row, loads: { ...row.loads, shear: { force: 10 } } });
    expect(told).toMatch(/^loads\.shear: no shear on an endless row: its moment grows along the span.*; remove it/);
    expect(more).toEqual([]);
  });

  it('says that the width of the laminate does nothing', async () => {
    const { cautions } = await resolveBrief({ ...row, host: { ...row.host, width: 30 } });
    expect(cautions).toContainEqual(expect.stringContaining('host.width: does nothing for an endless row'));
  });
});
