import { type FrontDocument, isVerified, type ResolvedBrief, readBrief, starterBrief } from '@lumenfront/core';
import { runFront, verifyFront } from '@lumenfront/optimizer';
import { beforeAll, describe, expect, it } from 'vitest';
import { openWorkplace } from './workplace.js';

let brief: ResolvedBrief;
let front: FrontDocument;
beforeAll(async () => {
  brief = await readBrief(starterBrief.replace(/evaluations: \d+/, 'evaluations: 400'));
  front = await runFront(brief, { workplace: openWorkplace(1, () => {}) });
});

describe('verifying a front', { tags: 'long' }, () => {
  it('sets the mesh beside the fast model for the designs asked for and the reference, the same in workers', async () => {
    const done: number[] = [];
    const places = [front.designs.length - 1];
    const verified = await verifyFront(brief, front, places, {
      workplace: openWorkplace(1, () => {}),
      onProgress: (n) => void done.push(n),
    });
    expect(done).toEqual([1, 2]);
    const inWorkers = await verifyFront(brief, front, places, { workplace: openWorkplace(4, () => {}) });
    expect(inWorkers).toEqual(verified);
    expect(verified.designs.map(isVerified)).toEqual(front.designs.map((_, i) => places.includes(i)));
    for (const design of [verified.designs.at(-1)!, verified.reference]) {
      if (!isVerified(design)) throw new Error('not verified');
      expect(design.difference.holds).toBe(true);
      expect(design.meshed.error).toBeLessThan(0.005);
      const worst = Math.max(...Object.values(design.meshed.cases).map(({ peak }) => peak));
      expect(Math.abs(worst / design.peak - 1)).toBeLessThan(0.01);
    }
    expect({ ...verified.designs.at(-1), meshed: undefined, difference: undefined }).toEqual({
      ...front.designs.at(-1),
      meshed: undefined,
      difference: undefined,
    });
  });
});
