import { describe, expect, it } from 'vitest';
import { pocketInBend } from '../../../../../test/fixtures/pocket-tees.js';
import { referenceJoint } from '../../../../../test/fixtures/tee-reference.js';
import { InputError } from '../../errors.js';
import { hostKind, isHostLoaded, loadHost, placeLabel } from '../registry.js';
import { pocketTeeHost, type TeeJoint } from '../tee/index.js';
import { loaders } from './loaders.js';

const pocketed = pocketInBend(1);
const circle = { x: [1, 0, -1, 0], y: [0, 1, 0, -1] };

describe('kinds of host that come on demand', () => {
  it('come as little of a tee as its joint needs, or whole', async () => {
    const partOf = async (joint?: TeeJoint) => (await loaders.tee(joint)).part;
    const [filler, pocket, beside] = [
      await partOf(referenceJoint),
      await partOf(pocketed),
      await partOf({ ...pocketed, fillerChannel: circle } as unknown as TeeJoint),
    ];
    expect(filler!(referenceJoint)).toBe(true);
    expect(filler!(pocketed)).toBe(false);
    expect(pocket!(pocketed)).toBe(true);
    expect(pocket!(referenceJoint)).toBe(false);
    expect(beside!({ ...pocketed, fillerChannel: circle } as unknown as TeeJoint)).toBe(true);
    expect(await partOf()).toBeUndefined();
  });

  it('bring what their briefs say with them', async () => {
    for (const [kind, load] of Object.entries(loaders)) {
      const found = await load();
      expect(found.kind).toBe(kind);
      expect(found).toHaveProperty('section');
    }
  });

  it('are all there where none is on demand', async () => {
    for (const kind of ['tee', 'plate', 'elsewhere']) {
      expect(isHostLoaded(kind)).toBe(true);
      await loadHost(kind);
    }
    expect(() => hostKind('elsewhere')).toThrow(
      /host\.kind: expected one of tee.*received elsewhere; register that kind/,
    );
  });
});

it('places have the names that engineers give them', () => {
  expect(['edge', 'none', 'bend', 'elsewhere'].map(placeLabel)).toEqual([
    'channel edge',
    'nowhere',
    expect.stringMatching(/bend/),
    'elsewhere',
  ]);
});

it('the part of a tee that knows pockets refuses what it does not know', () => {
  const received = (joint: unknown) => {
    try {
      pocketTeeHost.open(joint as TeeJoint);
    } catch (error) {
      if (error instanceof InputError) return error.problems[0]!.received;
      throw error;
    }
    return 'accepted';
  };
  expect(received(pocketed)).toBe('accepted');
  expect(received(referenceJoint)).toBe('a tee without pocket');
  expect(received({ ...pocketed, fillerChannel: circle })).toBe('a channel of known outline in the filler');
  expect(received({ ...pocketed, pocket: { ...pocketed.pocket!, channel: circle } })).toBe(
    'a channel of known outline in the pocket',
  );
});
