import type { Host } from '../host/index.js';
import type { ProblemList } from '../input/index.js';
import type { StrengthWish } from './resolved.js';
import type { BriefData } from './schema.js';

/** @param host `undefined` if it is faulty */
export function resolveStrength(
  strength: BriefData['strength'],
  host: Host | undefined,
  problems: ProblemList,
): StrengthWish {
  const { edge, cuspDistance, leastRetained, crackGrowth, startsAwayFromEdge, fatigue } = strength;
  const circle = host?.largestCircle;
  if (circle !== undefined && edge !== 'peak' && !(edge.distance < circle.radius))
    problems.add(
      ['strength', 'edge', 'distance'],
      `below ${circle.radius} mm, the radius of ${circle.words.name} (${circle.words.formula})`,
      'take the distance that belongs to the material: tenths of a millimetre',
    );
  const tips = host?.tips;
  if (tips !== undefined && cuspDistance !== undefined && !(cuspDistance < tips.mostDistance))
    problems.add(
      ['strength', 'cuspDistance'],
      `below ${tips.mostDistance} mm, ${tips.words.most}`,
      'reduce it: too little of the joint would be judged',
    );
  return {
    edge,
    ...(cuspDistance === undefined ? {} : { cuspDistance }),
    ...(leastRetained === undefined ? {} : { leastRetained }),
    ...(crackGrowth === undefined ? {} : { crackGrowth }),
    startsAwayFromEdge,
    fatigue,
  };
}
