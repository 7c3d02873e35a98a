import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { referencePly } from '../../../../../test/fixtures/tee-reference.js';
import { factorize } from '../../linear/index.js';
import { inPlaneConstants, sectionStiffness } from '../../material/index.js';
import { assembleBody, edgeLoad, numberUnknowns } from './assemble.js';
import { addElementStiffness, elementOrder, stressRows, triangleOrder, triangleStress } from './element.js';
import { type Block, joinBlocks } from './grid.js';
import type { SectionBody } from './section-mesh.js';

const largest = (values: Iterable<number>) => {
  let most = 0;
  for (const value of values) most = Math.max(most, Math.abs(value));
  return most;
};

/** Stress (t, n, tn) at (a, b) of an element from all unknowns of the body. */
function stressAt(body: SectionBody, u: Float64Array, e: number, a: number, b: number): readonly number[] {
  const rows = stressRows(body, e, a, b);
  const { strainZ, deltaT } = numberUnknowns(body.mesh.x.length, 0);
  return [0, 1, 2].map((c) => {
    const row = c * elementOrder;
    let sum = rows[row + 18]! * u[strainZ]! + rows[row + 19]! * u[deltaT]!;
    for (let i = 0; i < 18; i++) sum += rows[row + i]! * u[2 * body.mesh.elements[9 * e + (i >> 1)]! + (i & 1)]!;
    return sum;
  });
}

/** Four by four wildly curved elements of an off-axis layer. */
function curvedPatch(): SectionBody {
  const at = (column: number, row: number): readonly [number, number] => {
    const inner = column > 0 && column < 8 && row > 0 && row < 8 ? 0.06 : 0;
    return [
      column / 4 + inner * Math.sin(3 * column + 5 * row),
      row / 5 + (column * column) / 200 + inner * Math.cos(2 * column + 7 * row),
    ];
  };
  const block: Block = { columns: 4, rows: 4, at, material: () => 0, axes: { kind: 'straight', angle: 0.4 } };
  return { mesh: joinBlocks([block], 1e-9).mesh, materials: [sectionStiffness({ angle: 30, ply: referencePly })] };
}

