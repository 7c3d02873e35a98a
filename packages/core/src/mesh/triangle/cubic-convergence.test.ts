import { describe, expect, it } from 'vitest';
import { factorize } from '../../linear/index.js';
import { sectionStiffness } from '../../material/index.js';
import { addTraction, assembleCubic, stressOf } from './cubic-assemble.js';
import { addBlock, between } from './cubic-block.js';
import { createCubicMeshBuilder } from './cubic-mesh.js';

/** Isotropic, E = 1000 MPa, nu = 0.3. */
const ply = {
  ...{ E1: 1000, E2: 1000, nu12: 0.3, nu23: 0.3, G12: 1000 / 2.6 },
  ...{ alpha1: 0, alpha2: 0, transverseTension: 1, interlaminarShear: 1 },
};

/** Lame's ring (radii 1 and 2, pressure 1 inside) on n x n cells of a quarter: errors of displacement and stress. */
function errors(n: number): { displacement: number; stress: number } {
  const builder = createCubicMeshBuilder();
  const radii = Array.from({ length: n + 1 }, (_, j) => 1 + j / n);
  const at = (column: number, row: number) => {
    const angle = (Math.PI / 2) * (column / n);
    const r = between(radii, row);
    return [r * Math.cos(angle), r * Math.sin(angle)] as const;
  };
  const grid = Array.from({ length: n + 1 }, (_, i) => radii.map((_r, j) => builder.corner(...at(i, j))));
  addBlock(builder, grid, at, () => 0);
  for (let i = 0; i < n; i++) builder.side('inner', grid[i + 1]![0]!, grid[i]![0]!);
  const material = sectionStiffness({ angle: 90, ply });
  const mesh = builder.finish([{ place: 'filler', layer: -1, material, normal: { angle: 0 } }]);
  const { elements, strainDof } = assembleCubic(mesh);
  const load = new Float64Array(strainDof + 1);
  addTraction(mesh, mesh.sides.get('inner')!, (_x, _y, nx, ny) => [-nx, -ny], load);
  const fixed = [strainDof];
  mesh.x.forEach((x, node) => {
    if (Math.abs(x) < 1e-12) fixed.push(2 * node);
    if (Math.abs(mesh.y[node]!) < 1e-12) fixed.push(2 * node + 1);
  });
  const u = factorize(elements, { fixed }).solve(load, 1);
  // s_r + s_t = 2/3 and s_t - s_r = (2/3) 4/r^2; u = (A r + B/r) with plane-strain moduli.
  const G = ply.E2 / 2.6;
  const k = 1 / ((2 * 0.7) / 1000 - (4 * 0.09) / 1000);
  let displacement = 0;
  mesh.x.forEach((x, node) => {
    const r = Math.hypot(x, mesh.y[node]!);
    const exact = (r / (2 * k) + 4 / (2 * G * r)) / 3;
    displacement = Math.max(displacement, Math.abs((x * u[2 * node]! + mesh.y[node]! * u[2 * node + 1]!) / r - exact));
  });
  const stressAt = stressOf(mesh, u, 0);
  let stress = 0;
  for (let triangle = 0; triangle < mesh.zoneOf.length; triangle++)
    for (const [L2, L3] of [
      [1 / 3, 1 / 3],
      [0, 0],
      [1, 0],
      [0, 1],
    ] as const) {
      const { x, y, xx, yy, xy } = stressAt(triangle, L2, L3);
      const square = x * x + y * y;
      const deviator = ((4 / 3 / square) * (x * x - y * y)) / square;
      const wanted = [1 / 3 - deviator, 1 / 3 + deviator, ((-4 / 3 / square) * 2 * x * y) / square];
      [xx, yy, xy].forEach((value, i) => {
        stress = Math.max(stress, Math.abs(value - wanted[i]!));
      });
    }
  return { displacement, stress };
}

describe('convergence of the cubic triangle with curved sides', () => {
  const [coarse, fine] = [errors(8), errors(16)];

  it('is of the fourth order in displacement', () => {
    expect(Math.log2(coarse.displacement / fine.displacement)).toBeGreaterThan(3.6);
  });

  it('is of the third order in stress, at corners too', () => {
    expect(Math.log2(coarse.stress / fine.stress)).toBeGreaterThan(2.7);
    expect(fine.stress).toBeLessThan(0.001);
  });
});
