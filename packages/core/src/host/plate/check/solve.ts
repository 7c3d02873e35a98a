import { InputError } from '../../../errors.js';
import { factorize } from '../../../linear/index.js';
import { sectionStiffness } from '../../../material/index.js';
import {
  addTraction,
  assembleCubic,
  type CubicMesh,
  type EdgeCurve,
  type Solution,
} from '../../../mesh/triangle/index.js';
import type { HostCheck, MeshedLoads } from '../../contract.js';
import type { LoadName, Loads } from '../../load.js';
import type { PlateHost } from '../plate.js';
import { plateTriangles } from './triangles.js';

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

/** Half width of the square that stands for an infinite plate, against the channel's largest half width. */
const plateRatio = 150;

/**
 * An infinite plate is a square 150 times as wide as its channels under the far-field stress on its rim; what the rim changes falls with
 * the square of that ratio, about 1e-4.
 */
function meshPlateLoads(
  { material }: PlateHost,
  loads: Loads,
  curves: readonly EdgeCurve[],
  coarseness: number,
): MeshedLoads {
  if (curves.length === 0)
    throw new InputError({
      path: 'channel',
      expected: 'a channel: a plate is meshed around it',
      received: 'none',
      remedy: 'give one',
    });
  const point = new Float64Array(5);
  const extent = { xMin: Infinity, xMax: -Infinity, yMin: Infinity, yMax: -Infinity };
  for (const curve of curves)
    for (let k = 0; k < 256; k++) {
      curve.at((curve.length * k) / 256, point);
      extent.xMin = Math.min(extent.xMin, point[0]!);
      extent.xMax = Math.max(extent.xMax, point[0]!);
      extent.yMin = Math.min(extent.yMin, point[1]!);
      extent.yMax = Math.max(extent.yMax, point[1]!);
    }
  const x = (extent.xMin + extent.xMax) / 2;
  const y = (extent.yMin + extent.yMax) / 2;
  const half = (plateRatio * Math.max(extent.xMax - extent.xMin, extent.yMax - extent.yMin)) / 2;
  const plate = { xMin: x - half, xMax: x + half, yMin: y - half, yMax: y + half };
  const mesh = plateTriangles(
    { ...plate, material: sectionStiffness({ angle: 90, ply: material }) },
    curves,
    coarseness,
  );
  const solutions = new Map<LoadName, Solution>();
  if (loads.farField) solutions.set('farField', solvePlate(mesh, { sx: 0, sy: 0, txy: 0, ...loads.farField }, 0));
  if (loads.pressure) solutions.set('pressure', solvePlate(mesh, { sx: 0, sy: 0, txy: 0 }, loads.pressure.pressure));
  return { mesh, solutions };
}

/** The independent check of an infinite sheet, in cubic triangles. */
export const plateCheck: HostCheck<PlateHost> = { mesh: meshPlateLoads };
