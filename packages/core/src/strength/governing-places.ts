import { cureLoad, hostOf, type Joint, type LoadCase, type Loads, type ReducedModel } from '../host/index.js';
import { type ActingLoad, actingLoads, caseFactors, type SolvedEdge } from '../stress/index.js';
import { type SplitCase, splitCase } from './case-split.js';
import { type MomentReach, noReach, roundedPlaces } from './coarse-places.js';
import { createJointJudge, type StrengthOptions } from './joint-judge.js';
import { type CaseStrength, createStrengthModel } from './joint-strength.js';
import type { JudgedPoint } from './judged-points.js';
import { createPlaceMoments, type PlaceMoments } from './place-moments.js';

/** What is judged, and how. */
export interface JudgedJoint {
  readonly model: ReducedModel;
  readonly joint: Joint;
  readonly loads: Loads;
  readonly cases: readonly LoadCase[];
  readonly strength: StrengthOptions;
}

/** A point is kept that fails within so many times the load that the first of all fails under, or the first of its place. */
const nearFirst = 2;
const nearFirstOfPlace = 1.2;
/** Load factors beyond which no stress need be exact. */
const mostFactor = 10;

/**
 * The model's edge part with as much of its strength part as tells what strength channels leave under these loads and cases: of the points that are judged those that
 * fail first or nearly so, without channel or with one of `edges`, and of their coefficients the digits that count. What is left is a tenth of the whole or less; how well
 * it tells the strength of channels that were not asked for tells `strengthDifference`. Not for a pocket that follows its channel.
 *
 * @param edges solved with the whole model, of all kinds that will be asked for: mirror-symmetric or not, large and small
 * @throws InputError for a model without its strength part
 */
export function governingPlaces(judged: JudgedJoint, edges: readonly SolvedEdge[]): ReducedModel {
  const { model, joint, loads, cases, strength } = judged;
  const acting = actingLoads(model, loads);
  const names = acting.map(({ name }) => name);
  const splits = cases.map((one) => splitCase(caseFactors(one, names), names.indexOf(cureLoad.name)));
  const { section, take } = createJointJudge(model, joint, acting, strength);
  const points = section.rows.flat();
  const moments = createPlaceMoments(model, acting);
  const reach = noReach(model, acting);
  const kept = new Set<JudgedPoint>();
  const factors = new Float64Array(points.length);
  for (const edge of [undefined, ...edges]) {
    take(edge);
    if (edge !== undefined) moments.take(edge);
    for (const split of splits) {
      factors.fill(Number.POSITIVE_INFINITY);
      section.lowerEach(split, factors);
      keepNearFirst(points, factors, kept);
      const factor = Math.min(mostFactor, Math.max(1, least(factors)));
      raiseReach(reach, acting, split, factor, edge && moments);
    }
  }
  const rows = section.rows.map((row) => row.filter((point) => kept.has(point))).filter(({ length }) => length > 0);
  return roundedPlaces(model, hostOf(joint), rows, reach);
}

const least = (factors: Float64Array): number =>
  factors.reduce((low, factor) => Math.min(low, factor), Number.POSITIVE_INFINITY);

function keepNearFirst(points: readonly JudgedPoint[], factors: Float64Array, kept: Set<JudgedPoint>): void {
  const first = least(factors);
  const ofPlace = new Map<string, number>();
  points.forEach(({ at: { place } }, i) => {
    ofPlace.set(place, Math.min(factors[i]!, ofPlace.get(place) ?? Number.POSITIVE_INFINITY));
  });
  points.forEach((point, i) => {
    const factor = factors[i]!;
    if (factor === Number.POSITIVE_INFINITY) return;
    if (factor <= nearFirst * first || factor <= nearFirstOfPlace * ofPlace.get(point.at.place)!) kept.add(point);
  });
}

/** Raises what a case multiplies maps and undisturbed stresses by at most. */
function raiseReach(
  { moments, loads }: MomentReach,
  acting: readonly ActingLoad[],
  { fixed, scaled }: SplitCase,
  factor: number,
  found: PlaceMoments | undefined,
): void {
  acting.forEach(({ name, responseIndex }, l) => {
    const share = Math.abs(fixed[l]!) + factor * Math.abs(scaled[l]!);
    loads.set(name, Math.max(share, loads.get(name) ?? 0));
    const { even, odd } = found?.framed[l] ?? {};
    for (const [part, values] of [even, odd].entries())
      values?.forEach((value, j) => {
        const most = moments[responseIndex]?.[part];
        if (most) most[j] = Math.max(most[j]!, share * Math.abs(value));
      });
  });
}

/**
 * How far another model of the same joint is off in what strength channels leave: the largest difference, as a share, of any case's load factor, of that at which the next place
 * fails, and of the strength retained.
 */
export function strengthDifference(judged: JudgedJoint, other: ReducedModel, edges: readonly SolvedEdge[]): number {
  const { joint, loads, cases, strength } = judged;
  const [one, two] = [judged.model, other].map((model) => createStrengthModel(model, joint, loads, cases, strength));
  let most = 0;
  const compare = (whole: number, found: number): void => {
    if (whole === found || Number.isNaN(whole)) return;
    // Written so that a NaN counts.
    const off = Math.abs(found / whole - 1);
    if (!(off <= most)) most = off;
  };
  for (const edge of edges) {
    const [whole, found] = [one!.evaluate(edge, 'places'), two!.evaluate(edge, 'places')];
    whole.cases.forEach((told, c) => {
      compare(told.retained, found.cases[c]!.retained);
      const [ours, theirs] = [told, found.cases[c]!].map(firstTwo);
      ours!.forEach((factor, n) => {
        compare(factor, theirs![n]!);
      });
    });
  }
  return most;
}

function firstTwo({ places }: CaseStrength): number[] {
  return places
    .map(({ factor }) => factor)
    .sort((a, b) => a - b)
    .slice(0, 2);
}
