import { InputError } from '../../../errors.js';
import { sectionStiffness } from '../../../material/index.js';
import {
  addRings,
  type CubicMesh,
  channelSizes,
  createCubicMeshBuilder,
  type EdgeCurve,
  encroachedSegments,
  type Loop,
  madeFiner,
  ringLoops,
  type SizeOptions,
  triangulate,
  type Zone,
} from '../../../mesh/triangle/index.js';
import type { TeeJoint } from '../tee.js';
import { divideBorder } from './division.js';
import { addLaminates } from './laminates.js';
import { addSlivers } from './slivers.js';

/**
 * The whole section of a tee in cubic triangles, with channels or without: laminates and the three cusps of the filler in
 * structured blocks, the rest of the filler graded from the channel's edge. Slivers reach the tips; their first slice, 2 %
 * of the bend radius, is straight. Boundary parts: 'channel', 'web-top', 'left-end', 'right-end' (of the skin),
 * 'arc' and 'base' (filler against bend and skin, the filler on the left).
 *
 * Throws `InputError` where the channel does not lie in the filler.
 */
export function teeTriangles(joint: TeeJoint, curves: readonly EdgeCurve[], coarseness: number): CubicMesh {
  for (const curve of curves) assertInFiller(joint, curve);
  // Where sides come too close to each other, everything is made finer until they don't.
  return madeFiner(coarseness, (finer) => attempt(joint, curves, finer));
}

/** Distances from a point in the filler to its base, right arc and left arc, mm. */
function distances({ bendRadius: R }: TeeJoint, x: number, y: number): [number, number, number] {
  return [y, Math.hypot(x - R, y - R) - R, Math.hypot(x + R, y - R) - R];
}

/** Throws `InputError` where a channel does not lie in the filler. */
export function assertInFiller(joint: TeeJoint, curve: EdgeCurve): void {
  const point = new Float64Array(5);
  let wall = Number.POSITIVE_INFINITY;
  for (let k = 0; k < 512; k++) {
    curve.at((curve.length * k) / 512, point);
    const inside = Math.abs(point[0]!) < joint.bendRadius && point[1]! < joint.bendRadius;
    wall = Math.min(wall, inside ? Math.min(...distances(joint, point[0]!, point[1]!)) : -1);
  }
  if (!(wall > 0))
    throw new InputError({
      path: 'channel',
      expected: 'an outline inside the filler',
      received: 'one that touches or crosses its border',
      remedy: 'move the channel or make it smaller',
    });
}

function attempt(joint: TeeJoint, curves: readonly EdgeCurve[], coarseness: number): CubicMesh | undefined {
  const R = joint.bendRadius;
  const options: SizeOptions = {
    coarseness,
    gap: (x, y) => Math.min(...distances(joint, x, y)),
    largest: (x, y) => {
      const [a, b, c] = distances(joint, x, y);
      // Between two sides of the filler: at most their distance.
      return Math.min(0.05 * R, 0.6 * (Math.max(a, 0) + Math.max(b, 0) + Math.max(c, 0) - Math.max(a, b, c)));
    },
  };
  const channels = channelSizes(curves, options);
  const sizeAt = channels.at;
  const division = divideBorder(R, curves, coarseness, sizeAt);

  const builder = createCubicMeshBuilder();
  const zones: Zone[] = [];
  const border = addLaminates(builder, zones, joint, division, coarseness);
  const filler = zones.push({
    place: 'filler',
    layer: -1,
    material: sectionStiffness({ angle: 90, ply: joint.filler }),
    normal: { angle: Math.PI / 2 },
  });
  addSlivers(builder, R, division, border, filler - 1);

  const last = division.sliver.length - 1;
  const rim = [
    ...border.base.slice(last, -last),
    ...border.rightArc.slice(last, -last),
    ...border.leftArc.slice(last, -last).reverse(),
  ];
  const places = rim.map((corner) => builder.place(corner));
  const loops: Loop[] = [{ x: places.map(([x]) => x), y: places.map(([, y]) => y) }, ...ringLoops(channels)];
  if (encroachedSegments(loops).length > 0) return undefined;
  const { x, y, triangles } = triangulate(loops, sizeAt);
  const corners = [...rim];
  for (let i = rim.length; i < x.length; i++) corners.push(builder.corner(x[i]!, y[i]!));
  if (curves.length > 0) addRings(builder, channels, corners[rim.length]!, filler - 1);
  for (let t = 0; t < triangles.length; t += 3)
    builder.triangle(corners[triangles[t]!]!, corners[triangles[t + 1]!]!, corners[triangles[t + 2]!]!, filler - 1);

  const name = (part: string, list: readonly number[]) => {
    for (let i = 0; i + 1 < list.length; i++) builder.side(part, list[i]!, list[i + 1]!);
  };
  name('base', border.base);
  name('arc', border.rightArc);
  name('arc', [...border.leftArc].reverse());
  name('web-top', border.webTop);
  name('right-end', [...border.rightEnd].reverse());
  name('left-end', border.leftEnd);
  return builder.finish(zones);
}
