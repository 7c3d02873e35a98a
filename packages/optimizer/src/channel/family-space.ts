import { type OutlineFamily, scoreAt } from '@lumenfront/core';
import type { Evaluation, Solution, Space } from '../problem.js';
import type { FoundChannel, NearestChannel } from './result.js';

/** The search space of one outline family: its parameters; objectives `-size` and `cost`; constraints as scored. */
export function familySpace({ parameters }: OutlineFamily): Space {
  return {
    bounds: {
      lower: Float64Array.from(parameters, ({ lower }) => lower),
      upper: Float64Array.from(parameters, ({ upper }) => upper),
    },
    objectives: 2,
    constraints: constraints.length,
  };
}

const constraints = ['room', 'edgeRadius', 'crossing', 'strength'] as const;

/** A score in the order of `familySpace`. */
export function evaluationOf(score: ArrayLike<number>): Evaluation {
  return {
    objectives: [-score[scoreAt.size]!, score[scoreAt.cost]!],
    constraints: constraints.map((name) => score[scoreAt[name]]!),
  };
}

export const sizeOf = ({ objectives }: Solution): number => -objectives[0]!;
export const costOf = ({ objectives }: Solution): number => objectives[1]!;

/** As files hold them. */
export function namedParameters({ parameters, files }: OutlineFamily, x: ArrayLike<number>): Record<string, number> {
  const values = files?.write(x) ?? x;
  return Object.fromEntries(parameters.map(({ name }, i) => [name, values[i]!]));
}

export function foundChannel(family: OutlineFamily, solution: Solution): FoundChannel {
  return {
    family: family.name,
    parameters: namedParameters(family, solution.x),
    size: sizeOf(solution),
    cost: costOf(solution),
  };
}

/** The constraint that an infeasible solution misses by most. */
export function nearestChannel(family: OutlineFamily, solution: Solution): NearestChannel {
  let worst = 0;
  solution.constraints.forEach((value, i) => {
    if (value > solution.constraints[worst]!) worst = i;
  });
  return {
    family: family.name,
    parameters: namedParameters(family, solution.x),
    constraint: constraints[worst]!,
    violation: solution.constraints[worst]!,
  };
}
