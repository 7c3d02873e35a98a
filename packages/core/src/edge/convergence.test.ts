import { describe, expect, it } from 'vitest';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { ellipseNodes, insetNodes } from '../../../../test/fixtures/tee-reference.js';
import { nodeParameter } from '../outline/index.js';
import { createEdgeSolver } from './edge-solver.js';
import { splineOval } from './test/cubic-spline.js';
import { farFieldLoad, sheet, solveEdge } from './test/far-field.js';

describe('measured convergence of the edge equation', () => {
  const errorAt = (count: number, angle: number) => {
    const [a, b] = [1, 0.4];
    const xi = Math.atanh(b / a);
    const { hoop } = solveEdge(
      ellipseNodes(a, b, [0, 0], 0, count),
      farFieldLoad({ sx: Math.cos(angle) ** 2, sy: Math.sin(angle) ** 2, txy: Math.sin(angle) * Math.cos(angle) }),
    );
    return largestDifference(
      hoop,
      hoop.map((_, j) => {
        const eta = nodeParameter(j, count);
        const top = Math.sinh(2 * xi) + Math.cos(2 * angle) - Math.exp(2 * xi) * Math.cos(2 * (angle - eta));
        return top / (Math.cosh(2 * xi) - Math.cos(2 * eta));
      }),
    );
  };

  it('is spectral on an ellipse: the error falls by the same factor with every eight nodes', () => {
    const errors = [16, 24, 32, 40, 48, 56].map((count) => errorAt(count, 1.1));
    // The map's singularity lies at |zeta| = sqrt((a - b)/(a + b)) = 0.655: the coefficients fall by 0.655^2 every second node.
    const factor = 0.4286 ** 4;
    for (let k = 1; k < errors.length; k++) {
      expect(errors[k]! / errors[k - 1]!).toBeLessThan(2 * factor);
      expect(errors[k]! / errors[k - 1]!).toBeGreaterThan(factor / 4);
    }
  });

  /** Order between two samplings of the oval, the second of `ratio` times as many nodes, against a third. */
  const order = (coarse: number, fine: number, ratio: number) => Math.log(coarse / fine) / Math.log(ratio);

  it.each([8, 10])(
    'is of the fourth order on a cubic spline of %i knots: edge displacement and what the host sees',
    (knots) => {
      const load = farFieldLoad({ sx: 0.3, sy: 0.9, txy: 0 });
      const at = (perKnot: number) => {
        const nodes = splineOval(knots, perKnot);
        const solver = createEdgeSolver(sheet, nodes.count, 'half', 1, 1e-14);
        const { phi, moments } = solver.solve(nodes, [load]);
        return { perKnot, phi: phi[0]!, moments: moments[0]! };
      };
      const finest = at(81);
      const errors = [3, 9, 27].map((perKnot) => {
        const { phi, moments } = at(perKnot);
        const ratio = finest.perKnot / perKnot;
        const there = phi.map((_, i) => finest.phi[2 * (ratio * (i >> 1) + (ratio - 1) / 2) + (i % 2)]!);
        return { phi: largestDifference(phi, there), moments: largestDifference(moments, finest.moments) };
      });
      for (let k = 1; k < errors.length; k++) {
        expect(order(errors[k - 1]!.phi, errors[k]!.phi, 3)).toBeGreaterThan(3.5);
        expect(order(errors[k - 1]!.moments, errors[k]!.moments, 3)).toBeGreaterThan(3.5);
      }
    },
  );

  it('is of the second order in the hoop stress beside the knots of a cubic spline', () => {
    const load = farFieldLoad({ sx: 0.3, sy: 0.9, txy: 0 });
    const at = (perKnot: number) => solveEdge(splineOval(8, perKnot), load, { fold: 'half' });
    const finest = at(81).hoop;
    const errors = [3, 9, 27].map((perKnot) => {
      const ratio = 81 / perKnot;
      const { hoop } = at(perKnot);
      return largestDifference(
        hoop,
        hoop.map((_, j) => finest[ratio * j + (ratio - 1) / 2]!),
      );
    });
    for (let k = 1; k < errors.length; k++) expect(order(errors[k - 1]!, errors[k]!, 3)).toBeGreaterThan(1.7);
  });

  // The kernel's limit as a node's own block left 20 % in the hoop stress wherever a node came to lie beside a jump.
  it('stays within 0.5 % where a straight meets an arc, wherever the nodes lie', () => {
    const at = (count: number) =>
      solveEdge(insetNodes(5, 0.6, 0.25, count), farFieldLoad({ sx: 0.3, sy: 0.9, txy: 0 }), {
        fold: 'half',
      }).extremes;
    const fine = at(1152);
    for (const count of [96, 128, 160, 192, 224, 256, 258, 260, 262, 264, 300, 384]) {
      const { peak, least } = at(count);
      expect(Math.abs(peak / fine.peak - 1)).toBeLessThan(0.005);
      expect(Math.abs(least - fine.least)).toBeLessThan(0.005 * fine.peak);
    }
  });
});