describe('the nine-node element', () => {
  it('passes the patch test: a linear displacement held on the border gives uniform strain inside', () => {
    const body = curvedPatch();
    const { mesh } = body;
    const unknowns = numberUnknowns(mesh.x.length, 0);
    const linear = (x: number, y: number) => [2e-3 * x - 1e-3 * y, 5e-4 * x + 3e-3 * y] as const;
    const border: number[] = [];
    for (let node = 0; node < mesh.x.length; node++) {
      const [column, row] = [node % 9, Math.floor(node / 9)];
      if (column % 8 === 0 || row % 8 === 0) border.push(node);
    }
    const retained = [...border.flatMap((node) => [2 * node, 2 * node + 1]), unknowns.strainZ, unknowns.deltaT];
    const values = [...border.flatMap((node) => linear(mesh.x[node]!, mesh.y[node]!)), 1e-3, 20];
    const u = factorize(assembleBody(body), { retained }).expand(Float64Array.from(values), 1);
    for (let node = 0; node < mesh.x.length; node++) {
      const [ux, uy] = linear(mesh.x[node]!, mesh.y[node]!);
      expect(Math.abs(u[2 * node]! - ux) + Math.abs(u[2 * node + 1]! - uy)).toBeLessThan(1e-15);
    }
    // The same strain turned into the material's axes, through its stiffness.
    const [c, s] = [Math.cos(0.4), Math.sin(0.4)];
    const [ex, ey, g] = [2e-3, 3e-3, -5e-4];
    const strain = [
      ex * c * c + ey * s * s + g * s * c,
      ex * s * s + ey * c * c - g * s * c,
      2 * (ey - ex) * s * c + g * (c * c - s * s),
      1e-3,
    ];
    const { stiffness, thermal } = body.materials[0]!;
    const stress = [0, 1, 2].map(
      (r) => strain.reduce((sum, e, k) => sum + stiffness[4 * r + k]! * e, 0) - thermal[r]! * 20,
    );
    for (let e = 0; e < mesh.material.length; e++)
      stressAt(body, u, e, 0.3, -0.8).forEach((value, k) => {
        expect(Math.abs(value - stress[k]!)).toBeLessThan(1e-10 * largest(stress));
      });
  });

  it('takes rigid motion without force and has positive energy otherwise', () => {
    const body = curvedPatch();
    const order = elementOrder;
    const lower = new Float64Array(order * order);
    addElementStiffness(body, 5, lower, 0);
    const full = new Matrix(order, order);
    for (let i = 0; i < order; i++)
      for (let j = 0; j < order; j++) full.set(i, j, lower[Math.max(i, j) * order + Math.min(i, j)]!);
    const { elements, x, y } = body.mesh;
    const nodes = [...elements.subarray(45, 54)];
    for (const motion of [
      nodes.flatMap(() => [1, 0]),
      nodes.flatMap(() => [0, 1]),
      nodes.flatMap((node) => [-y[node]!, x[node]!]),
    ])
      expect(largest(full.mmul(Matrix.columnVector([...motion, 0, 0])).to1DArray())).toBeLessThan(1e-9 * full.max());
    const bent = Array.from({ length: 18 }, (_, i) => Math.sin(7 * i));
    const a = Matrix.columnVector([...bent, 0, 0]);
    expect(a.transpose().mmul(full).mmul(a).get(0, 0)).toBeGreaterThan(0);
  });

  it('refuses an element turned inside out', () => {
    const block: Block = {
      columns: 1,
      rows: 1,
      at: (column, row) => [-column, row],
      material: () => 0,
      axes: { kind: 'straight', angle: 0 },
    };
    const body = {
      mesh: joinBlocks([block], 1e-9).mesh,
      materials: [sectionStiffness({ angle: 0, ply: referencePly })],
    };
    expect(() => assembleBody(body)).toThrow('element 0 is turned inside out');
  });
});

/** A quarter of a ring, the tangent running along it; rows from the inside out, `material` by row. */
function quarterRing(inner: number, outer: number, columns: number, rows: number, material: (row: number) => number) {
  const block: Block = {
    columns,
    rows,
    // Columns turn clockwise so that rows outwards keep elements right-handed.
    at: (column, row) => {
      const radius = inner + ((outer - inner) * row) / (2 * rows);
      const angle = (Math.PI / 2) * (1 - column / (2 * columns));
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    },
    material,
    axes: { kind: 'arc', x: 0, y: 0 },
  };
  const { mesh } = joinBlocks([block], 1e-9);
  const held: number[] = [];
  for (let node = 0; node < mesh.x.length; node++) {
    if (Math.abs(mesh.x[node]!) < 1e-9) held.push(2 * node);
    if (Math.abs(mesh.y[node]!) < 1e-9) held.push(2 * node + 1);
  }
  const inside = Array.from({ length: columns }, (_, c) => [0, 1, 2].map((a) => mesh.elements[9 * c + a]!));
  return { mesh, held, inside: inside as [number, number, number][] };
}

interface TubePart {
  readonly G: number;
  readonly k: number;
  readonly z: number;
  readonly zz: number;
  readonly thermal: Float64Array;
}

