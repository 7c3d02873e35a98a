import {
  areaAgainstPeak,
  type ChannelTask,
  type Curve,
  channelRoom,
  createChannelScorer,
  createCurveNodes,
  InputError,
  isCurvature,
  type OutlineFamily,
  outlineOf,
  scoreAt,
  scoreSize,
  taskFamilies,
} from '@lumenfront/core';
import type { PickedChannel } from '../channel/index.js';
import { minimise, Polish } from '../method/index.js';
import { type Evaluation, type Space, solution } from '../problem.js';
import type { MadePeaks } from './made-peaks.js';
import type { MadeDeviation } from './scatter.js';
import { quantilePeak } from './spread.js';

/** A design during the search: its peaks under all deviations that the search sees. */
export interface Candidate {
  /** Number of its family. */
  readonly family: number;
  readonly x: Float64Array;
  /** A given outline of free curvature, which `x` imitates: polishes begin from there. */
  readonly free?: PickedChannel;
  readonly area: number;
  readonly peaks: readonly number[];
  readonly quantile: number;
  readonly origin: 'given' | 'polished';
}

/** What all polishes of a search share. */
export interface QuantileSearch {
  readonly families: readonly OutlineFamily[];
  /** A given design; throws InputError for one that is not of the task. */
  candidateOf(given: PickedChannel): Candidate;
  curveOf(candidate: Pick<Candidate, 'family' | 'x' | 'free'>): Curve;
  /**
   * A design of no less area and a lower quantile, by Nelder-Mead; `undefined` where none was found. `steps` are the edges of the first
   * simplex, `solves` is the number of made channels to solve.
   */
  polish(from: Candidate, steps: readonly number[], solves: number): Candidate | undefined;
}

/** While a design is polished only its worst samples are solved again: so many times those beyond the quantile, at least a few. */
const tailWidth = 2.5;
const fewestTail = 8;
/** Nodes from which a family imitates an outline. */
const manyNodes = 256;

/**
 * Searches designs with a low quantile of the peak under given deviations.
 *
 * A sample that is no channel of the joint counts against a design, as one whose peak is beyond any other; a design that loses
 * more of them than lie beyond the quantile breaks a constraint. The drawn outline keeps the task's constraints.
 */
