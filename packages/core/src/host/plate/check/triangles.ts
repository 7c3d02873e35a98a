import type { SectionStiffness } from '../../../material/index.js';
import {
  addRings,
  type CubicMesh,
  channelSizes,
  createCubicMeshBuilder,
  divide,
  type EdgeCurve,
  encroachedSegments,
  madeFiner,
  ringLoops,
  triangulate,
} from '../../../mesh/triangle/index.js';

/** A rectangle `xMin..xMax` by `yMin..yMax`, mm, of one material (tangent along x, normal along y). */
export interface Plate {
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
  readonly material: SectionStiffness;
}

/**
 * A rectangular plate with holes, in cubic triangles graded from their edges outwards. Boundary parts: 'channel',
 * and 'bottom', 'right', 'top', 'left'. The lower left corner is node 0, the lower right one the first of 'right'.
 */
export function plateTriangles(plate: Plate, curves: readonly EdgeCurve[], coarseness: number): CubicMesh {
  // Sizes know nothing of a narrow waist between two parts of one edge.
  return madeFiner(coarseness, (finer) => attempt(plate, curves, finer));
}

function attempt(plate: Plate, curves: readonly EdgeCurve[], coarseness: number): CubicMesh | undefined {
  const { xMin, xMax, yMin, yMax } = plate;
  const gap = (x: number, y: number) => Math.min(x - xMin, xMax - x, y - yMin, yMax - y);
  const largest = Math.min(xMax - xMin, yMax - yMin) / 8;
  const size = channelSizes(curves, { coarseness, gap, largest: () => largest });

  const corners = [
    [xMin, yMin],
    [xMax, yMin],
    [xMax, yMax],
    [xMin, yMax],
  ] as const;
  const rim: { x: number; y: number; name: string }[] = [];
  ['bottom', 'right', 'top', 'left'].forEach((name, k) => {
    const [x, y] = corners[k]!;
    const [X, Y] = corners[(k + 1) % 4]!;
    const length = Math.hypot(X - x, Y - y);
    const along = (f: number) => [x + f * (X - x), y + f * (Y - y)] as const;
    const parts = divide(length, 400, (i) => size.at(...along((i + 0.5) / 400)));
    for (const s of parts.subarray(0, -1)) rim.push({ x: along(s / length)[0], y: along(s / length)[1], name });
  });
  const loops = [{ x: rim.map(({ x }) => x), y: rim.map(({ y }) => y) }, ...ringLoops(size)];
  if (encroachedSegments(loops).length > 0) return undefined;
  const triangulation = triangulate(loops, size.at);

  const builder = createCubicMeshBuilder();
  triangulation.x.forEach((x, i) => {
    builder.corner(x, triangulation.y[i]!);
  });
  addRings(builder, size, rim.length, 0);
  for (let t = 0; t < triangulation.triangles.length; t += 3) {
    const [a, b, c] = triangulation.triangles.subarray(t, t + 3) as unknown as [number, number, number];
    builder.triangle(a, b, c, 0);
  }
  rim.forEach(({ name }, i) => {
    builder.side(name, i, (i + 1) % rim.length);
  });
  return builder.finish([{ place: 'filler', layer: -1, material: plate.material, normal: { angle: Math.PI / 2 } }]);
}
