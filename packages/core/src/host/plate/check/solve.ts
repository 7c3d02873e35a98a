import { factorize } from '../../../linear/index.js';
import { addTraction, assembleCubic, type CubicMesh, type Solution } from '../../../mesh/triangle/index.js';

/** A plate under tractions of a uniform stress on its whole rim, MPa, and pressure in the hole; axial strain zero. */
export function solvePlate(
  mesh: CubicMesh,
  stress: { readonly sx: number; readonly sy: number; readonly txy: number },
  pressure: number,
): Solution {
  const { elements, strainDof } = assembleCubic(mesh);
  const load = new Float64Array(strainDof + 1);
  for (const name of ['bottom', 'right', 'top', 'left'])
    addTraction(
      mesh,
      mesh.sides.get(name)!,
      (_x, _y, nx, ny) => [stress.sx * nx + stress.txy * ny, stress.txy * nx + stress.sy * ny],
      load,
    );
  addTraction(mesh, mesh.sides.get('channel')!, (_x, _y, nx, ny) => [-pressure * nx, -pressure * ny], load);
  const lowerLeft = mesh.sides.get('bottom')![0]!;
  const lowerRight = mesh.sides.get('right')![0]!;
  const fixed = [2 * lowerLeft, 2 * lowerLeft + 1, 2 * lowerRight + 1, strainDof];
  return { u: factorize(elements, { fixed }).solve(load, 1), deltaT: 0, pressure };
}
