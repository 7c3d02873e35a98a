import { beforeAll, describe, expect, it } from 'vitest';
import { reducedTee } from '../../../../../test/fixtures/reduced.js';
import {
  reference,
  referenceJoint,
  referenceLoads,
  referenceNodes,
  type SectionPlace,
} from '../../../../../test/fixtures/tee-reference.js';
import { createPlaceMoments, type PlaceMoments } from '../../strength/index.js';
import { actingLoads, createStressModel, type SolvedEdge, type StressModel } from '../../stress/index.js';
import { inClass } from '../condensed/index.js';
import type { ReducedModel } from '../index.js';

const sizes = { pull: referenceLoads.pull.force, cure: referenceLoads.cure.deltaT };
/** The reference leaves out what is nearer to a cusp, mm. */
const cuspDistance = 0.5;
/** A hundredth of the strength across the fibres, MPa. */
const small = 0.48;

let model: ReducedModel;
let stress: StressModel;
let moments: PlaceMoments;
beforeAll(() => {
  model = reducedTee(referenceJoint, 0.12, 0.12);
  stress = createStressModel(model, referenceLoads, []);
  moments = createPlaceMoments(model, actingLoads(model, referenceLoads));
});

/** Stress at the places of the right half under one load. */
function stressesOf(name: 'pull' | 'cure', edge: SolvedEdge | undefined): Float64Array {
  const load = model.loads.find((one) => one.name === name)!;
  const out = load.atPlaces.map((value) => value * sizes[name]);
  if (edge === undefined) return out;
  const { framed } = moments;
  moments.take(edge);
  const { even } = framed[stress.loads.indexOf(name)]!;
  const { degrees, change } = model.places;
  const rows = inClass(change[load.response]!, true);
  let at = 0;
  degrees.forEach((degree, p) => {
    for (let row = 3 * p; row < 3 * p + 3; row++)
      for (let j = 0; j < 2 * degree; j++) out[row]! += rows[at++]! * even[j]!;
  });
  return out;
}

function largest(stresses: Float64Array): Record<SectionPlace, number> {
  const found: Partial<Record<SectionPlace, number>> = {};
  const meet = (name: SectionPlace, value: number) => {
    found[name] = Math.max(found[name] ?? Number.NEGATIVE_INFINITY, value);
  };
  model.places.points.forEach(({ place, x, y }, p) => {
    if (Math.min(Math.hypot(x - 5, y), Math.hypot(x, y - 5)) < cuspDistance) return;
    const [n, t, nt] = stresses.subarray(3 * p, 3 * p + 3) as unknown as [number, number, number];
    if (place === 'bend' || place === 'arc-interface') {
      meet('bendRadial', n);
      meet('bendShear', Math.abs(nt));
    }
    if (place !== 'arc-interface' && place !== 'base-interface') return;
    const side = place === 'arc-interface' ? 'arc' : 'base';
    meet(`${side}Normal`, n);
    meet(`${side}Shear`, Math.abs(nt));
    meet('fillerPrincipal', (n + t) / 2 + Math.hypot((n - t) / 2, nt));
  });
  return found as Record<SectionPlace, number>;
}

describe('stress at places outside the control contour', () => {
  it('agrees with the independent solution of the joint without channel within 1 %', () => {
    for (const name of ['pull', 'cure'] as const) {
      const found = largest(stressesOf(name, undefined));
      for (const [key, { value }] of Object.entries(reference.withoutChannel[name]))
        expect(Math.abs(found[key as SectionPlace] / value - 1), `${name} ${key}`).toBeLessThan(0.01);
    }
  });

  for (const outline of reference.outlines)
    it(`agrees with the independent solution within 3 %: ${outline.name}`, () => {
      const nodes = referenceNodes(outline, 128);
      const edge = stress.evaluate(nodes, true);
      for (const name of ['pull', 'cure'] as const) {
        const found = largest(stressesOf(name, edge));
        for (const [key, { value }] of Object.entries(outline.section[name])) {
          // With a channel the filler's largest stress lies at its edge, which is not among the places.
          if (key === 'fillerPrincipal') continue;
          const error = Math.abs(found[key as SectionPlace] - value);
          expect(error, `${name} ${key}: ${found[key as SectionPlace]} for ${value}`).toBeLessThan(
            Math.max(0.03 * value, small),
          );
        }
      }
    });

  it('sees a mirror-symmetric channel alike from the mirror solver and from the general one', () => {
    const nodes = referenceNodes(reference.outlines[1]!, 96);
    const half = stress.evaluate(nodes, true).moments.map((one) => one.slice());
    const whole = stress.evaluate(nodes, false).moments;
    half.forEach((moments, l) => {
      const order = moments.length;
      moments.forEach((value, i) => {
        expect(whole[l]![i]! - value).toBeCloseTo(0, 9);
        expect(whole[l]![order + i]!).toBeCloseTo(0, 9);
      });
    });
  });

  it('puts rows of points one after the other along the section', () => {
    const { points, rows } = model.places;
    expect(rows.reduce((sum, length) => sum + length, 0)).toBe(points.length);
    let p = 0;
    for (const length of rows) {
      const row = points.slice(p, p + length);
      p += length;
      expect(new Set(row.map(({ place, layer }) => `${place} ${layer}`)).size).toBe(1);
      for (let k = 2; k < length; k++) {
        const [a, b, c] = [row[k - 2]!, row[k - 1]!, row[k]!];
        // No step turns back.
        expect((b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y)).toBeGreaterThan(0);
      }
    }
  });
});
