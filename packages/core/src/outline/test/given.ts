import type { Curve, OutlineFamily } from '../family.js';

/** One outline of a family. */
export function given(family: OutlineFamily, values: Readonly<Record<string, number>>): Curve {
  const vector = family.parameters.map(({ name }) => values[name] ?? 0);
  return { mirror: family.mirror, place: (nodes) => family.place(vector, nodes) };
}
