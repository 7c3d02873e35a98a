/** What a drawing needs of a tee (core's `TeeJoint` is one). mm */
export interface BendShape {
  readonly bendRadius: number;
  readonly overlaminate: ReadonlyArray<{ readonly thickness: number }>;
}

/** A circular arc, angles in degrees, counter-clockwise from `start` to `end`. mm */
export interface Arc {
  readonly centre: readonly [number, number];
  readonly radius: number;
  readonly start: number;
  readonly end: number;
}

export interface BendLines {
  /** Free surfaces of the two bends. */
  readonly arcs: readonly Arc[];
  /** Across the overlaminate, where its bends begin and end. */
  readonly lines: ReadonlyArray<readonly [start: readonly [number, number], end: readonly [number, number]]>;
}

/** Corners of the filler, counter-clockwise: its base runs from the first to the second, the sides are arcs of the bend radius. */
export function fillerCorners(
  bendRadius: number,
): readonly [left: readonly [number, number], right: readonly [number, number], top: readonly [number, number]] {
  return [
    [-bendRadius, 0],
    [bendRadius, 0],
    [0, bendRadius],
  ];
}

/** Bend lines of both overlaminates; `thickness` is theirs. */
export function bendLines({ bendRadius, overlaminate }: BendShape): BendLines {
  const thickness = overlaminate.reduce((sum, layer) => sum + layer.thickness, 0);
  const radius = bendRadius - thickness;
  return {
    arcs: [
      { centre: [bendRadius, bendRadius], radius, start: 180, end: 270 },
      { centre: [-bendRadius, bendRadius], radius, start: 270, end: 360 },
    ],
    lines: [1, -1].flatMap((side): BendLines['lines'] => [
      [
        [0, bendRadius],
        [side * thickness, bendRadius],
      ],
      [
        [side * bendRadius, 0],
        [side * bendRadius, thickness],
      ],
    ]),
  };
}
