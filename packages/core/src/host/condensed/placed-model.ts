import type { SectionPoint } from '../place.js';
import type { PlaceMaps } from '../place-maps.js';
import type { EdgeFieldsOfDegree, ReducedModel } from '../reduced-model.js';
import type { SolvedHost } from './reduce.js';

/** The section points of a host, and their numbers in rows that follow each other. */
export interface PlaceRows {
  readonly points: readonly SectionPoint[];
  readonly rows: readonly (readonly number[])[];
}

/** What a kind of host adds to its model: its contour, and where to look inside it. */
export type AroundContour = Pick<PlaceMaps, 'inner'> & Pick<ReducedModel, 'contour'>;

/** A solution for the stress at the edge, and one with fields of a higher degree, which tells the stresses at places, unless `places` does. */
export interface SolvedTwice {
  readonly solved: SolvedHost;
  readonly finer: SolvedHost;
  readonly places?: SolvedHost | undefined;
}

/**
 * The whole reduced model of a solved host, with the stresses at the points in its rows. `everyMoment`: each point is told by all moments, so that models of hosts that are alike
 * hold as many numbers.
 */
export function placedModel(
  kind: string,
  { solved: { stresses: _, ...solved }, finer, places = finer }: SolvedTwice,
  { points: all, rows }: PlaceRows,
  { contour, ...inside }: AroundContour,
  everyMoment = false,
): ReducedModel {
  const chosen = rows.flat();
  const { still, maps } = places.stresses(chosen, everyMoment);
  return {
    kind,
    ...solved,
    loads: solved.loads.map((load, l) => ({ ...load, atPlaces: still[l]! })),
    places: {
      points: chosen.map((point) => all[point]!),
      rows: rows.map(({ length }) => length),
      ...maps,
      ...inside,
    },
    contour,
  };
}

/** Of a finer solution, or a lower one, what tells the error of a model around any one edge. */
export function finerFields({ basis, responses, loads }: SolvedHost): EdgeFieldsOfDegree {
  return { basis, responses, undisturbed: loads.map(({ undisturbed }) => undisturbed) };
}
