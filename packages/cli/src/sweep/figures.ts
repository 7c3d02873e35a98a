import type { ChannelObjective, SweepLine } from '@lumenfront/core';
import type { TradedFigures } from '@lumenfront/optimizer';
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
}

/** Of the reference channel that a design stands beside. */
export type ReferenceFigures = Pick<DesignFigures, 'area' | 'conductance' | 'peak'>;

/** What a summary says of a case. */
export interface CaseFigures {
  readonly case: string;
  readonly vary: Readonly<Record<string, unknown>>;
  /** Of a case that failed: why. */
  readonly error?: string;
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

/** What is read of the results of `pick` and `front`. */
interface Result {
  readonly design?: DesignFigures;
  readonly designs?: readonly (DesignFigures & TradedFigures)[];
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
  if (record.status === 'failed') return { case: record.case, vary, error: record.error.message, front: [] };
  const { design, designs = [], allow, reference, search } = record.result as Result;
  const objective = search?.objective ?? usualObjective;
  const [size, cost] = [sizeFigure(objective), costFigure(objective)];
  const chosen = design ?? largestWithin(designs, allow);
  return {
    case: record.case,
    vary,
    ...(chosen === undefined ? {} : { design: designFigures(chosen) }),
    ...(allow === undefined ? {} : { allow }),
    ...(reference === undefined ? {} : { reference: referenceFigures(reference) }),
    ...(search?.objective === undefined ? {} : { objective }),
    front: designs.map((one) => ({ size: size.of(one), against: cost.of(one) })),
  };
}

/** Without the rest of it: a sweep has many. */
const designFigures = ({ family, area, conductance, peak, wall, minEdgeRadius }: DesignFigures): DesignFigures => ({
  family,
  area,
  conductance,
  peak,
  wall,
  minEdgeRadius,
});

const referenceFigures = ({ area, conductance, peak }: ReferenceFigures): ReferenceFigures => ({
  area,
  conductance,
  peak,
});

function largestWithin(designs: readonly DesignFigures[], allow = Number.POSITIVE_INFINITY): DesignFigures | undefined {
  return designs
    .filter(({ peak }) => peak <= allow)
    .reduce<DesignFigures | undefined>((a, b) => (a === undefined || b.area > a.area ? b : a), undefined);
}
