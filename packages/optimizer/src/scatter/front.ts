import type { ChannelTask, ScatterWish } from '@lumenfront/core';
import { namedParameters, type PickedChannel } from '../channel/index.js';
import { bestBySize, evenlySpread } from '../front/index.js';
import { firstEdges } from '../method/index.js';
import { randomFrom } from '../random.js';
import { createMadePeaks } from './made-peaks.js';
import { type Candidate, createQuantileSearch, type QuantileSearch } from './polish-quantile.js';
import { checkScatter, drawDeviations } from './scatter.js';
import { quantilePeak } from './spread.js';

/** A design, as drawn and as it is made. */
export interface ScatteredChannel extends PickedChannel {
  /** The peak that the scatter's `quantile` of its samples do not exceed, MPa; Infinity where more than the rest are no channels. */
  readonly quantilePeak: number;
  /** Samples that are channels of the joint. */
  readonly judged: number;
  /** Given, or made by the search. */
  readonly origin: Candidate['origin'];
}

/** A front in area and quantile of the peak. */
export interface ScatterFront {
  /** No other has both more area and a lower quantile. By growing area. */
  readonly designs: readonly ScatteredChannel[];
  /** Of the front of the given designs as drawn, those that were judged beside them, evenly spread in area. By growing area. */
  readonly given: readonly ScatteredChannel[];
  /** Samples of every design. */
  readonly samples: number;
  /** Made channels that were solved, those of the final judgement among them. */
  readonly evaluations: number;
}

/** How a front under scatter is searched. */
export interface ScatterFrontOptions {
  readonly seed: number;
  /** Made channels that the search solves, at most; what looks at the given designs and the final judgement come on top. */
  readonly evaluations: number;
  /** Told of the made channels solved so far, and how many there may be in all. */
  readonly onProgress?: (progress: { readonly evaluations: number; readonly most: number }) => void;
}

/** Deviations that the search sees. Those of the final judgement are others, so that nothing is fitted to them. */
const searchSamples = 128;
/** Given designs that are looked at in each family, and that are judged. */
const candidatesPerFamily = 12;
const shownDesigns = 12;
/** Designs found that are judged. */
const mostFound = 30;
/** Places over the area that are polished, and how often. */
const places = 6;
const rounds = 2;

/**
 * Searches the front of largest area and least quantile of the peak, from the designs of a front that was searched as drawn. All
 * designs see the same deviations (common random numbers); some, spread over the area, are polished by Nelder-Mead at no less area. What
 * is found is judged beside the given front under other deviations, `scatter.samples` of them. Same seed, same result.
 *
 * @param task on a joint that was solved with room for deviations: see `withRoomForScatter`
 * @param given designs that keep the task's constraints, families' own fronts among them where they are known
 * @throws InputError for scatter that is none and designs that are not of the task
 */
export function findScatterFront(
  task: ChannelTask,
  given: readonly PickedChannel[],
  scatter: ScatterWish,
  options: ScatterFrontOptions,
): ScatterFront {
  checkScatter(scatter);
  const random = randomFrom(options.seed);
  const made = createMadePeaks(task, scatter);
  const deviations = drawDeviations(scatter, searchSamples, random.split('search'), made.channels);
  const search = createQuantileSearch(task, given, made, deviations, scatter.quantile);

  const names = [...new Set(given.map(({ family }) => family))];
  const drawnFront = spreadOverArea(
    bestForArea(given, ({ peak }) => peak),
    shownDesigns,
  );
  const looked = [
    ...drawnFront,
    ...names.flatMap((name) =>
      spreadOverArea(
        given.filter(({ family }) => family === name),
        candidatesPerFamily,
      ),
    ),
  ];
  const candidates = [...new Set(looked)];
  const judgements = drawnFront.length + mostFound;
  const most = candidates.length * searchSamples + options.evaluations + judgements * (scatter.samples + 1);
  const report = () => options.onProgress?.({ evaluations: made.solves, most });
  const pool = candidates.map((design) => {
    const candidate = search.candidateOf(design);
    report();
    return candidate;
  });
  const shown = pool.slice(0, drawnFront.length);

  const best = () => bestForArea(pool, ({ quantile }) => quantile);
  const end = made.solves + options.evaluations;
  for (let round = 0; round < rounds; round++) {
    const starts = spreadOverArea(best(), places);
    const edges = names.map((_, family) => stepsOf(search, pool, family).map((step) => step / 2 ** round));
    starts.forEach((from, i) => {
      const share = Math.floor((end - made.solves) / ((rounds - 1 - round) * places + starts.length - i));
      if (share < 1) return;
      const found = search.polish(from, edges[from.family]!, share);
      if (found !== undefined) pool.push(found);
      report();
    });
  }

  const trials = drawDeviations(scatter, scatter.samples, random.split('judgement'), made.channels);
  const judge = (candidate: Candidate): ScatteredChannel => {
    const { family, x, free, area, origin } = candidate;
    const drawn = search.families[family]!;
    const curve = search.curveOf(candidate);
    const peaks = made.under(curve, trials);
    report();
    return {
      family: drawn.name,
      parameters: free?.parameters ?? namedParameters(drawn, x),
      area,
      peak: made.drawn(curve) ?? Number.POSITIVE_INFINITY,
      quantilePeak: quantilePeak(peaks, scatter.quantile),
      judged: peaks.filter(Number.isFinite).length,
      origin,
    };
  };
  const found = spreadOverArea(best(), mostFound).filter((candidate) => !shown.includes(candidate));
  const judgedShown = shown.map(judge);
  return {
    designs: bestForArea([...judgedShown, ...found.map(judge)], (design) => design.quantilePeak),
    given: judgedShown,
    samples: scatter.samples,
    evaluations: made.solves,
  };
}

/** Edges of a first simplex of a family. */
function stepsOf({ families }: QuantileSearch, pool: readonly Candidate[], family: number): number[] {
  const { parameters } = families[family]!;
  const bounds = { lower: parameters.map(({ lower }) => lower), upper: parameters.map(({ upper }) => upper) };
  const members = pool.filter((candidate) => candidate.family === family);
  return firstEdges(
    members.map(({ x }) => x),
    bounds,
  );
}

/** At most `count` designs, evenly spread in area; by growing area. */
function spreadOverArea<Design extends { readonly area: number }>(designs: readonly Design[], count: number): Design[] {
  const areas = designs.map(({ area }) => area);
  return evenlySpread(areas, count).map((place) => designs[place]!);
}

/** The designs that no other beats in both area and value. */
function bestForArea<Design extends { readonly area: number }>(
  designs: readonly Design[],
  value: (design: Design) => number,
): Design[] {
  return bestBySize(designs, ({ area }) => area, value);
}
