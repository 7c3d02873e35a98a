/** mm */
export type ShapePoint = readonly [x: number, y: number];

/** To a point: straight, or along a circular arc that turns by `turn` radians (counter-clockwise positive). */
export interface ShapeStep {
  readonly to: ShapePoint;
  readonly arc?: { readonly radius: number; readonly turn: number };
}

/** A closed path; where its last step does not end at its start, a straight one closes it. */
export interface ShapePath {
  readonly from: ShapePoint;
  readonly steps: readonly ShapeStep[];
}

/** A rectangle of the section, mm. */
export interface ShapeBox {
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
}

/** A layer of a picture: shaded by the size of its angle. */
export interface ShapeLayer {
  readonly path: ShapePath;
  readonly angle: number | 'quasi-isotropic';
}

/** A circular arc of a drawing, angles in degrees, counter-clockwise from `start` to `end`. mm */
export interface ShapeArc {
  readonly centre: ShapePoint;
  readonly radius: number;
  readonly start: number;
  readonly end: number;
}

/** A body of the section with its name, as a drawing shows it: 'skin'. mm */
export interface ShapePart {
  readonly name: string;
  readonly path: ShapePath;
  /** Where its name stands, the middle of the text. */
  readonly nameAt: ShapePoint;
}

/** What pictures and drawings show of a host around the channel. Lengths in mm. */
export interface HostShape {
  /** What the channel is embedded in, and what it is called: 'filler'. */
  readonly room: ShapePath;
  readonly roomName: string;
  readonly roomBox: ShapeBox;
  /** Of what is told in a frame of its own: where that lies in the section. */
  readonly frame?: ShapeFrame;
  /** What a drawing must say beside what it shows, one line. */
  readonly note?: string;
  readonly layers: readonly ShapeLayer[];
  /** Channels of known outline beside the one that is told of. */
  readonly openings?: readonly ShapePath[];
  /** What stands around the room, for drawings. */
  readonly parts?: readonly ShapePart[];
  /** Lines of a drawing for the workshop, under the name of their layer in its file. */
  readonly lines?: {
    readonly layer: string;
    readonly arcs: readonly ShapeArc[];
    readonly straight: readonly (readonly [start: ShapePoint, end: ShapePoint])[];
  };
  /** The whole section, and the part around the channel that is shown enlarged. */
  readonly whole: ShapeBox;
  readonly closeUp: ShapeBox;
}

/** A frame in the axes of its section: its origin, mm, and by how much its x axis is turned there, radians counter-clockwise. */
export interface ShapeFrame {
  readonly at: ShapePoint;
  readonly turn: number;
  /** The whole section, in its own axes. */
  readonly whole: ShapeBox;
}

/** A direction of a frame in the axes of its section. */
export function directionInSection({ turn }: ShapeFrame, x: number, y: number): ShapePoint {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return [c * x - s * y, s * x + c * y];
}

/** A place of a frame in the axes of its section. */
export function placeInSection(frame: ShapeFrame, [x, y]: ShapePoint): ShapePoint {
  const [dx, dy] = directionInSection(frame, x, y);
  return [frame.at[0] + dx, frame.at[1] + dy];
}

/** A shape in the axes of its section; itself where it is told in no other. */
export function shapeInSection(shape: HostShape): HostShape {
  const { frame, ...told } = shape;
  if (frame === undefined) return shape;
  const at = (point: ShapePoint) => placeInSection(frame, point);
  const moved = ({ from, steps }: ShapePath): ShapePath => ({
    from: at(from),
    steps: steps.map((step) => ({ ...step, to: at(step.to) })),
  });
  const room = moved(told.room);
  const roomBox = boxAround([room.from, ...room.steps.map(({ to }) => to)]);
  const { closeUp, lines, openings, parts } = told;
  const { xMin, xMax, yMin, yMax } = closeUp;
  return {
    ...told,
    room,
    roomBox,
    layers: told.layers.map((layer) => ({ ...layer, path: moved(layer.path) })),
    ...(openings === undefined ? {} : { openings: openings.map(moved) }),
    ...(parts === undefined
      ? {}
      : { parts: parts.map((part) => ({ ...part, path: moved(part.path), nameAt: at(part.nameAt) })) }),
    ...(lines === undefined
      ? {}
      : {
          lines: {
            layer: lines.layer,
            arcs: lines.arcs.map(({ centre, radius, start, end }) => {
              const turn = (frame.turn * 180) / Math.PI;
              return { centre: at(centre), radius, start: start + turn, end: end + turn };
            }),
            straight: lines.straight.map(([from, to]) => [at(from), at(to)] as const),
          },
        }),
    whole: frame.whole,
    closeUp: boxAround([at([xMin, yMin]), at([xMin, yMax]), at([xMax, yMin]), at([xMax, yMax])]),
  };
}

export function boxAround(points: readonly ShapePoint[]): ShapeBox {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return { xMin: Math.min(...xs), xMax: Math.max(...xs), yMin: Math.min(...ys), yMax: Math.max(...ys) };
}
