import { type Solution, type Space, solution } from '../problem.js';

/** What a search with one objective is to do on a problem with several. */
export type Goal =
  | {
      /**
       * Make one objective small while each other stays within its limit (Haimes, Lasdon & Wismer, IEEE Trans. Syst. Man Cybern. 1
       * (1971) 296-297). The limit of the objective itself is not looked at.
       */
      readonly kind: 'epsilon constraint';
      readonly objective: number;
      readonly limits: readonly number[];
    }
  | {
      /** Make the largest of `(objective - ideal) / scale` small (Chebyshev distance from the ideal point). */
      readonly kind: 'chebyshev';
      readonly ideal: readonly number[];
      readonly scale: readonly number[];
    };

/** The space of the problem with one objective that a goal makes. */
export function goalSpace(space: Space, goal: Goal): Space {
  const further = goal.kind === 'epsilon constraint' ? space.objectives - 1 : 0;
  return { bounds: space.bounds, objectives: 1, constraints: space.constraints + further };
}

/** What a solution of the problem with several objectives is worth to a goal. Limits are normalised by their own size. */
export function towards(goal: Goal, space: Space, found: Solution): Solution {
  const { objectives } = found;
  const constraints = Array.from(found.constraints);
  let value: number;
  if (goal.kind === 'epsilon constraint') {
    value = objectives[goal.objective]!;
    objectives.forEach((objective, i) => {
      const limit = goal.limits[i]!;
      if (i !== goal.objective) constraints.push((objective - limit) / (Math.abs(limit) || 1));
    });
  } else {
    value = Math.max(...objectives.map((objective, i) => (objective - goal.ideal[i]!) / goal.scale[i]!));
  }
  return solution(goalSpace(space, goal), found.x, { objectives: [value], constraints });
}
