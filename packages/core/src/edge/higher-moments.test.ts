import { describe, expect, it } from 'vitest';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import { type CurveNodes, createCurveNodes, createCurveRates } from '../outline/index.js';
import { contourRecurrence, createBasisTable, fillBasisTable, halfSize, type RegularBasis } from './basis.js';
import { createEdgeSolver } from './edge-solver.js';
import type { EdgeFold } from './fold.js';
import { createHigherMoments } from './higher-moments.js';
import { toLocal } from './local-nodes.js';
import { framedCount, framedOrder, plainFrame, toFrame, weightsFromFrame } from './moment-frame.js';
import { writeEdgeFields } from './regular-field.js';

const [from, degree, count] = [6, 10, 96];
const half = halfSize(degree);
const angles = Array.from({ length: 33 }, (_, k) => -Math.PI / 2 + (k * Math.PI) / 32);
const along = (of: (angle: number) => number) => angles.map(of);
const recurrence = contourRecurrence(
  along((a) => 0.9 * Math.cos(a)),
  along((a) => 0.6 * Math.sin(a)),
  along(() => 1),
  degree,
);
const basis: RegularBasis = { degree, centreX: 0, centreY: 1, length: 2, recurrence };
const undisturbed = Float64Array.from({ length: 2 * half }, (_, i) => Math.cos(1.7 * i));
/** Of a fold, only the fields that it holds act. */
const solvedWith = (nodes: CurveNodes, fold: EdgeFold) => {
  const own = { ...basis, degree: from };
  const held = new Float64Array(4 * from * 2);
  held.set(undisturbed.subarray(0, fold === 'odd-pair' ? 0 : 2 * from));
  if (fold === 'whole' || fold === 'odd-pair') held.set(undisturbed.subarray(0, 2 * from), 2 * from);
  const solver = createEdgeSolver(own, count, fold, 1, 1e-14);
  solver.solve(nodes, [{ undisturbed: held, response: undefined }]);
  return solver;
};
const phiOf = (solver: ReturnType<typeof solvedWith>, nodes: CurveNodes, fold: EdgeFold) => {
  const held = new Float64Array(4 * from);
  if (fold !== 'odd-pair') held.set(undisturbed.subarray(0, 2 * from));
  if (fold === 'whole' || fold === 'odd-pair') held.set(undisturbed.subarray(0, 2 * from), 2 * from);
  return solver.solve(nodes, [{ undisturbed: held, response: undefined }]).phi[0]!;
};

const outlines = {
  whole: ellipseNodes(0.8, 0.5, [0.2, 1.1], 0.4, count),
  half: ellipseNodes(0.8, 0.5, [0, 1.1], 0, count),
  pair: ellipseNodes(0.4, 0.3, [0.7, 1], 0.3, count),
  'odd-pair': ellipseNodes(0.4, 0.3, [0.7, 1], 0.3, count),
} as const;

/** All moments of the higher degree, as the solver's own matrix of them has it. */
function expected(nodes: CurveNodes, fold: EdgeFold, phi: Float64Array): Float64Array {
  const local = createCurveNodes(count);
  toLocal(nodes, basis, local);
  const rows = fold === 'half' ? count / 2 : count;
  const inner = { x: 0, y: 0 };
  const table = createBasisTable(basis, rows);
  fillBasisTable(local, rows, inner, table);
  const out = new Float64Array(2 * half);
  for (const symmetric of [true, false]) {
    if (fold !== 'whole' && symmetric !== (fold !== 'odd-pair')) continue;
    const Q = new Float64Array(half * 2 * rows);
    writeEdgeFields({ nodes: local, fold, inner }, { table, symmetric, first: 0 }, half, {
      H: new Float64Array(2 * rows * half),
      Q,
    });
    for (let l = 0; l < half; l++)
      for (let i = 0; i < 2 * rows; i++) out[(symmetric ? 0 : half) + l]! += Q[l * 2 * rows + i]! * phi[i]!;
  }
  return out;
}

