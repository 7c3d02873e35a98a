import { Matrix, solve } from 'ml-matrix';
import { beforeAll, describe, expect, it } from 'vitest';
import { reference, referenceJoint } from '../../../../../test/fixtures/tee-reference.js';
import { factorize } from '../../linear/index.js';
import { sectionStiffness } from '../../material/index.js';
import {
  assembleBody,
  elementOrder,
  joinBlocks,
  numberUnknowns,
  placeIn,
  type SectionBody,
  stressRows,
} from '../../mesh/quad/index.js';
import { type CondensedTee, condenseTee } from './condense.js';
import { type ControlContour, controlContour } from './contour.js';

interface Place {
  readonly value: number;
  readonly x: number;
  readonly y: number;
}
/** The filler inside the contour (right half, symmetric), meshed as a fan about a point on the axis and condensed onto the contour. */
function fillInside(contour: ControlContour, rows: number) {
  const last = contour.x.length - 1;
  const centre = contour.bendRadius / 4;
  const { mesh } = joinBlocks(
    [
      {
        columns: last / 2,
        rows,
        at: (column, row) => {
          const f = 1 - row / (2 * rows);
          return [f * contour.x[column]!, centre + f * (contour.y[column]! - centre)];
        },
        material: () => 0,
        axes: { kind: 'straight', angle: 0 },
      },
    ],
    1e-9,
  );
  const body: SectionBody = { mesh, materials: [sectionStiffness({ angle: 90, ply: referenceJoint.filler })] };
  const onContour = Array.from({ length: last + 1 }, (_, node) => {
    const column = Math.min(node >> 1, last / 2 - 1);
    return mesh.elements[9 * column + node - 2 * column]!;
  });
  const unknowns = numberUnknowns(mesh.x.length, 0);
  const kept = new Set(onContour);
  const fixed: number[] = [];
  for (let node = 0; node < mesh.x.length; node++)
    if (Math.abs(mesh.x[node]!) < 1e-9 && !kept.has(node)) fixed.push(2 * node);
  const retained = [...onContour.flatMap((node) => [2 * node, 2 * node + 1]), unknowns.strainZ, unknowns.deltaT];
  return { body, factor: factorize(assembleBody(body), { retained, fixed }) };
}

/** The joint without channel under one load: contour displacements, axial strain for zero axial force, stresses. */
function solveWithout(
  host: CondensedTee,
  inside: ReturnType<typeof fillInside>,
  load: 'pull' | 'deltaT',
  size: number,
) {
  const half = host.halves.find((h) => h.support === (load === 'pull' ? 'clamped' : 'free'))!;
  const order = Math.sqrt(half.matrix.length);
  const contourDofs = order - half.scalars.length;
  const at = (scalar: (typeof half.scalars)[number]) => contourDofs + half.scalars.indexOf(scalar);
  const full = new Matrix(
    Array.from({ length: order }, (_, i) => [...half.matrix.subarray(i * order, (i + 1) * order)]),
  );
  const inner = inside.factor.retained.length;
  const where = Array.from({ length: inner }, (_, i) =>
    i < contourDofs ? i : at(i === contourDofs ? 'strainZ' : 'deltaT'),
  );
  for (let i = 0; i < inner; i++)
    for (let j = 0; j < inner; j++)
      full.set(where[i]!, where[j]!, full.get(where[i]!, where[j]!) + inside.factor.schur[i * inner + j]!);
  const unknown: number[] = [];
  for (let dof = 0; dof < contourDofs; dof++) if (dof !== 0 && dof !== contourDofs - 2) unknown.push(dof);
  unknown.push(at('strainZ'));
  const answer = solve(full.selection(unknown, unknown), full.selection(unknown, [at(load)]).mul(-size));
  const a = new Float64Array(order);
  unknown.forEach((dof, i) => {
    a[dof] = answer.get(i, 0);
  });
  a[at(load)] = size;

  const largest: Record<string, Place> = {};
  const meet = (name: string, value: number, x: number, y: number) => {
    if (!(value <= (largest[name]?.value ?? -Infinity))) largest[name] = { value, x, y };
  };
  const principal = (s: number, t: number, shear: number) => (s + t) / 2 + Math.hypot((s - t) / 2, shear);
  const stresses = host.body.stresses(half.kept(a, 1), 1, [...host.body.points.keys()]);
  host.body.points.forEach(({ place, x, y, layer }, p) => {
    const [n, t, nt] = stresses.subarray(3 * p, 3 * p + 3) as unknown as [number, number, number];
    if (place === 'bend') {
      meet('bendRadial', n, x, y);
      meet('bendShear', Math.abs(nt), x, y);
    }
    const side = place === 'arc-interface' ? 'arc' : place === 'base-interface' ? 'base' : undefined;
    if (side !== undefined) {
      meet(`${side}Normal`, n, x, y);
      meet(`${side}Shear`, Math.abs(nt), x, y);
    }
    if (layer === -1) meet('fillerPrincipal', principal(n, t, nt), x, y);
  });
  const values = new Float64Array(inner);
  where.forEach((dof, i) => {
    values[i] = a[dof] ?? 0;
  });
  const u = inside.factor.expand(values, 1);
  const { mesh } = inside.body;
  for (let e = 0; e < mesh.material.length; e++) {
    const rows = stressRows(inside.body, e, 0, 0);
    const stress = [0, 1, 2].map((c) => {
      let sum = rows[c * elementOrder + 18]! * a[at('strainZ')]! + rows[c * elementOrder + 19]! * values[inner - 1]!;
      for (let i = 0; i < 18; i++)
        sum += rows[c * elementOrder + i]! * u[2 * mesh.elements[9 * e + (i >> 1)]! + (i & 1)]!;
      return sum;
    }) as [number, number, number];
    meet('fillerPrincipal', principal(...stress), ...placeIn(mesh, e, 0, 0));
  }
  return { strainZ: a[at('strainZ')]!, largest };
}

describe('joint A without channel', () => {
  let host: CondensedTee;
  let inside: ReturnType<typeof fillInside>;
  beforeAll(() => {
    const contour = controlContour(5, 0.12, 0.12);
    host = condenseTee(referenceJoint, contour, {
      halves: [
        { symmetry: 'symmetric', support: 'clamped' },
        { symmetry: 'symmetric', support: 'free' },
      ],
    });
    inside = fillInside(contour, 16);
  });

  for (const [name, load, size] of [
    ['pull', 'pull', 100],
    ['cure', 'deltaT', -155],
  ] as const)
    it(`agrees with the independent solution under ${name}`, () => {
      const { strainZ, largest } = solveWithout(host, inside, load, size);
      expect(Math.abs(strainZ / reference.strainZ[name] - 1)).toBeLessThan(5e-4);
      for (const [quantity, { value, x, y }] of Object.entries(reference.withoutChannel[name])) {
        const found = largest[quantity]!;
        expect(Math.abs(found.value / value - 1), `${quantity}: ${found.value} for ${value}`).toBeLessThan(0.01);
        // Largest values are flat where they lie: the place agrees to a few tenths.
        if (quantity !== 'baseNormal')
          expect(Math.hypot(found.x - Math.abs(x), found.y - y), quantity).toBeLessThan(0.3);
      }
    });
});
