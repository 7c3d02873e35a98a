import { describe, expect, it } from 'vitest';
import { reference, referenceJoint, referenceLoads, referenceNodes } from './fixtures/tee-reference.js';
import { meshedSection, type SectionStresses } from './fixtures/tee-section.js';

const R = referenceJoint.bendRadius;

describe('stresses of the whole joint against an independent finite-element solution', { tags: 'long' }, () => {
  const sections = [
    { name: 'without channel', nodes: undefined, stresses: reference.withoutChannel },
    ...reference.outlines.map((outline) => ({
      name: outline.name,
      nodes: referenceNodes(outline),
      stresses: outline.section,
    })),
  ];
  for (const { name, nodes, stresses } of sections)
    it(`${name}: largest stresses within 1 %, and the filler's at its place`, () => {
      const found = meshedSection(referenceJoint, referenceLoads, [], nodes);
      for (const load of ['pull', 'cure'] as const)
        for (const [key, { value, x, y }] of Object.entries(stresses[load])) {
          if (key !== 'fillerPrincipal') {
            expect(Math.abs(found.loads[load]![key as keyof SectionStresses].value / value - 1)).toBeLessThan(0.01);
            continue;
          }
          // Near a channel the filler's largest stress depends on how near one looks: compare at the place given.
          const point = { place: 'filler', layer: -1, x, y, normalAngle: 0.3 } as const;
          const [n, t, nt] = found.at([point])[load]! as unknown as [number, number, number];
          const principal = (n + t) / 2 + Math.hypot((n - t) / 2, nt);
          expect(Math.abs(principal / value - 1)).toBeLessThan(0.01);
        }
    });

  it('gives the same stress at a point as the survey found there, in interface axes', () => {
    const found = meshedSection(
      referenceJoint,
      referenceLoads,
      [{ name: 'both', factors: { pull: 1, cure: 1 } }],
      undefined,
    );
    for (const load of ['pull', 'cure'] as const) {
      const { arcShear, baseNormal, bendRadial } = found.loads[load]!;
      const angle = (at: readonly [number, number]) => Math.atan2(R - at[1], Math.sign(at[0]) * R - at[0]);
      const points = [
        { place: 'arc-interface', layer: -1, x: arcShear.at[0], y: arcShear.at[1], normalAngle: angle(arcShear.at) },
        { place: 'base-interface', layer: -1, x: baseNormal.at[0], y: 0, normalAngle: Math.PI / 2 },
        // Under pull at the filler, under cure a layer further out.
        {
          place: 'bend',
          layer: load === 'pull' ? 0 : 1,
          x: bendRadial.at[0],
          y: bendRadial.at[1],
          normalAngle: angle(bendRadial.at),
        },
      ] as const;
      const stress = found.at(points)[load]!;
      expect(Math.abs(stress[2]! / arcShear.value)).toBeCloseTo(1, 2);
      expect(stress[3]! / baseNormal.value).toBeCloseTo(1, 2);
      expect(stress[6]! / bendRadial.value).toBeCloseTo(1, 1);
    }
    expect(found.cases.both!.fillerPrincipal.value).toBeGreaterThan(found.loads.pull!.fillerPrincipal.value);
  });

  it('refuses a point that does not lie where it says, and a case of a load that is not given', () => {
    const found = meshedSection(referenceJoint, { pull: { force: 1 } }, [], referenceNodes(reference.outlines[0]!), {
      coarseness: 2,
    });
    const inChannel = { place: 'filler', layer: -1, x: 0, y: 1.25, normalAngle: 0 } as const;
    expect(() => found.at([inChannel])).toThrow(/points\[0\]: expected a place in layer -1 of the filler/);
    const cases = [{ name: 'cured', factors: { cure: 1 } }];
    expect(() => meshedSection(referenceJoint, { pull: { force: 1 } }, cases, undefined, { coarseness: 2 })).toThrow(
      /cases.cured.cure: expected a load that is given: pull/,
    );
  });
});