function written(nodes: CurveNodes, fold: EdgeFold, phi: Float64Array): Float64Array {
  const higher = createHigherMoments(basis, from, count);
  const out = new Float64Array(2 * half);
  higher.take(nodes);
  higher.write([phi], [fold], [out]);
  return out;
}

const beyond = (all: Float64Array) =>
  Float64Array.of(...all.subarray(halfSize(from), half), ...all.subarray(half + halfSize(from)));

describe.each(['whole', 'half', 'pair', 'odd-pair'] as const)(
  'moments beyond those that an edge is solved with: %s',
  (fold) => {
    const nodes = outlines[fold];

    it('are what the matrix of all moments gives', () => {
      const phi = phiOf(solvedWith(nodes, fold), nodes, fold);
      const found = beyond(written(nodes, fold, phi));
      expect(Math.max(...found)).toBeGreaterThan(1e-3);
      expect(largestDifference(found, beyond(expected(nodes, fold, phi)))).toBeLessThan(1e-12);
    });

    it('have the rates of central differences', () => {
      const solver = solvedWith(nodes, fold);
      const phi = phiOf(solver, nodes, fold).slice();
      const motions = createCurveRates(1, count);
      for (let j = 0; j < count; j++) {
        const v = ((j + 0.5) * 2 * Math.PI) / count;
        motions.x[j] = Math.sin(v);
        motions.y[j] = 0.3 * Math.cos(2 * v);
        motions.dx[j] = Math.cos(v);
        motions.dy[j] = -0.6 * Math.sin(2 * v);
      }
      const higher = createHigherMoments(basis, from, count);
      higher.take(nodes);
      const { phiRates } = solver.slopes(motions, 1);
      const rates = higher.rates({ phi, phiRates: phiRates[0]!, fold }, motions, 1);
      const [a, b] = [1, -1].map((sign) => {
        const moved = { ...nodes };
        for (const of of ['x', 'y', 'dx', 'dy'] as const)
          Object.assign(moved, { [of]: nodes[of].map((value, j) => value + sign * 1e-5 * motions[of][j]!) });
        return beyond(written(moved, fold, phiOf(solvedWith(moved, fold), moved, fold)));
      }) as [Float64Array, Float64Array];
      const differences = a.map((value, i) => (value - b[i]!) / 2e-5);
      const size = 2 * (degree - from);
      const held =
        fold === 'whole' ? differences : differences.subarray(fold === 'odd-pair' ? size : 0).subarray(0, size);
      expect(Math.max(...held)).toBeGreaterThan(1e-3);
      expect(largestDifference(rates.subarray(0, held.length), held)).toBeLessThan(1e-7);
    });
  },
);

describe('a frame of moments', () => {
  it('holds each moment but that of the rotation once, degree by degree', () => {
    for (const of of ['symmetric', 'antisymmetric', 'whole'] as const) {
      const order = framedOrder(of, degree);
      expect(order).toHaveLength(framedCount(of, degree));
      expect(order.slice(0, framedCount(of, 3))).toEqual(
        framedOrder(of, degree).filter((place) => place % half < halfSize(3)),
      );
      expect(new Set(order).size).toBe(order.length);
    }
    expect(framedOrder('antisymmetric', 2)).toEqual([1, 2, 3]);
    expect(framedOrder('whole', 1)).toEqual([0, 1, 3]);
  });

  it('gives weights that tell the same of moments as they are', () => {
    const factor = Float64Array.from({ length: 10 }, (_, i) => 1 + Math.sin(3 * i) / 2);
    const moments = Float64Array.of(1, -2, 0.5, 3);
    const framed = moments.slice();
    toFrame(factor, 4, framed);
    const weights = Float64Array.of(0.3, 1, -1, 2);
    const plain = weights.slice();
    weightsFromFrame(factor, 4, plain);
    const sum = (a: Float64Array, b: Float64Array) => a.reduce((total, value, i) => total + value * b[i]!, 0);
    expect(sum(plain, moments)).toBeCloseTo(sum(weights, framed), 12);
    toFrame(plainFrame(4), 4, moments);
    expect([...moments]).toEqual([1, -2, 0.5, 3]);
  });
});
