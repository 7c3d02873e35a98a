import { describe, expect, it } from 'vitest';
import { mappedNodes } from '../../../../test/fixtures/mapped-hole.js';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import { multiply } from '../linear/index.js';
import { type CurveNodes, nodeParameter } from '../outline/index.js';
import { addInnerPointTerm, writeEdgeMatrix } from './kernel.js';

const curves: readonly (readonly [name: string, nodes: CurveNodes, inner: { x: number; y: number }])[] = [
  ['a tilted ellipse off the origin', ellipseNodes(1, 0.6, [0.7, -0.4], 0.5, 96), { x: 0.8, y: -0.3 }],
  ['a rounded square', mappedNodes({ eps: -1 / 9, n: 3 }, 96), { x: 0.2, y: 0.1 }],
  ['a rounded triangle', mappedNodes({ eps: 0.2, n: 2, size: 3 }, 128), { x: -0.4, y: 0.3 }],
];

/** `I + K`, with or without the inner-point term, times values given by the place. */
function image(
  nodes: CurveNodes,
  inner: { x: number; y: number } | undefined,
  value: (x: number, y: number) => readonly [number, number],
) {
  const order = 2 * nodes.count;
  const matrix = new Float64Array(order * order);
  writeEdgeMatrix(nodes, 'whole', matrix);
  if (inner) addInnerPointTerm([{ nodes, fold: 'whole', inner }], 0, new Float64Array(order), matrix);
  const values = new Float64Array(order);
  nodes.x.forEach((x, j) => {
    values.set(value(x, nodes.y[j]!), 2 * j);
  });
  const out = new Float64Array(order);
  multiply(matrix, order, order, values, out);
  return { values, out };
}

describe('the matrix of a traction-free edge', () => {
  // With e = t - t0: oint dlog(e / conj e) = 2 pi i as a principal value, and oint d(e / conj e) = 0.
  it.each(curves)('doubles a translation: %s', (_, nodes) => {
    for (const value of [() => [1, 0] as const, () => [0, 1] as const, () => [0.3, -2] as const]) {
      const { values, out } = image(nodes, undefined, value);
      expect(
        largestDifference(
          out,
          values.map((v) => 2 * v),
        ),
      ).toBeLessThan(1e-9);
    }
  });

  it.each(curves)('doubles a rotation: %s', (_, nodes) => {
    const { values, out } = image(nodes, undefined, (x, y) => [-y, x]);
    expect(
      largestDifference(
        out,
        values.map((v) => 2 * v),
      ),
    ).toBeLessThan(1e-8);
  });

  // Even tension has no right side but that of the inner point: its solution, zeta - eps zeta^-n on a mapped hole, is a null vector.
  it.each([
    [0.25, 1, 64],
    [-1 / 9, 3, 96],
    [0.2, 2, 96],
  ])('is singular without its inner-point term: zeta + %f zeta^-%i', (eps, n, count) => {
    const nodes = mappedNodes({ eps, n }, count);
    const inner = { x: 0.1, y: -0.2 };
    const order = 2 * count;
    const values = new Float64Array(order);
    for (let j = 0; j < count; j++) {
      const s = nodeParameter(j, count);
      values.set([Math.cos(s) - eps * Math.cos(n * s), Math.sin(s) + eps * Math.sin(n * s)], 2 * j);
    }
    const matrix = new Float64Array(order * order);
    const out = new Float64Array(order);
    writeEdgeMatrix(nodes, 'whole', matrix);
    multiply(matrix, order, order, values, out);
    expect(largestDifference(out, new Float64Array(order))).toBeLessThan(1e-9);
    addInnerPointTerm([{ nodes, fold: 'whole', inner }], 0, new Float64Array(order), matrix);
    multiply(matrix, order, order, values, out);
    // (t - z0) Re phi_r'(z0), phi_r = z
    const removed = out.map((_, i) => (i % 2 === 0 ? nodes.x[i >> 1]! - inner.x : nodes.y[i >> 1]! - inner.y));
    expect(largestDifference(out, removed)).toBeLessThan(1e-9);
  });

  it.each(curves)('is left alone by that term for rigid motion: %s', (_, nodes, inner) => {
    for (const value of [() => [0.3, -2] as const, (x: number, y: number) => [-y, x] as const])
      expect(largestDifference(image(nodes, inner, value).out, image(nodes, undefined, value).out)).toBeLessThan(1e-7);
  });

  it('continues its own diagonal: the kernel at a node is the limit of its neighbours', () => {
    const at = (count: number) => {
      const nodes = ellipseNodes(1, 0.5, [0, 0], 0.3, count);
      const order = 2 * count;
      const matrix = new Float64Array(order * order);
      writeEdgeMatrix(nodes, 'whole', matrix);
      // Node 1 and the mean of both its neighbours, over the weight of a node.
      return [0, 1].flatMap((r) =>
        [0, 1].map((c) => {
          const entry = (column: number) => matrix[(2 + r) * order + 2 * column + c]! * count;
          return entry(1) - (r === c ? count : 0) - (entry(0) + entry(2)) / 2;
        }),
      );
    };
    const coarse = at(64);
    const fine = at(128);
    for (let k = 0; k < 4; k++) {
      expect(Math.abs(coarse[k]!)).toBeLessThan(0.1);
      // Second order in the spacing.
      if (Math.abs(coarse[k]!) > 1e-3) expect(coarse[k]! / fine[k]!).toBeGreaterThan(3);
    }
  });

  it('is folded for mirror-symmetric values: half the rows and columns give the same image', () => {
    const nodes = ellipseNodes(0.8, 1.1, [0, 0.4], 0, 32);
    const inner = { x: 0, y: 0.2 };
    const value = (x: number, y: number) => [x * (1 + y * y), y - x * x] as const;
    const { values, out } = image(nodes, inner, value);
    const matrix = new Float64Array(32 * 32);
    const folded = new Float64Array(32);
    writeEdgeMatrix(nodes, 'half', matrix);
    addInnerPointTerm([{ nodes, fold: 'half', inner }], 0, new Float64Array(32), matrix);
    multiply(matrix, 32, 32, values.subarray(0, 32), folded);
    expect(largestDifference(folded, out.subarray(0, 32))).toBeLessThan(1e-13);
  });
});
