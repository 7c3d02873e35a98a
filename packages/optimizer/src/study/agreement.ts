import type { ChannelDesign, EdgeExtremes, MeshedPeak, MeshedStress } from '@lumenfront/core';

/** Differences of the fast model from the mesh, as shares of the largest hoop stress on the edge. */
export interface Agreement {
  readonly loads: Readonly<Record<string, number>>;
  readonly cases: Readonly<Record<string, number>>;
  /** Where they differ most. */
  readonly worst: PeakDifference;
  /** All of them are within what is tolerated. */
  readonly holds: boolean;
}

/** Both peaks under one load or case. MPa */
export interface PeakDifference {
  /** `load pull`, `case pulled` */
  readonly under: string;
  readonly fast: number;
  readonly meshed: number;
  readonly difference: number;
  /** The mesh's own error. */
  readonly error: number;
}

/** The difference that a user need not know of. */
const tolerated = 0.01;

/** Compares the two models of one outline, load by load and case by case. The mesh's own error is allowed for. */
export function compareModels(
  fast: Pick<ChannelDesign, 'loads' | 'cases'>,
  meshed: Pick<MeshedStress, 'loads' | 'cases'>,
): Agreement {
  const loads = peakDifferences('load', fast.loads, meshed.loads);
  const cases = peakDifferences('case', fast.cases, meshed.cases);
  const all = [...loads.values(), ...cases.values()];
  const byName = (differences: ReadonlyMap<string, PeakDifference>) =>
    Object.fromEntries([...differences].map(([name, { difference }]) => [name, difference]));
  return {
    loads: byName(loads),
    cases: byName(cases),
    // What is no number is worse than any.
    worst: all.reduce((a, b) => (Math.abs(b.difference) <= Math.abs(a.difference) ? a : b)),
    holds: all.every(({ difference, error }) => Math.abs(difference) <= Math.max(tolerated, error)),
  };
}

function peakDifferences(
  kind: string,
  fast: Readonly<Record<string, EdgeExtremes>>,
  meshed: Readonly<Record<string, MeshedPeak>>,
): Map<string, PeakDifference> {
  return new Map(
    Object.entries(fast).map(([name, { peak }]) => {
      const other = meshed[name]!;
      const difference = (peak - other.peak) / Math.max(Math.abs(other.peak), Math.abs(other.least));
      return [name, { under: `${kind} ${name}`, fast: peak, meshed: other.peak, difference, error: other.error }];
    }),
  );
}
