import { describe, expect, it } from 'vitest';
import { byCount } from './by-count.js';

/** What was made, in order. */
function recorded() {
  const made: number[] = [];
  const of = byCount((count) => {
    made.push(count);
    return { count };
  });
  return { made, of };
}

describe('what is made by node count', () => {
  it('is made once for all that a search asks for', () => {
    const { made, of } = recorded();
    const counts = Array.from({ length: 24 }, (_, k) => 48 + 16 * k);
    for (let times = 0; times < 3; times++) for (const count of counts) expect(of(count)).toEqual({ count });
    expect(made).toEqual(counts);
  });

  it('is kept of large counts only where it was used last', () => {
    const { made, of } = recorded();
    of(64);
    const kept = of(1024);
    for (const count of [512, 1024, 640]) of(count);
    expect(of(1024)).toBe(kept);
    expect(of(512).count).toBe(512);
    // The little one had to go first: it had not been used for longest.
    expect(of(64).count).toBe(64);
    expect(made).toEqual([64, 1024, 512, 640, 512, 64]);
  });
});
