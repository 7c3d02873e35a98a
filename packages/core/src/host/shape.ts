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
  /** What a drawing must say beside what it shows, one line. */
  readonly note?: string;
  readonly layers: readonly ShapeLayer[];
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