describe('rings', () => {
  it('agrees with the curvilinearly orthotropic ring under internal pressure, of second order in stress at the faces', () => {
    // Lekhnitskii, Anisotropic Plates (1968), ring under pressure (from memory), with the exponent of plane strain.
    const [a, b, p] = [3, 5, 10];
    const layer = sectionStiffness({ angle: 20, ply: referencePly });
    const k = Math.sqrt(layer.stiffness[0]! / layer.stiffness[5]!);
    expect(k).toBeGreaterThan(2);
    const c = a / b;
    const factor = (p * c ** (k + 1)) / (1 - c ** (2 * k));
    const radial = (r: number) => factor * ((r / b) ** (k - 1) - (b / r) ** (k + 1));
    const hoop = (r: number) => factor * k * ((r / b) ** (k - 1) + (b / r) ** (k + 1));
    const error = (rows: number) => {
      const { mesh, held, inside } = quarterRing(a, b, 2 * rows, rows, () => 0);
      const body = { mesh, materials: [layer] };
      const load = edgeLoad(mesh, inside, (x, y) => {
        const r = Math.hypot(x, y);
        return [(p * x) / r, (p * y) / r];
      });
      const system = assembleBody(body, [load]);
      const unknowns = numberUnknowns(mesh.x.length, 1);
      const factorized = factorize(system, {
        retained: [unknowns.load(0)],
        fixed: [...held, unknowns.strainZ, unknowns.deltaT],
      });
      const u = factorized.expand(Float64Array.of(1), 1);
      let worst = 0;
      for (let e = 0; e < mesh.material.length; e++)
        for (const at of [-1, 0, 1]) {
          const row = Math.floor(e / (2 * rows)) + (at + 1) / 2;
          const r = a + ((b - a) * row) / rows;
          const [t, n, tn] = stressAt(body, u, e, 0, at) as [number, number, number];
          worst = Math.max(worst, Math.abs(t - hoop(r)), Math.abs(n - radial(r)), Math.abs(tn));
        }
      return worst / hoop(a);
    };
    const [coarse, fine] = [error(12), error(24)];
    expect(fine).toBeLessThan(1.5e-3);
    expect(Math.log2(coarse / fine)).toBeGreaterThan(1.8);
  });

  it('agrees with a tube of two materials under temperature change, free to strain along z', () => {
    // Generalised plane strain, axially symmetric: u = A r + B / r in each material (Lamé); closed here by its five conditions.
    const [a, between, b, deltaT] = [1, 2, 4, -100];
    const resin = {
      ...referencePly,
      E1: 3500,
      E2: 3500,
      nu12: 0.35,
      nu23: 0.35,
      G12: 3500 / 2.7,
      alpha1: 6e-5,
      alpha2: 6e-5,
    };
    const plies = [referencePly, resin] as const;
    const materials = plies.map((ply) => sectionStiffness({ angle: 90, ply }));
    const [first, second] = plies.map((ply, m) => {
      const { G, k } = inPlaneConstants(ply);
      return { G, k, z: materials[m]!.stiffness[3]!, zz: materials[m]!.stiffness[15]!, thermal: materials[m]!.thermal };
    }) as [TubePart, TubePart];
    // Unknowns A1, B1, A2, B2, strainZ. Radial stress 2 k A - 2 G B / r^2 + z strainZ - beta deltaT.
    const radial = ({ G, k, z }: TubePart, r: number, shift: number) => {
      const row = [0, 0, 0, 0, z];
      row[shift] = 2 * k;
      row[shift + 1] = (-2 * G) / r ** 2;
      return row;
    };
    const heat = (part: TubePart, component: number) => part.thermal[component]! * deltaT;
    const inside = radial(first, between, 0);
    const outside = radial(second, between, 2);
    const area1 = between ** 2 - a ** 2;
    const area2 = b ** 2 - between ** 2;
    const answer = solve(
      new Matrix([
        radial(first, a, 0),
        radial(second, b, 2),
        inside.map((value, i) => value - outside[i]!),
        [between, 1 / between, -between, -1 / between, 0],
        [2 * first.z * area1, 0, 2 * second.z * area2, 0, first.zz * area1 + second.zz * area2],
      ]),
      Matrix.columnVector([
        heat(first, 1),
        heat(second, 1),
        heat(first, 1) - heat(second, 1),
        0,
        heat(first, 3) * area1 + heat(second, 3) * area2,
      ]),
    ).to1DArray() as [number, number, number, number, number];
    // The interface, a third of the way out, falls on the end of a row.
    const [columns, rows] = [12, 36];
    const { mesh, held } = quarterRing(a, b, columns, rows, (row) => (row < rows / 3 ? 0 : 1));
    const body = { mesh, materials };
    const unknowns = numberUnknowns(mesh.x.length, 0);
    const u = factorize(assembleBody(body), { retained: [unknowns.deltaT], fixed: held }).expand(
      Float64Array.of(deltaT),
      1,
    );
    expect(u[unknowns.strainZ]! / answer[4]).toBeCloseTo(1, 6);
    const radialAt = (part: TubePart, A: number, B: number, r: number) =>
      2 * part.k * A - (2 * part.G * B) / r ** 2 + part.z * answer[4] - heat(part, 1);
    const pressure = radialAt(first, answer[0], answer[1], between);
    const below = stressAt(body, u, columns * (rows / 3 - 1) + 3, 0, 1);
    const above = stressAt(body, u, (columns * rows) / 3 + 3, 0, -1);
    expect(Math.abs(below[1]! / pressure - 1)).toBeLessThan(1.5e-3);
    expect(Math.abs(above[1]! / pressure - 1)).toBeLessThan(1.5e-3);
  });
});

