import { describe, expect, it } from 'vitest';
import { type ElementMatrices, factorize } from './factor.js';

/** A grid of four-node membranes of one dof per node (springs and shear), random positive semidefinite matrices. */
function grid(nx: number, ny: number, seed = 1): ElementMatrices {
  let state = seed;
  const random = () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647 - 0.5;
  };
  const count = nx * ny;
  const dofs = new Int32Array(4 * count);
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const matrices = new Float64Array(16 * count);
  for (let e = 0; e < count; e++) {
    const i = e % nx;
    const j = Math.floor(e / nx);
    const corner = i + j * (nx + 1);
    dofs.set([corner, corner + 1, corner + nx + 2, corner + nx + 1], 4 * e);
    x[e] = i;
    y[e] = j;
    for (let k = 0; k < 4; k++) {
      const v = [random(), random(), random(), random()];
      for (let a = 0; a < 4; a++) for (let b = 0; b < 4; b++) matrices[16 * e + 4 * a + b]! += v[a]! * v[b]!;
    }
  }
  const offsets = Int32Array.from({ length: count + 1 }, (_, e) => 4 * e);
  return { dofCount: (nx + 1) * (ny + 1), offsets, dofs, x, y, matrices };
}

function dense(elements: ElementMatrices): Float64Array {
  const n = elements.dofCount;
  const K = new Float64Array(n * n);
  let at = 0;
  for (let e = 0; e + 1 < elements.offsets.length; e++) {
    const list = elements.dofs.subarray(elements.offsets[e]!, elements.offsets[e + 1]!);
    for (const i of list) for (const j of list) K[i * n + j]! += elements.matrices[at++]!;
  }
  return K;
}

const largest = (values: Iterable<number>) => {
  let most = 0;
  for (const value of values) most = Math.max(most, Math.abs(value));
  return most;
};

describe('factorize', () => {
  const elements = grid(13, 9);
  const n = elements.dofCount;
  const K = dense(elements);
  const residual = (u: Float64Array, columns: number) => {
    const force = new Float64Array(n * columns);
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++)
        for (let c = 0; c < columns; c++) force[i * columns + c]! += K[i * n + j]! * u[j * columns + c]!;
    return force;
  };

  it('solves for several loads with some dofs fixed', () => {
    const fixed = [0, 7, 50];
    const loads = Float64Array.from({ length: 2 * n }, (_, i) => Math.sin(i));
    const u = factorize(elements, { fixed }).solve(loads, 2);
    const force = residual(u, 2);
    for (let i = 0; i < 2 * n; i++) {
      if (fixed.includes(i >> 1)) expect(u[i]).toBe(0);
      else expect(Math.abs(force[i]! - loads[i]!)).toBeLessThan(1e-9);
    }
  });

  it('keeps retained dofs: the Schur complement gives the forces, the interior is free of force', () => {
    const retained = [100, 3, 60, 61, 139];
    const factor = factorize(elements, { retained });
    const values = Float64Array.from({ length: 15 }, (_, i) => Math.cos(3 * i));
    const u = factor.expand(values, 3);
    const force = residual(u, 3);
    for (let i = 0; i < n; i++) {
      const r = retained.indexOf(i);
      for (let c = 0; c < 3; c++) {
        let wanted = 0;
        if (r >= 0) {
          expect(u[3 * i + c]).toBe(values[3 * r + c]);
          for (let k = 0; k < 5; k++) wanted += factor.schur[5 * r + k]! * values[3 * k + c]!;
        }
        expect(Math.abs(force[3 * i + c]! - wanted)).toBeLessThan(1e-9);
      }
    }
  });

  it('carries loads to the retained dofs: superposition solves the whole system', () => {
    const retained = [20, 90];
    const factor = factorize(elements, { retained });
    const loads = Float64Array.from({ length: n }, (_, i) => Math.sin(2 * i));
    const [f0, f1] = factor.reduceLoads(loads, 1) as unknown as [number, number];
    const [a, b, , d] = factor.schur as unknown as [number, number, number, number];
    const determinant = a * d - b * b;
    const values = Float64Array.of((d * f0 - b * f1) / determinant, (a * f1 - b * f0) / determinant);
    const u = factor.solve(loads, 1);
    const v = factor.expand(values, 1);
    for (let i = 0; i < n; i++) u[i]! += v[i]!;
    expect(largest(residual(u, 1).map((force, i) => force - loads[i]!))).toBeLessThan(1e-9);
  });

  it('lets a retained dof be indefinite: a load bordered in as an unknown', () => {
    const load = 17;
    const bordered: ElementMatrices = {
      ...elements,
      dofCount: n + 1,
      offsets: Int32Array.of(...elements.offsets, elements.dofs.length + 2),
      dofs: Int32Array.of(...elements.dofs, load, n),
      x: Float64Array.of(...elements.x, 0),
      y: Float64Array.of(...elements.y, 0),
      matrices: Float64Array.of(...elements.matrices, 0, -1, -1, 0),
    };
    const factor = factorize(bordered, { retained: [n] });
    const u = factor.expand(Float64Array.of(1), 1);
    const unit = new Float64Array(n);
    unit[load] = 1;
    const direct = factorize(elements).solve(unit, 1);
    expect(largest(direct.map((value, i) => value - u[i]!))).toBeLessThan(1e-9);
    expect(factor.schur[0]).toBeCloseTo(-direct[load]!, 9);
  });

  it('names the dof of a pivot that is not positive, and a dof without element', () => {
    const negative = { ...elements, matrices: elements.matrices.map((v) => -v) };
    expect(() => factorize(negative)).toThrow(/not positive definite at dof \d+/);
    expect(() => factorize({ ...elements, dofCount: n + 1 })).toThrow(`dof ${n} belongs to no element`);
    expect(() => factorize(elements, { retained: [4], fixed: [4] })).toThrow('dof 4 is both retained and fixed');
  });

  it('lets NaN fail instead of spreading it', () => {
    const broken = { ...elements, matrices: elements.matrices.map((v, i) => (i === 200 ? Number.NaN : v)) };
    expect(() => factorize(broken)).toThrow(/not positive definite/);
  });
});
