/** Box of the variables. An unbounded side is `-Infinity` or `Infinity`, where a method allows it. */
export interface Bounds {
  readonly lower: ArrayLike<number>;
  readonly upper: ArrayLike<number>;
}

/** What a problem says of one point. */
export interface Evaluation {
  /** Each to be made small. */
  readonly objectives: ArrayLike<number>;
  /**
   * Each met where it is <= 0. They are summed into one violation, so they should be normalised: divided by the size of
   * what is allowed, so that 1 is 'as far off as the limit is large' for all of them. Leave out where there are none.
   */
  readonly constraints?: ArrayLike<number>;
}

/** The variables' box and the number of objectives: what a search must know before the first evaluation. */
export interface Space {
  readonly bounds: Bounds;
  readonly objectives: number;
  readonly constraints: number;
}

/** Something to minimise. */
export interface Problem extends Space {
  /** Must not keep or change `x`. */
  evaluate(x: Float64Array): Evaluation;
}

/** An evaluated point. */
export interface Solution {
  readonly x: Float64Array;
  readonly objectives: Float64Array;
  readonly constraints: Float64Array;
  /** Sum of the constraints' positive parts: 0 where feasible, `Infinity` where an objective or constraint is not finite. */
  readonly violation: number;
}

/** What a search has found so far. */
export interface Progress {
  /** Solutions told to it. */
  readonly evaluations: number;
  /** How many of them had a value that is not finite. */
  readonly failures: number;
  /** Feasible solutions that no other beats, `most` of them at most; with one objective at most one. */
  front(most?: number): readonly Solution[];
  /** While nothing feasible was found: what came nearest. */
  readonly leastInfeasible: Solution | undefined;
}

/** A search that proposes and learns; the loop, and with it workers, progress and cancelling, belong to the caller. */
export interface Method extends Progress {
  /** Points to evaluate next, `most` of them at most; to be told, all of them, before the next `ask`. Empty only when `stop` says why. */
  ask(most?: number): readonly Float64Array[];
  /** Evaluated points: those asked for, and any others that are known. */
  tell(solutions: readonly Solution[]): void;
  /** Why there is nothing more to do; undefined while there is. */
  readonly stop: string | undefined;
}

/**
 * Joins a point and what the problem said of it. A value that is not finite makes the point infeasible beyond any other,
 * so that it is never lost and never wins.
 */
export function solution(space: Space, x: Float64Array, evaluation: Evaluation): Solution {
  const objectives = Float64Array.from(evaluation.objectives);
  const constraints = Float64Array.from(evaluation.constraints ?? []);
  if (objectives.length !== space.objectives || constraints.length !== space.constraints) {
    throw new Error(
      `an evaluation gave ${objectives.length} objectives and ${constraints.length} constraints; ` +
        `the problem announced ${space.objectives} and ${space.constraints}`,
    );
  }
  return { x, objectives, constraints, violation: violationOf(objectives, constraints) };
}

/** Throws a RangeError unless there is at least one variable and `lower <= upper` throughout. */
export function checkBounds({ lower, upper }: Bounds): void {
  if (!(lower.length > 0) || lower.length !== upper.length) {
    throw new RangeError(
      `bounds: expected as many lower as upper ends, at least one; received ${lower.length} and ${upper.length}`,
    );
  }
  for (let i = 0; i < lower.length; i++) {
    if (!(lower[i]! <= upper[i]!)) {
      throw new RangeError(`bounds of variable ${i}: expected lower <= upper; received ${lower[i]} and ${upper[i]}`);
    }
  }
}

function violationOf(objectives: Float64Array, constraints: Float64Array): number {
  if (!objectives.every(Number.isFinite)) return Number.POSITIVE_INFINITY;
  let violation = 0;
  for (const constraint of constraints) {
    // -Infinity is a constraint met for certain; NaN says nothing and must not pass for met.
    if (!(constraint <= 0)) violation += Number.isNaN(constraint) ? Number.POSITIVE_INFINITY : constraint;
  }
  return violation;
}
