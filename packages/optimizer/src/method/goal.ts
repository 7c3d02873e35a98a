import { type Solution, type Space, solution } from '../problem.js';

/**
 * What a search with one objective is to do on a problem with several: make one objective small while each other stays within its
 * limit (Haimes, Lasdon & Wismer, IEEE Trans. Syst. Man Cybern. 1 (1971) 296-297). The limit of the objective itself is not looked at.
 */
export interface Goal {
  readonly objective: number;
  readonly limits: readonly number[];
}

/** The space of the problem with one objective that a goal makes. */
export function goalSpace({ bounds, objectives, constraints }: Space): Space {
  return { bounds, objectives: 1, constraints: constraints + objectives - 1 };
}

/** What a solution of the problem with several objectives is worth to a goal. Limits are normalised by their own size. */
export function towards(goal: Goal, space: Space, found: Solution): Solution {
  const { objectives } = found;
  const constraints = Array.from(found.constraints);
  objectives.forEach((objective, i) => {
    const limit = goal.limits[i]!;
    if (i !== goal.objective) constraints.push((objective - limit) / (Math.abs(limit) || 1));
  });
  return solution(goalSpace(space), found.x, { objectives: [objectives[goal.objective]!], constraints });
}
