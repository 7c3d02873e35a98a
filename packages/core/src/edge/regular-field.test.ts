import { describe, expect, it } from 'vitest';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import { trigonometricRule } from '../linear/index.js';
import { createBasisTable, fillBasisTable, halfSize, isReal, powerRecurrence } from './basis.js';
import { writeEdgeFields } from './regular-field.js';

type Complex = readonly [re: number, im: number];
const add = (...all: Complex[]): Complex => [all.reduce((s, a) => s + a[0], 0), all.reduce((s, a) => s + a[1], 0)];
const times = (a: Complex, b: Complex): Complex => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
const scaled = (factor: number, a: Complex): Complex => [factor * a[0], factor * a[1]];
const conj = (a: Complex): Complex => [a[0], -a[1]];
const power = (a: Complex, k: number): Complex => (k <= 0 ? [k === 0 ? 1 : 0, 0] : times(a, power(a, k - 1)));

const degree = 5;
const half = halfSize(degree);

/** Field number `l` of a symmetry class at z: phi, phi' and psi. */
function field(l: number, symmetric: boolean, z: Complex) {
  const k = 1 + (l >> 1);
  const unit: Complex = isReal(k, symmetric) ? [1, 0] : [0, 1];
  const value = times(unit, power(z, k));
  const slope = scaled(k, times(unit, power(z, k - 1)));
  const none: Complex = [0, 0];
  return l % 2 === 0 ? { phi: value, slope, psi: none } : { phi: none, slope: none, psi: value };
}

describe('writeEdgeFields', () => {
  const count = 48;
  const inner = { x: 0.15, y: -0.1 };
  const nodes = ellipseNodes(0.7, 0.4, [0.1, -0.2], 0.3, count);
  const H = new Float64Array(2 * count * 2 * half);
  const Q = new Float64Array(2 * half * 2 * count);
  const basis = { degree, centreX: 0, centreY: 0, length: 1, recurrence: powerRecurrence(degree) };
  const table = createBasisTable(basis, count);
  fillBasisTable(nodes, count, inner, table);
  const edge = { nodes, fold: 'whole' as const, inner };
  writeEdgeFields(edge, { table, symmetric: true, first: 0 }, 2 * half, { H, Q });
  writeEdgeFields(edge, { table, symmetric: false, first: half }, 2 * half, { H, Q });

  it("gives the right side phi - t conj(phi') - conj(psi) + (t - z0) Re phi'(z0) of every field", () => {
    for (const symmetric of [true, false])
      for (let l = 0; l < half; l++) {
        const column = (symmetric ? 0 : half) + l;
        const atInner = field(l, symmetric, [inner.x, inner.y]).slope[0];
        for (let j = 0; j < count; j++) {
          const t: Complex = [nodes.x[j]!, nodes.y[j]!];
          const { phi, slope, psi } = field(l, symmetric, t);
          const expected = add(
            phi,
            scaled(-1, times(t, conj(slope))),
            scaled(-1, conj(psi)),
            scaled(atInner, add(t, [-inner.x, -inner.y])),
          );
          expect(H[2 * j * 2 * half + column]).toBeCloseTo(expected[0], 13);
          expect(H[(2 * j + 1) * 2 * half + column]).toBeCloseTo(expected[1], 13);
        }
      }
  });

  it('weighs displacements with the traction -i dF of every field', () => {
    for (const symmetric of [true, false])
      for (let l = 0; l < half; l++) {
        const force = new Float64Array(2 * count);
        for (let j = 0; j < count; j++) {
          const t: Complex = [nodes.x[j]!, nodes.y[j]!];
          const { phi, slope, psi } = field(l, symmetric, t);
          force.set(add(phi, times(t, conj(slope)), conj(psi)), 2 * j);
        }
        // F is a polynomial in e^(is), e^(-is) of low degree: its derivative is exact.
        const slope = new Float64Array(2 * count);
        trigonometricRule(count).differentiate(force, slope);
        const h = (2 * Math.PI) / count;
        const expected = slope.map((_, i) => (i % 2 === 0 ? h * slope[i + 1]! : -h * slope[i - 1]!));
        const row = (symmetric ? 0 : half) + l;
        expect(largestDifference(Q.subarray(row * 2 * count, (row + 1) * 2 * count), expected)).toBeLessThan(1e-13);
      }
  });

  it('is in equilibrium: the moments of a translation and of a rotation vanish', () => {
    for (let row = 0; row < 2 * half; row++) {
      const sums = [0, 0, 0];
      for (let j = 0; j < count; j++) {
        const [qx, qy] = [Q[row * 2 * count + 2 * j]!, Q[row * 2 * count + 2 * j + 1]!];
        sums[0]! += qx;
        sums[1]! += qy;
        sums[2]! += qy * nodes.x[j]! - qx * nodes.y[j]!;
      }
      for (const sum of sums) expect(Math.abs(sum)).toBeLessThan(1e-13);
    }
  });

  it('is folded on a mirror-symmetric edge: half the nodes give rows of H and twice their share of Q', () => {
    const even = ellipseNodes(0.7, 0.4, [0, -0.2], 0, count);
    const onAxis = { x: 0, y: -0.1 };
    const whole = { H: new Float64Array(2 * count * half), Q: new Float64Array(half * 2 * count) };
    const folded = { H: new Float64Array(count * half), Q: new Float64Array(half * count) };
    fillBasisTable(even, count, onAxis, table);
    const fields = { table, symmetric: true, first: 0 };
    writeEdgeFields({ nodes: even, fold: 'whole', inner: onAxis }, fields, half, whole);
    writeEdgeFields({ nodes: even, fold: 'half', inner: onAxis }, fields, half, folded);
    expect(largestDifference(folded.H, whole.H.subarray(0, count * half))).toBe(0);
    for (let l = 0; l < half; l++)
      for (let i = 0; i < count; i++) expect(folded.Q[l * count + i]).toBeCloseTo(2 * whole.Q[l * 2 * count + i]!, 14);
  });
});
