import type { CaseSlopes, SolvedEdge } from '../stress/index.js';
import type { SplitCase } from './case-split.js';
import { type EdgeStrength, seenNodes } from './edge-strength.js';
import { clearFailure, createFailure } from './first-failure.js';
import type { JointJudge } from './joint-judge.js';
import type { StretchFailures } from './stretch-rates.js';

/**
 * A joint's load factors row by row, case by case: at places along the edge of a channel, then in stretches of the section. The least over the rows is the load
 * factor, and one over each of them is smooth in the outline: what descents with slopes make of a minimum over places.
 */
export interface StrengthRows {
  /** Takes a channel that a stress model of the same loads and cases has solved: all else tells of it until the next, of any `StrengthModel` of this joint. */
  take(edge: SolvedEdge): void;
  /** Their numbers. */
  readonly alongEdge: number;
  readonly stretches: number;
  /** Load factor of each stretch in one case; Infinity where it is far above the least. */
  factors(loadCase: number): Float64Array;
  /** Writes `weight` over the load factors along the edge into `out` from `at` on, 0 or less where nothing fails. */
  writeAlongEdge(loadCase: number, weight: number, out: Float64Array, at: number): void;
  /** Takes the slopes of the edge that was taken last, for what follows. */
  takeSlopes(slopes: CaseSlopes): void;
  /** Writes the rates of what `writeAlongEdge` writes, one row to a place and one column to a motion, from row `row` on. */
  writeAlongEdgeRates(loadCase: number, weight: number, out: Float64Array, row: number): void;
  /** Adds `weight` times the rates of one over the load factor of a stretch, one to a motion, to row `row`. */
  addStretchRates(stretch: CaseStretch, weight: number, out: Float64Array, row: number): void;
}

/** A stretch of the section in one case. */
export interface CaseStretch {
  readonly loadCase: number;
  readonly stretch: number;
}

/** Of one channel. */
export function createStrengthRows({ take, edges, section }: JointJudge, splits: readonly SplitCase[]): StrengthRows {
  const [edge] = edges as readonly [EdgeStrength];
  const first = createFailure();
  let found: StretchFailures[] = [];
  let taken: SolvedEdge | undefined;
  let slopes: CaseSlopes;

  return {
    take(outline) {
      take(outline);
      taken = outline;
      const size = section.stretches * section.sides();
      if (size !== found[0]?.factors.length)
        found = splits.map(() => ({ factors: new Float64Array(size), points: new Int32Array(size) }));
      splits.forEach((split, c) => {
        clearFailure(first);
        section.judgeStretches(split, first, found[c]!);
      });
    },
    get alongEdge() {
      return edge.perNode * seenNodes(taken!);
    },
    get stretches() {
      return found[0]!.factors.length;
    },
    factors: (loadCase) => found[loadCase]!.factors,
    writeAlongEdge(loadCase, weight, out, at) {
      edge.writeInverse(splits[loadCase]!, weight, out, at);
    },
    takeSlopes(given) {
      slopes = given;
      section.takeSlopes(given);
    },
    writeAlongEdgeRates(loadCase, weight, out, row) {
      edge.writeInverseRates!(splits[loadCase]!, weight, slopes, out, row);
    },
    addStretchRates({ loadCase, stretch }, weight, out, row) {
      const judged = { split: splits[loadCase]!, failures: found[loadCase]!, stretch };
      section.addStretchRates(judged, weight, out, row * slopes.howMany);
    },
  };
}
