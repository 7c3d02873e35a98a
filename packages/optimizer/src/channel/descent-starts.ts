import type { DescentGoal } from './evaluator.js';
import type { Descended, DescentStart, Known } from './family-search.js';

/** Outlines with their figures, of several families as one of them imitates them. */
export type Groups = readonly (readonly Known[])[];

/** Places of the first descents over the front. */
const firstPlaces = 9;

/** Towards the least cost at any size and the largest size at any cost, from what every group has nearest to them. */
export function endStarts(groups: Groups): DescentStart[] {
  const least = { size: 0 };
  const largest = { cost: Number.POSITIVE_INFINITY };
  return groups
    .filter((known) => known.length > 0)
    .flatMap((known) => [
      { from: nearestTo(0, known), goal: least },
      { from: nearestTo(Number.MAX_VALUE, known), goal: largest },
    ]);
}

/** Towards evenly spaced sizes, from the nearest outline of every group. */
export function placeStarts(groups: Groups): DescentStart[] {
  const sizes = groups.flat().map(({ size }) => size);
  if (sizes.length === 0) return [];
  const [least, most] = [Math.min(...sizes), Math.max(...sizes)];
  return Array.from({ length: firstPlaces }, (_, p) => least + ((most - least) * p) / (firstPlaces - 1)).flatMap(
    (size) =>
      groups.filter((known) => known.length > 0).map((known) => ({ from: nearestTo(size, known), goal: { size } })),
  );
}

/** Going on from where the descents came furthest, of those with the same goal. */
export function winnersOf(field: readonly Descended[]): DescentStart[] {
  const best = new Map<DescentGoal, Descended>();
  for (const descended of field) {
    const rival = best.get(descended.goal);
    if (rival === undefined || standing(descended) < standing(rival)) best.set(descended.goal, descended);
  }
  return [...best.values()].map((from) => ({ from, goal: from.goal }));
}

function standing({ stop, value, violation }: Descended): number {
  return stop === 'start has no profile' ? Number.POSITIVE_INFINITY : value + 10 * violation * Math.abs(value);
}

export function nearestTo(size: number, known: readonly Known[]): Known {
  return known.reduce((a, b) => (Math.abs(b.size - size) < Math.abs(a.size - size) ? b : a));
}