describe('the six-node triangle', () => {
  /** The curved patch with every second element in two triangles. */
  const mixed = (): SectionBody => {
    const { mesh, materials } = curvedPatch();
    const [quads, triangles]: [number[], number[]] = [[], []];
    for (let e = 0; e < 16; e++) {
      const at = (...places: readonly number[]) => places.map((i) => mesh.elements[9 * e + i]!);
      if (e % 2 === 0) quads.push(...mesh.elements.subarray(9 * e, 9 * e + 9));
      else triangles.push(...at(0, 2, 8, 1, 5, 4), ...at(0, 8, 6, 4, 7, 3));
    }
    const many = (count: number) => ({
      material: new Int32Array(count),
      axes: Array.from({ length: count }, () => mesh.axes[0]!),
    });
    return {
      materials,
      mesh: {
        ...mesh,
        elements: Int32Array.from(quads),
        ...many(quads.length / 9),
        triangles: { elements: Int32Array.from(triangles), ...many(triangles.length / 6) },
      },
    };
  };

  it('passes the patch test beside nine-node elements, and tells the uniform stress', () => {
    const body = mixed();
    const { mesh } = body;
    const unknowns = numberUnknowns(mesh.x.length, 0);
    const linear = (x: number, y: number) => [2e-3 * x - 1e-3 * y, 5e-4 * x + 3e-3 * y] as const;
    const border = Array.from(mesh.x.keys()).filter(
      (node) => node % 9 === 0 || node % 9 === 8 || node < 9 || node > 71,
    );
    const retained = [...border.flatMap((node) => [2 * node, 2 * node + 1]), unknowns.strainZ, unknowns.deltaT];
    const values = [...border.flatMap((node) => linear(mesh.x[node]!, mesh.y[node]!)), 1e-3, 20];
    const u = factorize(assembleBody(body), { retained }).expand(Float64Array.from(values), 1);
    for (let node = 0; node < mesh.x.length; node++) {
      const [ux, uy] = linear(mesh.x[node]!, mesh.y[node]!);
      expect(Math.abs(u[2 * node]! - ux) + Math.abs(u[2 * node + 1]! - uy)).toBeLessThan(1e-15);
    }
    const expected = stressAt(body, u, 0, 0, 0);
    const count = mesh.triangles!.material.length;
    for (let e = 0; e < count; e++) {
      const { rows } = triangleStress(body, e);
      [0, 1, 2].forEach((c) => {
        const row = rows.subarray(c * triangleOrder, (c + 1) * triangleOrder);
        let sum = row[12]! * u[unknowns.strainZ]! + row[13]! * u[unknowns.deltaT]!;
        for (let i = 0; i < 12; i++) sum += row[i]! * u[2 * mesh.triangles!.elements[6 * e + (i >> 1)]! + (i & 1)]!;
        expect(Math.abs(sum - expected[c]!)).toBeLessThan(1e-10 * largest(expected));
      });
    }
  });
});
