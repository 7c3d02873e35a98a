import { ranks, thinOut } from '../../front/index.js';
import type { Solution } from '../../problem.js';

/**
 * The `size` best: rank by rank under constrained domination, and of the rank that does not fit as a whole those that together
 * hold most hypervolume (Beume, Naujoks & Emmerich, Eur. J. Oper. Res. 181 (2007) 1653-1669).
 */
export function survivors(solutions: readonly Solution[], size: number): Solution[] {
  if (solutions.length <= size) return [...solutions];
  const rank = ranks(solutions);
  const levels: Solution[][] = [];
  solutions.forEach((each, index) => {
    levels[rank[index]!] ??= [];
    levels[rank[index]!]!.push(each);
  });
  const kept: Solution[] = [];
  for (const level of levels) {
    const room = size - kept.length;
    if (level.length > room) {
      kept.push(...(level[0]!.violation > 0 ? level.slice(0, room) : thinned(level, room)));
      break;
    }
    kept.push(...level);
  }
  return kept;
}

function thinned(level: readonly Solution[], size: number): Solution[] {
  const points = level.map((each) => each.objectives);
  return thinOut(points, size).map((index) => level[index]!);
}
