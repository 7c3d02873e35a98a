/**
 * A place of the right half of the joint where stress is wanted. Components are, in this order, normal `n`, tangential `t`
 * and shear `nt` in the point's own axes: `n` points through the thickness (away from the filler in bend and foot, up in the skin).
 */
export interface SectionPoint {
  readonly place: 'bend' | 'foot' | 'web' | 'skin' | 'filler' | 'arc-interface' | 'base-interface';
  readonly x: number;
  readonly y: number;
  /** Angle of the `n` axis from the x axis, radians. */
  readonly normalAngle: number;
  /** Index of the layer counted from the filler; -1 in the filler. */
  readonly layer: number;
}
