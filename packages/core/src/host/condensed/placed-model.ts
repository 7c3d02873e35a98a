import type { SectionPoint } from '../place.js';
import type { PlaceMaps } from '../place-maps.js';
import type { ReducedModel } from '../reduced-model.js';
import type { SolvedHost } from './reduce.js';

/** The section points of a host, and their numbers in rows that follow each other. */
export interface PlaceRows {
  readonly points: readonly SectionPoint[];
  readonly rows: readonly (readonly number[])[];
}

/** What a kind of host adds to its model: its contour, what is continued beyond it, and where to look inside it. */
export type AroundContour = Pick<PlaceMaps, 'continued' | 'inner'> & Pick<ReducedModel, 'contour'>;

/** The whole reduced model of a solved host, with the stresses at the points in its rows. `around` is given these points. */
export function placedModel(
  kind: string,
  { stresses, ...solved }: SolvedHost,
  { points: all, rows }: PlaceRows,
  around: (points: readonly SectionPoint[]) => AroundContour,
): ReducedModel {
  const chosen = rows.flat();
  const points = chosen.map((point) => all[point]!);
  const { loads, change } = stresses(chosen);
  const { contour, ...places } = around(points);
  return {
    kind,
    ...solved,
    loads,
    places: { points, rows: rows.map(({ length }) => length), change, ...places },
    contour,
  };
}
