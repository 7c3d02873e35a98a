import { layupThickness } from '../../material/index.js';
import type { HostShape, ShapeBox, ShapeLayer, ShapePart, ShapePath, ShapePoint } from '../shape.js';
import type { TeeJoint } from './tee.js';

/** What pictures and drawings show of a tee. */
export function teeShape(joint: TeeJoint): HostShape {
  const { bendRadius: R, footLength, overlaminate, skin, skinHalfSpan, webHeight } = joint;
  const depth = layupThickness(skin);
  const half = Math.max(skinHalfSpan, R + footLength);
  const margin = 0.01 * half;
  return {
    room: fillerPath(R),
    roomName: 'filler',
    roomBox: { xMin: -R, xMax: R, yMin: 0, yMax: R },
    layers: [
      ...overlaminate.flatMap((layer, k) => {
        const from = layupThickness(overlaminate.slice(0, k));
        return ([1, -1] as const).map(
          (side): ShapeLayer => ({
            path: overlaminatePath(joint, from, from + layer.thickness, side),
            angle: layer.angle,
          }),
        );
      }),
      ...skin.map((layer, k): ShapeLayer => {
        const from = layupThickness(skin.slice(0, k));
        return { path: skinPath(skinHalfSpan, -from, -from - layer.thickness), angle: layer.angle };
      }),
    ],
    parts: parts(joint),
    lines: bendLines(R, layupThickness(overlaminate)),
    whole: { xMin: -half - margin, xMax: half + margin, yMin: -depth - margin, yMax: R + webHeight + margin },
    closeUp: { xMin: -1.1 * R, xMax: 1.1 * R, yMin: -0.14 * R, yMax: 1.1 * R } satisfies ShapeBox,
  };
}

/** The filler: base and two arcs of the bend radius, counter-clockwise. */
function fillerPath(R: number): ShapePath {
  const arc = { radius: R, turn: -Math.PI / 2 };
  return {
    from: [-R, 0],
    steps: [{ to: [R, 0] }, { to: [0, R], arc }, { to: [-R, 0], arc }],
  };
}

/** One overlaminate layer between depths `from` and `to` (mm from the filler); side 1 right, -1 left. */
function overlaminatePath(
  { bendRadius: R, webHeight, footLength }: TeeJoint,
  from: number,
  to: number,
  side: 1 | -1,
): ShapePath {
  const point = (x: number, y: number): ShapePoint => [side * x, y];
  const arc = (depth: number, turn: number) => ({ radius: R - depth, turn: side * turn });
  const webTop = R + webHeight;
  const footEnd = R + footLength;
  return {
    from: point(from, webTop),
    steps: [
      { to: point(from, R) },
      { to: point(R, from), arc: arc(from, Math.PI / 2) },
      { to: point(footEnd, from) },
      { to: point(footEnd, to) },
      { to: point(R, to) },
      { to: point(to, R), arc: arc(to, -Math.PI / 2) },
      { to: point(to, webTop) },
    ],
  };
}

/** Skin and overlaminate as whole bodies, each named inside the part that is shown enlarged. */
function parts(joint: TeeJoint): ShapePart[] {
  const { bendRadius: R, overlaminate, skin, skinHalfSpan } = joint;
  const [thickness, depth] = [layupThickness(overlaminate), layupThickness(skin)];
  // In the middle of a bend and of the overlaminate.
  const inBend = R - (R - Math.min(thickness, R) / 2) * Math.SQRT1_2;
  return [
    ...([1, -1] as const).map(
      (side): ShapePart => ({
        name: 'overlaminate',
        path: overlaminatePath(joint, 0, thickness, side),
        nameAt: [side * inBend, inBend],
      }),
    ),
    { name: 'skin', path: skinPath(skinHalfSpan, 0, -depth), nameAt: [0, -Math.min(depth, 0.14 * R) / 2] },
  ];
}

function skinPath(half: number, upper: number, lower: number): ShapePath {
  return { from: [-half, lower], steps: [{ to: [half, lower] }, { to: [half, upper] }, { to: [-half, upper] }] };
}

/** Free surfaces of the two bends, and where the bends begin and end, across the overlaminate. */
function bendLines(R: number, thickness: number): NonNullable<HostShape['lines']> {
  const radius = R - thickness;
  return {
    layer: 'BEND_LINES',
    arcs: [
      { centre: [R, R], radius, start: 180, end: 270 },
      { centre: [-R, R], radius, start: 270, end: 360 },
    ],
    straight: [1, -1].flatMap((side): (readonly [ShapePoint, ShapePoint])[] => [
      [
        [0, R],
        [side * thickness, R],
      ],
      [
        [side * R, 0],
        [side * R, thickness],
      ],
    ]),
  };
}
