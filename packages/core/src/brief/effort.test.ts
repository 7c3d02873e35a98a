import { describe, expect, it } from 'vitest';
import { estimateEffort, readBrief, starterBrief } from './index.js';

describe('the effort of a brief', () => {
  it('grows with the plies, and a plate takes none', async () => {
    const starter = estimateEffort(await readBrief(starterBrief))!;
    const [least, most] = starter.reduction;
    expect(least).toBeGreaterThan(1);
    expect(most).toBeLessThan(10);
    expect(starter.memory).toBeLessThan(400);
    const thin = starterBrief
      .replace(/layup: \[45.*\]/, `layup: [${Array(40).fill('0, 90')}]`)
      .replace('plyThickness: 0.3 ', 'plyThickness: 0.03 ');
    const many = estimateEffort(await readBrief(thin))!;
    expect(many.reduction[0]).toBeGreaterThan(2 * least);
    expect(many.check).toBeGreaterThan(3 * starter.check);
    expect(many.memory).toBeGreaterThan(starter.memory);
    expect(estimateEffort({ joint: { kind: 'plate' } as never })).toBeUndefined();
  });
});
