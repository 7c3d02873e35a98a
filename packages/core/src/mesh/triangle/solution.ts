/** What one load does to a meshed section. */
export interface Solution {
  /** Displacements of node `i` at `2 i` and `2 i + 1`, mm; the uniform axial strain last. */
  readonly u: Float64Array;
  /** K */
  readonly deltaT: number;
  /** On the channel's edge, MPa. */
  readonly pressure: number;
}
