import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { randomFrom } from '../random.js';
import { referenceFor, thinOut } from './contribution.js';
import { exclusiveVolume, hypervolume } from './hypervolume.js';

/** Inclusion and exclusion over all subsets: exact, independent, for few points. */
function byInclusion(points: readonly number[][], reference: readonly number[]): number {
  let sum = 0;
  for (let subset = 1; subset < 1 << points.length; subset++) {
    const corner = reference.map(() => Number.NEGATIVE_INFINITY);
    let sign = -1;
    points.forEach((point, index) => {
      if (!(subset & (1 << index))) return;
      sign = -sign;
      point.forEach((value, i) => {
        corner[i] = Math.max(corner[i]!, value);
      });
    });
    sum += sign * reference.reduce((product, end, i) => product * Math.max(0, end - corner[i]!), 1);
  }
  return sum;
}

function sphere(count: number, objectives: number, seed: number): number[][] {
  const random = randomFrom(seed);
  return Array.from({ length: count }, () => {
    const direction = Array.from({ length: objectives }, () => Math.abs(random.normal()));
    const length = Math.hypot(...direction);
    return direction.map((value) => value / length);
  });
}

const cloud = (objectives: number) =>
  fc.array(fc.array(fc.integer({ min: 0, max: 12 }), { minLength: objectives, maxLength: objectives }), {
    maxLength: 8,
  });

describe('hypervolume', () => {
  for (const objectives of [1, 2, 3, 4, 5]) {
    it(`agrees with inclusion and exclusion in ${objectives} objectives, ties and points outside included`, () => {
      const reference = new Array<number>(objectives).fill(10);
      fc.assert(
        fc.property(cloud(objectives), (points) => {
          expect(hypervolume(points, reference)).toBe(byInclusion(points, reference));
        }),
        { numRuns: 150, seed: 1 },
      );
    });
  }

  it('leaves to a point what others beyond the reference do not take, and nothing to one beyond it', () => {
    expect(exclusiveVolume([11, 1], [], [10, 10])).toBe(0);
    expect(
      exclusiveVolume(
        [2, 2],
        [
          [1, 12],
          [6, 4],
        ],
        [10, 10],
      ),
    ).toBe(64 - 24);
    expect(exclusiveVolume([2, 2], [[1, 2]], [10, 10])).toBe(0);
  });

  it('is the known value of a sphere octant in the limit', () => {
    // Below the octant of the unit sphere lies pi/6 of the unit cube.
    const volume = hypervolume(sphere(2500, 3, 1), [1, 1, 1]);
    expect(volume).toBeLessThan(1 - Math.PI / 6);
    expect(volume).toBeGreaterThan(0.95 * (1 - Math.PI / 6));
  });

  it('gives the same in three objectives as the general method in four with an idle one', () => {
    const points = sphere(40, 3, 2);
    const volume = hypervolume(points, [1.1, 1.1, 1.1]);
    const padded = points.map((point) => [...point, 0]);
    expect(hypervolume(padded, [1.1, 1.1, 1.1, 1])).toBeCloseTo(volume, 12);
  });

  it('is what is lost without a point', () => {
    for (const objectives of [2, 3, 4]) {
      const points = sphere(15, objectives, objectives);
      const reference = new Array<number>(objectives).fill(1.2);
      const others = points.slice(1);
      const lost = hypervolume(points, reference) - hypervolume(others, reference);
      expect(exclusiveVolume(points[0]!, others, reference)).toBeCloseTo(lost, 12);
    }
  });
});

describe('thinOut', () => {
  /** Removes by recomputing everything. */
  function byDefinition(points: readonly number[][], size: number, reference: readonly number[]): number[] {
    const kept = points.map((_, index) => index);
    while (kept.length > size) {
      const volumes = kept.map((gone) =>
        exclusiveVolume(
          points[gone]!,
          kept.filter((index) => index !== gone).map((index) => points[index]!),
          reference,
        ),
      );
      kept.splice(volumes.lastIndexOf(Math.min(...volumes)), 1);
    }
    return kept;
  }

  for (const objectives of [2, 3, 4]) {
    it(`removes the least contributor each time, in ${objectives} objectives`, () => {
      for (let seed = 0; seed < 5; seed++) {
        const points = sphere(24, objectives, seed);
        const reference = new Array<number>(objectives).fill(1.1);
        expect(thinOut(points, 9, reference)).toEqual(byDefinition(points, 9, reference));
      }
    });
  }

  it.each([2, 3, 4])('lets of equal contributions the later one go, in %i objectives', (objectives) => {
    const random = randomFrom(3);
    for (let times = 0; times < 20; times++) {
      // Whole numbers: volumes are exact, and many are equal.
      const points = Array.from({ length: 12 }, () => Array.from({ length: objectives }, () => random.integer(5)));
      const reference = new Array<number>(objectives).fill(5);
      expect(thinOut(points, 4, reference)).toEqual(byDefinition(points, 4, reference));
    }
  });

  it('lets dominated points and those beyond the reference go first, and keeps all when there is room', () => {
    const points = [
      [0, 1],
      [0.5, 1.5],
      [1, 0],
      [0.4, 0.4],
      [3, -1],
    ];
    expect(thinOut(points, 3, [2, 2])).toEqual([0, 2, 3]);
    expect(thinOut(points, 4, [2, 2])).toEqual([0, 1, 2, 3]);
    expect(thinOut(points, 5, [2, 2])).toEqual([0, 1, 2, 3, 4]);
  });

  it('lets of points that add nothing the later ones go, whether dominated, beyond the reference or behind one that is as good in one objective', () => {
    expect(
      thinOut(
        [
          [5, 5],
          [1, 3],
          [1, 2],
        ],
        2,
        [4, 4],
      ),
    ).toEqual([0, 2]);
    expect(
      thinOut(
        [
          [1, 2],
          [1, 3],
          [5, 5],
        ],
        2,
        [4, 4],
      ),
    ).toEqual([0, 1]);
  });

  it('does not depend on the units of the objectives', () => {
    const points = sphere(40, 2, 3);
    const scaled = points.map(([first, second]) => [first! * 1e6, second! * 1e-6 - 3]);
    expect(thinOut(scaled, 10, referenceFor(scaled))).toEqual(thinOut(points, 10, referenceFor(points)));
  });

  it('keeps both ends of a front that has the default reference point', () => {
    const points = Array.from({ length: 300 }, (_, i) => [i / 299, 1 - Math.sqrt(i / 299)]);
    const kept = thinOut(points, 50, referenceFor(points));
    expect(kept[0]).toBe(0);
    expect(kept.at(-1)).toBe(299);
  });

  it('keeps the ends without a reference point, however little they add', () => {
    const flat = Array.from({ length: 40 }, (_, i) => [i, 1 / (1 + i ** 3)]);
    const kept = thinOut(flat, 6);
    expect([kept[0], kept.at(-1), kept.length]).toEqual([0, 39, 6]);
    expect(thinOut(flat, 6, referenceFor(flat)).at(-1)).toBeLessThan(39);
    expect(thinOut(flat, 1)).toHaveLength(1);
    const points = sphere(30, 3, 5);
    expect(thinOut(points, 8)).toEqual(thinOut(points, 8, referenceFor(points)));
  });

  it('has a reference point beyond a set without spread', () => {
    expect(Array.from(referenceFor([[3, -1e20]]))).toEqual([6, 0]);
  });
});
