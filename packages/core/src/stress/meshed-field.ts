import { type Joint, type LoadCase, type Loads, meshJoint, type ShapeBox } from '../host/index.js';
import { type CubicMesh, nodalStress, type PointStress } from '../mesh/triangle/index.js';
import type { CurveNodes, SideBySide } from '../outline/index.js';
import { caseFactors } from './case-factors.js';
import { channelCurves } from './channel-curves.js';

/** A stress field as a picture: a grid of square cells over a part of the section. */
export interface FieldGrid {
  /** mm */
  readonly box: ShapeBox;
  readonly columns: number;
  readonly rows: number;
}

/** Per case at the centres of the cells, MPa: rows from the top, each from the left; NaN where there is no filler. */
export type FieldCells = Readonly<Record<string, Float32Array>>;

/** Stress in the plane of the section around a channel. */
export interface MeshedField extends FieldGrid {
  /** The largest principal stress. */
  readonly cases: FieldCells;
  /** The least principal stress. */
  readonly least: FieldCells;
  /** The largest shear stress: half of what the two differ by. */
  readonly shear: FieldCells;
}

/** How a field is sampled. */
export interface MeshedFieldOptions {
  /** The part of the section that is wanted, mm. */
  readonly box: ShapeBox;
  /** Cells across (default 240); as many up as make them square. */
  readonly columns?: number;
  /** Scales the sides of all triangles (default 2: peaks within some 0.1 %). */
  readonly coarseness?: number;
  /** As in `MeshedOptions`. */
  readonly channels?: SideBySide;
}

/** What lies around the channel is no layer of a laminate. */
const around = -1;

/** Corners of the nine triangles that a cubic triangle's ten nodes divide it into. */
const ninths = [
  [0, 3, 8],
  [3, 4, 9],
  [4, 1, 5],
  [3, 9, 8],
  [4, 5, 9],
  [8, 9, 7],
  [9, 5, 6],
  [9, 6, 7],
  [7, 6, 2],
] as const;

/**
 * The stress in what surrounds a channel, by the independent mesh: the largest principal stress in the plane of the section, which opens cracks across
 * itself, the least, and the largest shear. Near the tips of a filler, where stress is singular, it says no more than the mesh resolves.
 *
 * @param nodes of the outline, as `meshedStress` takes them; `undefined` for the joint without channel
 * @throws InputError where the outline leaves the filler or a load does not suit the host
 */
export function meshedField(
  joint: Joint,
  loads: Loads,
  cases: readonly LoadCase[],
  nodes: CurveNodes | undefined,
  { box, columns = 240, coarseness = 2, channels }: MeshedFieldOptions,
): MeshedField {
  const { mesh, solutions } = meshJoint(joint, loads, channelCurves(nodes, channels), coarseness);
  const wanted = (zone: number) => mesh.zones[zone]!.layer === around;
  const names = [...solutions.keys()];
  const stresses = [...solutions.values()].map(({ u, deltaT }) => nodalStress(mesh, u, deltaT, wanted));
  const cell = (box.xMax - box.xMin) / columns;
  const grid: FieldGrid = { box, columns, rows: Math.max(1, Math.round((box.yMax - box.yMin) / cell)) };
  const of = (figure: (middle: number, radius: number) => number): FieldCells =>
    Object.fromEntries(
      cases.map((one): [string, Float32Array] => {
        const factors = caseFactors(one, names);
        const values = new Float64Array(mesh.x.length).fill(Number.NaN);
        for (const node of stresses[0]?.keys() ?? []) values[node] = figure(...circleAt(stresses, factors, node));
        return [one.name, drawn(mesh, wanted, values, grid)];
      }),
    );
  return {
    ...grid,
    cases: of((middle, radius) => middle + radius),
    least: of((middle, radius) => middle - radius),
    shear: of((_middle, radius) => radius),
  };
}

/** Mohr's circle of the stress at a node: its middle and its radius, MPa. */
function circleAt(
  stresses: readonly ReadonlyMap<number, PointStress>[],
  factors: Float64Array,
  node: number,
): [middle: number, radius: number] {
  let [xx, yy, xy] = [0, 0, 0];
  for (let l = 0; l < factors.length; l++) {
    const stress = stresses[l]!.get(node)!;
    xx += factors[l]! * stress.xx;
    yy += factors[l]! * stress.yy;
    xy += factors[l]! * stress.xy;
  }
  return [(xx + yy) / 2, Math.hypot((xx - yy) / 2, xy)];
}

/** Fills the cells whose centres lie in a triangle, by linear interpolation between the nodes. */
function drawn(
  mesh: CubicMesh,
  wanted: (zone: number) => boolean,
  values: Float64Array,
  { box: { xMin, xMax, yMax }, columns, rows }: FieldGrid,
): Float32Array {
  const cells = new Float32Array(columns * rows).fill(Number.NaN);
  const perMm = columns / (xMax - xMin);
  mesh.zoneOf.forEach((zone, triangle) => {
    if (!wanted(zone)) return;
    for (const corners of ninths) {
      const [a, b, c] = corners.map((corner) => mesh.triangles[10 * triangle + corner]!) as [number, number, number];
      // Places in cells; rows grow downwards.
      const [ax, bx, cx] = [a, b, c].map((node) => (mesh.x[node]! - xMin) * perMm - 0.5) as [number, number, number];
      const [ay, by, cy] = [a, b, c].map((node) => (yMax - mesh.y[node]!) * perMm - 0.5) as [number, number, number];
      const twice = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
      if (twice === 0) continue;
      const last = {
        column: Math.min(columns - 1, Math.max(ax, bx, cx)),
        row: Math.min(rows - 1, Math.max(ay, by, cy)),
      };
      for (let row = Math.max(0, Math.ceil(Math.min(ay, by, cy))); row <= last.row; row++)
        for (let column = Math.max(0, Math.ceil(Math.min(ax, bx, cx))); column <= last.column; column++) {
          const B = ((column - ax) * (cy - ay) - (cx - ax) * (row - ay)) / twice;
          const C = ((bx - ax) * (row - ay) - (column - ax) * (by - ay)) / twice;
          if (B < -1e-9 || C < -1e-9 || B + C > 1 + 1e-9) continue;
          cells[row * columns + column] = values[a]! + B * (values[b]! - values[a]!) + C * (values[c]! - values[a]!);
        }
    }
  });
  return cells;
}
