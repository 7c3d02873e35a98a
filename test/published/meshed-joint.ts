import { expect, it } from 'vitest';
import { type MeshedPeak, meshedStress } from '../../packages/core/src/stress/index.js';
import {
  type ReferenceOutline,
  reference,
  referenceJoint,
  referenceLoads,
  referenceNodes,
} from '../fixtures/tee-reference.js';

const cases = [{ name: 'both', factors: { pull: 1, cure: 1 } }];

const nodeCount = 512;
const meshed = new Map<string, ReturnType<typeof meshedStress>>();

/** The reference joint with one of its channels, meshed once for page and checks. */
export function meshedOutline(outline: ReferenceOutline): ReturnType<typeof meshedStress> {
  const known = meshed.get(outline.name);
  if (known !== undefined) return known;
  const result = meshedStress(referenceJoint, referenceLoads, cases, referenceNodes(outline, nodeCount));
  meshed.set(outline.name, result);
  return result;
}

/** The mesh against the independent solution, all round every outline: more than the page shows. */
export function checkMeshedJoint(): void {
  for (const outline of reference.outlines)
    it(`${outline.name}: peaks within 0.1 %, hoop stress within 0.5 % of the peak all round`, () => {
      const nodes = referenceNodes(outline, nodeCount);
      const result = meshedOutline(outline);
      const found: Partial<Record<string, MeshedPeak>> = { ...result.loads, ...result.cases };
      for (const name of ['pull', 'cure', 'both'] as const) {
        const { peak, at, least, error } = found[name]!;
        expect(Math.abs(peak / outline[name].peak - 1)).toBeLessThan(0.001);
        expect(Math.abs(least - outline[name].least) / outline[name].peak).toBeLessThan(0.001);
        // A mirror-symmetric joint has each peak twice.
        expect(Math.abs(at[1] - outline[name].at[1])).toBeLessThan(0.03);
        expect(Math.abs(Math.abs(at[0]) - Math.abs(outline[name].at[0]))).toBeLessThan(0.03);
        expect(error).toBeLessThan(0.001);
      }
      expect(result.strainZ.pull! / outline.strainZ.pull).toBeCloseTo(1, 3);
      expect(result.strainZ.cure! / outline.strainZ.cure).toBeCloseTo(1, 3);

      let worst = 0;
      for (const [x, y, pull, cure] of outline.hoop) {
        let nearest = 0;
        const distance = (j: number) => Math.hypot(nodes.x[j]! - x, nodes.y[j]! - y);
        for (let j = 1; j < nodes.count; j++) if (distance(j) < distance(nearest)) nearest = j;
        const [dx, dy] = [nodes.dx[nearest]!, nodes.dy[nearest]!];
        const ahead = ((x - nodes.x[nearest]!) * dx + (y - nodes.y[nearest]!) * dy) / (dx * dx + dy * dy);
        const next = (nearest + Math.sign(ahead) + nodes.count) % nodes.count;
        const share = (Math.abs(ahead) * nodes.count) / (2 * Math.PI);
        const difference = (name: 'pull' | 'cure', value: number) => {
          const hoop = result.hoop[name]!;
          return Math.abs((1 - share) * hoop[nearest]! + share * hoop[next]! - value) / outline[name].peak;
        };
        worst = Math.max(worst, difference('pull', pull), difference('cure', cure));
      }
      expect(worst).toBeLessThan(0.005);
    });
}
