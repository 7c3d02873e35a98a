import type { Descent, DescentGoal, DescentStart, Known } from './family-search.js';

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

/** The descent that came furthest of those with the same goal. */
export function winnersOf(field: readonly Descent[]): Descent[] {
  const best = new Map<DescentGoal, Descent>();
  for (const descent of field) {
    const rival = best.get(descent.goal);
    if (rival === undefined || standing(descent) < standing(rival)) best.set(descent.goal, descent);
  }
  return [...best.values()];
}

function standing({ method }: Descent): number {
  const { stop, value, violation } = method;
  return stop === 'start has no profile' ? Number.POSITIVE_INFINITY : value + 10 * violation * Math.abs(value);
}

export function nearestTo(size: number, known: readonly Known[]): Known {
  return known.reduce((a, b) => (Math.abs(b.size - size) < Math.abs(a.size - size) ? b : a));
}
