/**
 * A place of the section where stress is wanted. Components are, in this order, normal `n`, tangential `t` and shear `nt` in the
 * point's own axes: `n` points through the thickness. Of a mirror-symmetric host, a place of its right half.
 */
export interface SectionPoint {
  /** One of its host's places. */
  readonly place: string;
  readonly x: number;
  readonly y: number;
  /** Angle of the `n` axis from the x axis, radians. */
  readonly normalAngle: number;
  /** Index of the layer counted from the filler; -1 in the filler. */
  readonly layer: number;
}

/** What every host calls the material around the channel, as a place. */
export const aroundChannel = 'filler';

/** A kind of place where a host can fail. The material around the channel is `aroundChannel` in every host. */
export interface PlaceDefinition {
  /** As an engineer says it. */
  readonly label: string;
  /**
   * Of a row of points, every so manyth is always looked at, the others only where one beside them comes near the least load factor: 1
   * looks at all.
   */
  readonly stride: number;
  /** Of an interface: the zones of the independent mesh on both sides, the inner one first. Other points lie in the zone of their own place and layer. */
  readonly between?: readonly [inner: ZoneName, outer: ZoneName];
  /** The place of the zone that its points lie in, if not its own. */
  readonly zone?: string;
  /** The edge of a channel of known outline, whose largest tension is told beside that of the channel that is asked for. */
  readonly isEdge?: true;
  /** Its points follow each other in no order: nothing is judged between two of them. */
  readonly scattered?: true;
}

/** A zone of the independent mesh. */
export interface ZoneName {
  readonly place: string;
  /** That of the point, where it is left out. */
  readonly layer?: number;
}

/** What a point of the section can bear, MPa. A criterion that does not apply there has strength Infinity. */
export interface PointStrength {
  /** Delamination: through the thickness and in shear. */
  readonly tension: number;
  readonly shear: number;
  /** Largest principal stress in the section: of the filler, or of a ply along the channel. */
  readonly principal: number;
  /** Compression along fibres in the section. Left out: not judged. */
  readonly kinking?: number;
  /** What the weakest material that meets there bears, whether that is judged or not: what its repair is held against. */
  readonly sound: { readonly tension: number; readonly shear: number };
}
