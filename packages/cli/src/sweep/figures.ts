import type { ChannelObjective, DesignDocument, FailureStart, SweepLine } from '@lumenfront/core';
import { costFigure, sizeFigure } from '../show/index.js';

/** mm2, MPa, mm, mm4 */
export interface DesignFigures {
  readonly family: string;
  readonly area: number;
  /** Laminar flow rate times viscosity over pressure gradient. */
  readonly conductance: number;
  readonly peak: number;
  /** JSON's null on a plate, which has no border. */
  readonly wall: number | null;
  readonly minEdgeRadius: number;
  /** Share of the joint's strength that is kept, least load factor and where failure starts, by how much later the next place fails. */
  readonly retained?: number;
  readonly loadFactor?: number;
  readonly start?: Pick<FailureStart, 'place' | 'fromEdge' | 'crackPath' | 'crackMeets'>;
  readonly clarity?: number;
  /** Certificate of a search by slopes. */
  readonly locallyOptimalWithin?: number;
}

/** Of the reference channel that a design stands beside. */
export type ReferenceFigures = Pick<DesignFigures, 'area' | 'conductance' | 'peak'>;

/** What a summary says of a case. */
export interface CaseFigures {
  readonly case: string;
  readonly vary: Readonly<Record<string, unknown>>;
  /** Done, sound but not to be met, or failed. */
  readonly status: SweepLine['status'];
  /** Of a case that is not done: why. */
  readonly error?: string;
  /** Of one that cannot be met: the least peak found, MPa. */
  readonly leastPeak?: number;
  /** What was picked, or the largest design of a front within the allowed peak, if there is one. */
  readonly design?: DesignFigures;
  /** Allowed peak, MPa. */
  readonly allow?: number;
  readonly reference?: ReferenceFigures;
  /** What a front trades; left out by a pick. */
  readonly objective?: ChannelObjective;
  /** Every design of a front by the two figures that it trades, as people see them: area or flow, and what stands against it. */
  readonly front: ReadonlyArray<{ readonly size: number; readonly against: number }>;
}

type JudgedDesign = Pick<
  DesignDocument,
  'family' | 'area' | 'conductance' | 'peak' | 'wall' | 'minEdgeRadius' | 'strength' | 'locallyOptimalWithin'
>;

/** What is read of the results of `pick` and `front`. */
interface Result {
  readonly design?: JudgedDesign;
  readonly designs?: readonly JudgedDesign[];
  readonly allow?: number;
  readonly reference?: ReferenceFigures;
  readonly search?: { readonly objective?: ChannelObjective };
}

/** Of results that do not say. */
export const usualObjective: ChannelObjective = { size: 'area', cost: 'peak' };

/**
 * @param vary what differs in the case as it was asked for; a record may have been made for another sweep
 */
export function figuresOf(vary: Readonly<Record<string, unknown>>, record: SweepLine): CaseFigures {
  if (record.status !== 'done') {
    // Older versions called what cannot be met failed.
    const status = record.error.kind === 'cannot be met' ? 'unmet' : record.status;
    const { leastPeak } = record as { readonly leastPeak?: number };
    const told = leastPeak === undefined ? {} : { leastPeak };
    return { case: record.case, vary, status, error: record.error.message, ...told, front: [] };
  }
  const { design, designs = [], allow, reference, search } = record.result as Result;
  const objective = search?.objective ?? usualObjective;
  const [size, cost] = [sizeFigure(objective), costFigure(objective)];
  const chosen = design ?? largestWithin(designs, allow);
  return {
    case: record.case,
    vary,
    status: 'done',
    ...(chosen === undefined ? {} : { design: designFigures(chosen) }),
    ...(allow === undefined ? {} : { allow }),
    ...(reference === undefined ? {} : { reference: referenceFigures(reference) }),
    ...(search?.objective === undefined ? {} : { objective }),
    front: designs.map((one) => ({ size: size.of(one), against: cost.of(one) })),
  };
}

/** Without the rest of it: a sweep has many. */
function designFigures(design: JudgedDesign): DesignFigures {
  const { family, area, conductance, peak, wall, minEdgeRadius, strength, locallyOptimalWithin } = design;
  return {
    ...{ family, area, conductance, peak, wall, minEdgeRadius },
    ...(strength === undefined ? {} : strengthFigures(strength)),
    ...(locallyOptimalWithin === undefined ? {} : { locallyOptimalWithin }),
  };
}

/** A line of results is JSON: what is none or without bound is null there. */
function strengthFigures(strength: NonNullable<DesignDocument['strength']>) {
  const { retained, loadFactor, place, fromEdge, crackPath, crackMeets, clarity } = strength;
  const known = <Key extends string>(key: Key, value: number | null | undefined) =>
    (typeof value === 'number' && Number.isFinite(value) ? { [key]: value } : {}) as { readonly [K in Key]?: number };
  return {
    ...known('retained', retained),
    ...known('loadFactor', loadFactor),
    start: {
      place,
      ...known('fromEdge', fromEdge),
      ...(crackPath === undefined ? {} : { crackPath }),
      ...(crackMeets === undefined ? {} : { crackMeets }),
    },
    ...known('clarity', clarity),
  };
}

const referenceFigures = ({ area, conductance, peak }: ReferenceFigures): ReferenceFigures => ({
  area,
  conductance,
  peak,
});

function largestWithin(designs: readonly JudgedDesign[], allow = Number.POSITIVE_INFINITY): JudgedDesign | undefined {
  return designs
    .filter(({ peak }) => peak <= allow)
    .reduce<JudgedDesign | undefined>((a, b) => (a === undefined || b.area > a.area ? b : a), undefined);
}
