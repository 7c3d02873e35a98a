import type { ProblemList } from '../input/index.js';
import type { StrengthWish } from './resolved.js';
import type { BriefData } from './schema.js';

/** @param bendRadius of a tee, or `undefined` if the host is faulty or a plate */
export function resolveStrength(
  strength: BriefData['strength'],
  bendRadius: number | undefined,
  problems: ProblemList,
): StrengthWish {
  const { edge, cuspDistance, leastRetained, startsAwayFromEdge, fatigue } = strength;
  if (bendRadius !== undefined) {
    if (edge !== 'peak' && !(edge.distance < bendRadius / 4))
      problems.add(
        ['strength', 'edge', 'distance'],
        `below ${bendRadius / 4} mm, the radius of the largest circle that fits the filler (bendRadius / 4)`,
        'take the distance that belongs to the material: tenths of a millimetre',
      );
    if (cuspDistance !== undefined && !(cuspDistance < bendRadius / 2))
      problems.add(
        ['strength', 'cuspDistance'],
        `below ${bendRadius / 2} mm, half the bend radius`,
        'reduce it: too little of the joint would be judged',
      );
  }
  return {
    edge,
    ...(cuspDistance === undefined ? {} : { cuspDistance }),
    ...(leastRetained === undefined ? {} : { leastRetained }),
    startsAwayFromEdge,
    fatigue,
  };
}
