import type { CaseFigures } from './figures.js';

/** A figure of a case that a table, a summary and a plot can show. */
export interface SweepFigure {
  /** As a plot's axis and a table say it. */
  readonly title: string;
  readonly unit?: string;
  /** Heading in the summary, with the unit. */
  readonly column: string;
  readonly of: (figures: CaseFigures) => number | undefined;
  /** Digits behind the point in a table. */
  readonly digits: number;
}

const share = (value: number | undefined) => (value === undefined ? undefined : 100 * value);

/** By the names that `--plot` takes. */
export const sweepFigures = {
  area: { title: 'channel area', unit: 'mm²', column: 'area_mm2', digits: 3, of: ({ design }) => design?.area },
  conductance: {
    ...{ title: 'conductance', unit: 'mm⁴', column: 'conductance_mm4', digits: 4 },
    of: ({ design }) => design?.conductance,
  },
  peak: { title: 'peak', unit: 'MPa', column: 'peak_MPa', digits: 1, of: ({ design }) => design?.peak },
  'strength-retained': {
    ...{ title: 'strength retained', unit: '%', column: 'strength_retained_percent', digits: 1 },
    of: ({ design }) => share(design?.retained),
  },
  'load-factor': { title: 'load factor', column: 'load_factor', digits: 2, of: ({ design }) => design?.loadFactor },
  clarity: {
    ...{ title: 'next place over first', column: 'next_over_first', digits: 2 },
    of: ({ design }) => design?.clarity,
  },
  'off-edge': {
    ...{ title: 'failure off the edge', unit: 'mm', column: 'failure_off_edge_mm', digits: 2 },
    of: ({ design }) => design?.start?.fromEdge,
  },
  'least-peak': {
    ...{ title: 'least peak found', unit: 'MPa', column: 'least_peak_MPa', digits: 1 },
    of: ({ leastPeak }) => leastPeak,
  },
  'locally-optimal': {
    ...{ title: 'locally optimal within', unit: '%', column: 'locally_optimal_within_percent', digits: 2 },
    of: ({ design }) => share(design?.locallyOptimalWithin),
  },
  wall: { title: 'wall', unit: 'mm', column: 'wall_mm', digits: 3, of: ({ design }) => design?.wall ?? undefined },
  'edge-radius': {
    ...{ title: 'least edge radius', unit: 'mm', column: 'min_edge_radius_mm', digits: 3 },
    of: ({ design }) => design?.minEdgeRadius,
  },
} satisfies Record<string, SweepFigure>;

export type SweepFigureName = keyof typeof sweepFigures;

/** `channel area, mm²`. */
export const figureTitle = ({ title, unit }: SweepFigure): string => (unit === undefined ? title : `${title}, ${unit}`);
