import { describe, expect, it } from 'vitest';
import { referenceJoint } from '../../../../../test/fixtures/tee-reference.js';
import { assembleBody, strainRows } from '../../mesh/quad/index.js';
import { controlContour } from './contour.js';
import { meshTee, type TeePart } from './tee-mesh.js';

const contour = controlContour(5, 0.12, 0.12);
const tee = meshTee(referenceJoint, contour);
const { mesh } = tee.body;

/** Area of some parts by 3 x 3 Gauss points. */
function area(parts: readonly TeePart[]): number {
  const points = [-Math.sqrt(0.6), 0, Math.sqrt(0.6)];
  const weights = [5 / 9, 8 / 9, 5 / 9];
  const rows = new Float64Array(54);
  let sum = 0;
  for (const part of parts) {
    const block = tee.parts[part]!;
    for (let e = block.first; e < block.first + block.columns * block.rows; e++)
      points.forEach((a, i) => {
        points.forEach((b, j) => {
          sum += weights[i]! * weights[j]! * strainRows(mesh, e, a, b, rows);
        });
      });
  }
  return sum;
}

describe('meshTee', () => {
  it('covers web, bend, foot, skin and filler: areas of the drawing', () => {
    expect(area(['web'])).toBeCloseTo(2 * 25, 9);
    expect(area(['foot'])).toBeCloseTo(2 * 20, 9);
    expect(area(['skin-filler', 'skin-foot', 'skin-free'])).toBeCloseTo(3 * 40, 9);
    expect(area(['bend']) / ((Math.PI / 4) * (25 - 9))).toBeCloseTo(1, 6);
    // Half of the filler, 2 R^2 (1 - pi/4), less the contour's inside (Green, along its quadratic edges).
    let inside = 0;
    for (let i = 0; i + 2 < contour.x.length; i += 2)
      for (const s of [-Math.sqrt(1 / 3), Math.sqrt(1 / 3)]) {
        const N = [(s * (s - 1)) / 2, 1 - s * s, (s * (s + 1)) / 2];
        const D = [s - 0.5, -2 * s, s + 0.5];
        const sum = (f: number[], v: Float64Array) => f[0]! * v[i]! + f[1]! * v[i + 1]! + f[2]! * v[i + 2]!;
        inside += (sum(N, contour.x) * sum(D, contour.y) - sum(N, contour.y) * sum(D, contour.x)) / 2;
      }
    const ring = area([
      'ring-base',
      'ring-tip-below',
      'ring-tip-above',
      'ring-side',
      'ring-top',
      'cusp-bottom',
      'cusp-top',
    ]);
    expect((ring + inside) / (25 * (1 - Math.PI / 4))).toBeCloseTo(1, 5);
  });

  it('conforms: every side belongs to two elements, or lies on the axis, the contour or a free surface', () => {
    const sides = new Map<string, readonly [number, number, number]>();
    for (let e = 0; e < mesh.material.length; e++) {
      const n = [...mesh.elements.subarray(9 * e, 9 * e + 9)] as number[];
      for (const [i, j, k] of [
        [0, 1, 2],
        [6, 7, 8],
        [0, 3, 6],
        [2, 5, 8],
      ] as const) {
        if (n[i] === n[k]) continue;
        const key = [n[i]!, n[k]!].sort((p, q) => p - q).join();
        if (sides.has(key)) {
          expect(sides.get(key)![1]).toBe(n[j]);
          sides.delete(key);
        } else sides.set(key, [n[i]!, n[j]!, n[k]!]);
      }
    }
    for (const [, middle] of sides.values()) {
      const [x, y] = [mesh.x[middle]!, mesh.y[middle]!];
      const onBorder = [
        x,
        x - 40,
        y + 3,
        y - 30,
        x > 2 - 1e-9 && y >= 5 ? x - 2 : 1,
        x > 5 && x < 25 ? y - 2 : 1,
        x > 25 ? y : 1,
      ];
      const nearest = Math.min(
        ...onBorder.map(Math.abs),
        x > 25 - 1e-9 && y > 0 ? Math.abs(x - 25) : 1,
        Math.abs(contour.distance(x, y)),
        x <= 5 && y <= 5 ? Math.abs(Math.hypot(x - 5, y - 5) - 3) : 1,
      );
      expect(nearest).toBeLessThan(1e-9);
    }
    tee.contourNodes.forEach((node, i) => {
      expect(Math.hypot(mesh.x[node]! - contour.x[i]!, mesh.y[node]! - contour.y[i]!)).toBeLessThan(1e-12);
    });
  });

  it('takes rigid motion of the whole without force', () => {
    const { dofCount, offsets, dofs, matrices } = assembleBody(tee.body);
    const force = new Float64Array(3 * dofCount);
    let stiffest = 0;
    let at = 0;
    for (let e = 0; e + 1 < offsets.length; e++) {
      const list = dofs.subarray(offsets[e]!, offsets[e + 1]!);
      for (let i = 0; i < list.length; i++)
        for (let j = 0; j <= i; j++) {
          const value = matrices[at + i * list.length + j]!;
          stiffest = Math.max(stiffest, i < 18 ? value : 0);
          for (const [row, column] of i === j
            ? [[i, j]]
            : ([
                [i, j],
                [j, i],
              ] as const)) {
            const dof = list[column!]!;
            const node = dof >> 1;
            if (node >= mesh.x.length) continue;
            const motion = dof % 2 === 0 ? [1, 0, -mesh.y[node]!] : [0, 1, mesh.x[node]!];
            motion.forEach((u, m) => {
              force[3 * list[row!]! + m]! += value * u;
            });
          }
        }
      at += list.length ** 2;
    }
    expect(force.reduce((most, f) => Math.max(most, Math.abs(f)), 0)).toBeLessThan(1e-9 * stiffest);
  });

  it('has two rows of elements through the layer next to the filler and at least one through any other', () => {
    const rows = (layer: number) => tee.overlaminateLayers.filter((of) => of === layer).length;
    expect(rows(0)).toBeGreaterThanOrEqual(2);
    referenceJoint.overlaminate.forEach((_, layer) => {
      expect(rows(layer)).toBeGreaterThanOrEqual(1);
    });
    expect(new Set(tee.skinLayers)).toEqual(new Set([0]));
  });

  it('divides sizes by the refinement and keeps the contour', () => {
    const fine = meshTee(referenceJoint, contour, 2);
    expect(fine.body.mesh.material.length).toBeGreaterThan(1.6 * mesh.material.length);
    expect(fine.contourNodes.length).toBe(tee.contourNodes.length);
  });
});