export function createQuantileSearch(
  task: ChannelTask,
  given: readonly PickedChannel[],
  made: MadePeaks,
  deviations: readonly MadeDeviation[],
  share: number,
): QuantileSearch {
  const { families: ofRoom } = channelRoom(task);
  const names = [...new Set(given.map(({ family }) => family))];
  // By name, or as the task's own.
  const wanted = names.map((name) => task.channel.families.find((family) => family === ofRoom?.[name]) ?? name);
  const own = { ...task, objective: areaAgainstPeak, channel: { ...task.channel, families: wanted } };
  const families = taskFamilies(own);
  const scorer = createChannelScorer(own);
  const score = new Float64Array(scoreSize);
  const tailCount = Math.min(
    deviations.length,
    Math.max(fewestTail, Math.ceil(tailWidth * (1 - share) * deviations.length)),
  );
  /** None of these is beyond the quantile. */
  const others = Array.from({ length: deviations.length - tailCount }, () => Number.NEGATIVE_INFINITY);

  const curveOf: QuantileSearch['curveOf'] = ({ family, x, free }) => {
    if (free !== undefined) return outlineOf(free, channelRoom(task));
    const { mirror, fewestNodes, place } = families[family]!;
    return { mirror, ...(fewestNodes !== undefined && { fewestNodes }), place: (nodes) => place(x, nodes) };
  };
  const candidate = (family: number, x: Float64Array, area: number, origin: Candidate['origin']): Candidate => {
    const peaks = made.under(curveOf({ family, x }), deviations);
    return { family, x, area, peaks, quantile: quantilePeak(peaks, share), origin };
  };

  const freeCandidate = (family: number, free: PickedChannel): Candidate => {
    checkMirror(free, families[family]!);
    const curve = outlineOf(free, channelRoom(task));
    const nodes = createCurveNodes(manyNodes);
    curve.place(nodes);
    const peaks = made.under(curve, deviations);
    const x = families[family]!.imitate!(nodes);
    return { family, x, free, area: free.area, peaks, quantile: quantilePeak(peaks, share), origin: 'given' };
  };

  return {
    families,
    curveOf,
    candidateOf(design) {
      const family = names.indexOf(design.family as (typeof names)[number]);
      if (isCurvature(design.parameters)) return freeCandidate(family, design);
      const x = valuesOf(design, families[family]!, task);
      scorer.score(family, x, score);
      return candidate(family, x, score[scoreAt.area]!, 'given');
    },
    polish(from, steps, solves) {
      const family = families[from.family]!;
      const worst = deviations
        .map((deviation, k) => ({ deviation, peak: from.peaks[k]! }))
        .sort((a, b) => b.peak - a.peak)
        .slice(0, tailCount)
        .map(({ deviation }) => deviation);
      const limitsOf = (x: Float64Array) => {
        scorer.score(from.family, x, score);
        return [scoreAt.room, scoreAt.edgeRadius, scoreAt.crossing, scoreAt.strength].map((at) => score[at]!);
      };
      const evaluate = (x: Float64Array): Evaluation => {
        const limits = limitsOf(x);
        const area = score[scoreAt.area]!;
        // An outline that breaks a limit is worth no more than the start.
        const broken = [-area, from.quantile];
        if (!limits.every((value) => value <= 0)) return { objectives: broken, constraints: [...limits, 0] };
        const peaks = made.under(curveOf({ family: from.family, x }), worst);
        const quantile = quantilePeak([...peaks, ...others], share);
        const lost = peaks.filter((peak) => peak === Number.POSITIVE_INFINITY).length;
        return Number.isFinite(quantile)
          ? { objectives: [-area, quantile], constraints: [...limits, 0] }
          : { objectives: broken, constraints: [...limits, lost / deviations.length] };
      };
      const start =
        from.free === undefined
          ? { objectives: [-from.area, from.quantile], constraints: [...limitsOf(from.x), 0] }
          : evaluate(from.x);
      const begun = made.solves;
      const found = lowestFrom(
        { x: from.x, area: from.area, start },
        {
          family,
          evaluate,
          ...{ steps, solves },
          isSpent: () => made.solves - begun >= solves,
        },
      );
      if (found === undefined) return undefined;
      const better = candidate(from.family, found.x, -found.objectives[0]!, 'polished');
      return better.quantile < from.quantile ? better : undefined;
    },
  };
}

/** Where a polish begins. */
interface PolishStart extends Pick<Candidate, 'x' | 'area'> {
  readonly start: Evaluation;
}

interface PolishWay {
  readonly family: OutlineFamily;
  readonly evaluate: (x: Float64Array) => Evaluation;
  readonly steps: readonly number[];
  readonly solves: number;
  readonly isSpent: () => boolean;
}

/** The design of no less area with the lowest quantile that Nelder-Mead finds. */
function lowestFrom({ x, area, start }: PolishStart, { family, evaluate, steps, solves, isSpent }: PolishWay) {
  const { parameters } = family;
  const space: Space = {
    bounds: { lower: parameters.map(({ lower }) => lower), upper: parameters.map(({ upper }) => upper) },
    objectives: 2,
    constraints: 5,
  };
  const begin = { from: solution(space, x, start), goal: { objective: 1, limits: [-area, 0] } };
  const method = new Polish(space, [begin], { evaluations: solves, archive: { size: 50 }, steps });
  minimise(
    method,
    { ...space, evaluate },
    { evaluations: solves, rules: [{ reason: () => (isSpent() ? 'budget spent' : undefined) }] },
  );
  const [lowest] = method
    .front()
    .filter(({ objectives }) => -objectives[0]! >= area)
    .sort((a, b) => a.objectives[1]! - b.objectives[1]!);
  return lowest;
}

function valuesOf(design: PickedChannel, family: OutlineFamily, task: ChannelTask) {
  checkMirror(design, family);
  // Checks names and bounds.
  outlineOf(design, channelRoom(task));
  const values = Float64Array.from(family.parameters, ({ name }) => design.parameters[name]!);
  return family.files?.read(values) ?? values;
}

function checkMirror({ family, parameters }: PickedChannel, { mirror }: OutlineFamily): void {
  if (mirror === Object.hasOwn(parameters, 'x'))
    throw new InputError({
      path: 'channel.mirror',
      expected: `designs of a search with channel.mirror: ${mirror}`,
      received: `an outline of the family ${family} ${mirror ? 'with' : 'without'} a parameter x`,
      remedy: 'give the brief that the front was searched for',
    });
}
