import type { Agreement, ChannelDesign, EdgeExtremes, MeshedEdge, PeakDifference } from '@lumenfront/core';
import { tolerated } from './trust.js';

/** Compares the two models of one outline, load by load and case by case. The mesh's own error is allowed for. */
export function compareModels(
  fast: Pick<ChannelDesign, 'loads' | 'cases'>,
  meshed: Pick<MeshedEdge, 'loads' | 'cases'>,
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
  meshed: MeshedEdge['cases'],
): Map<string, PeakDifference> {
  return new Map(
    Object.entries(fast).map(([name, { peak }]) => {
      const other = meshed[name]!;
      const difference = (peak - other.peak) / Math.max(Math.abs(other.peak), Math.abs(other.least));
      return [name, { under: `${kind} ${name}`, fast: peak, meshed: other.peak, difference, error: other.error }];
    }),
  );
}
