/** Places in a score. Constraints are met at 0 and below, normalised by the size of what is asked for. */
export const scoreAt = {
  /** mm2 */
  area: 0,
  /** Peak hoop tension of the worst case, MPa; 0 where a constraint is violated (not computed), NaN where it could not be solved. */
  peak: 1,
  /** Least wall (tee) or largest extent (plate). */
  room: 2,
  edgeRadius: 3,
  /** The outline crosses itself. */
  crossing: 4,
  /** Limits on strength: the largest of a share that lacks, at most 2, which it is where another constraint is violated; 0 where nothing is asked. */
  strength: 5,
  /** What the task's objective makes large: area, mm2, or conductance, mm4; 0 where the outline crosses itself. */
  size: 6,
  /**
   * What it keeps small: the peak, MPa, or one over load factor or strength retained; 0 and NaN as the peak, never
   * infinite: where the joint fails in the cure alone, 1000, and `strength` is violated.
   */
  cost: 7,
} as const;

/** Entries of a score. */
export const scoreSize = 8;
