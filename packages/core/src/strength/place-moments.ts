import {
  createHigherMoments,
  type EdgeFold,
  framedOrder,
  type HigherMoments,
  halfSize,
  holdsClass,
  polynomialsOf,
  toFrame,
  weightsFromFrame,
} from '../edge/index.js';
import { isMirrored, type ReducedModel } from '../host/index.js';
import { byCount } from '../outline/index.js';
import type { ActingLoad, CaseSlopes, SolvedEdge } from '../stress/index.js';

/** Framed moments of one load: of all fields in one, or of the symmetric class and the other. */
export interface FramedMoments {
  readonly even: Float64Array;
  /** Empty for a host without mirror symmetry. */
  readonly odd: Float64Array;
}

/** The moments that maps of stresses at places take (`PlaceMaps`), of a solved edge: more of them than it was solved with. */
export interface PlaceMoments {
  /** Of the edge that was taken last, one per load. */
  readonly framed: readonly FramedMoments[];
  /** Takes an edge. Of a mirror-symmetric one, the moments of the symmetric class only. Allocates nothing. */
  take(edge: SolvedEdge): void;
  /** Takes the slopes of the edge that was taken last. */
  takeSlopes(slopes: CaseSlopes): void;
  /**
   * Adds to `out`, one to a motion from `at` on, the rates of one load's framed moments times `weights` (which are overwritten); those of degrees beyond
   * `degree` are 0.
   */
  addRates(load: number, weights: FramedMoments, degree: number, out: Float64Array, at: number): void;
}

export function createPlaceMoments(model: ReducedModel, loads: readonly ActingLoad[]): PlaceMoments {
  const { basis, frame } = model.places;
  const half = halfSize(basis.degree);
  // An even degree, so that what is real stays where it is; poles are other functions there, behind more polynomials.
  const from = basis.degree === model.basis.degree ? basis.degree : 2 * Math.floor(polynomialsOf(model.basis) / 2);
  const low = halfSize(from);
  const own = halfSize(model.basis.degree);
  const parts = isMirrored(model) ? (['symmetric', 'antisymmetric'] as const) : (['whole'] as const);
  const frames = parts.map((of, part) => ({
    // Places among `[symmetric | antisymmetric]`.
    order: framedOrder(of, basis.degree).map((place) => place + part * half),
    factor: 'whole' in frame ? frame.whole : frame[of as 'symmetric' | 'antisymmetric'],
  }));
  const plain = loads.map(() => new Float64Array(2 * half));
  const framed = loads.map((): FramedMoments => {
    const [even, odd] = frames.map(({ order }) => new Float64Array(order.length));
    return { even: even!, odd: odd ?? new Float64Array(0) };
  });
  const higher = byCount((count) => createHigherMoments(basis, from, count));
  const folds = loads.map((): EdgeFold => 'whole');
  const weightsOfPlain = new Float64Array(2 * half);
  let edge: SolvedEdge;
  let slopes: CaseSlopes;
  let highRates: (Float64Array | undefined)[] = [];

  const takeLoad = (l: number): void => {
    const all = plain[l]!;
    const given = edge.moments[l]!;
    for (let i = 0; i < low; i++) all[i] = given[i]!;
    if (!edge.mirror) for (let i = 0; i < low; i++) all[half + i] = given[own + i]!;
  };

  const frameLoad = (l: number): void => {
    for (let part = 0; part < (edge.mirror ? 1 : frames.length); part++) {
      const { order, factor } = frames[part]!;
      const out = part === 0 ? framed[l]!.even : framed[l]!.odd;
      for (let i = 0; i < order.length; i++) out[i] = plain[l]![order[i]!]!;
      toFrame(factor, order.length, out);
    }
  };

  /** Adds products with rates: `columns` to a motion, of each class that is held `size` from field `first` on. */
  const addProducts = (
    rates: Float64Array,
    { fold, size, first, stride }: Products,
    out: Float64Array,
    at: number,
  ): void => {
    let next = 0;
    for (const symmetric of [true, false]) {
      if (!holdsClass(fold, symmetric)) continue;
      const weights = (symmetric ? 0 : half) + first;
      const columns = fold === 'whole' ? 2 * stride : stride;
      for (let p = 0; p < slopes.howMany; p++)
        for (let i = 0, r = p * columns + next; i < size; i++, r++)
          out[at + p]! += weightsOfPlain[weights + i]! * rates[r]!;
      next += stride;
    }
  };

  return {
    framed,
    take(solved) {
      edge = solved;
      for (let l = 0; l < loads.length; l++) {
        folds[l] = foldOf(edge, loads[l]!);
        takeLoad(l);
      }
      if (from < basis.degree) writeBeyond(edge, higher(edge.nodes.count), folds, plain);
      for (let l = 0; l < loads.length; l++) frameLoad(l);
    },
    takeSlopes(taken) {
      slopes = taken;
      highRates = loads.map(() => undefined);
    },
    addRates(l, weights, degree, out, at) {
      weightsOfPlain.fill(0);
      frames.forEach(({ order, factor }, part) => {
        const own = part === 0 ? weights.even : weights.odd;
        weightsFromFrame(factor, order.length, own);
        order.forEach((place, i) => {
          weightsOfPlain[place] = own[i]!;
        });
      });
      const fold = folds[l]!;
      addProducts(slopes.loads.moments(l), { fold, size: low, first: 0, stride: own }, out, at);
      if (degree <= from) return;
      highRates[l] ??= higher(edge.nodes.count).rates(
        { phi: slopes.loads.phi[l]!, phiRates: slopes.loads.phiRates[l]!, fold },
        slopes.motions,
        slopes.howMany,
      );
      addProducts(highRates[l], { fold, size: half - low, first: low, stride: half - low }, out, at);
    },
  };
}

/** Writes higher moments of all edges; `folds`: how each load was solved for the given one, which comes last, as rates are of it. */
function writeBeyond(
  { each }: SolvedEdge,
  beyond: HigherMoments,
  folds: readonly EdgeFold[],
  out: readonly Float64Array[],
): void {
  for (let k = each.length - 1; k >= 0; k--) {
    const own = k === 0 || folds[0] === 'whole' ? folds : folds.map(asPair);
    beyond.take(each[k]!.nodes);
    beyond.write(each[k]!.phi, own, out, k < each.length - 1);
  }
}

const asPair = (fold: EdgeFold): EdgeFold => (holdsClass(fold, true) ? 'pair' : 'odd-pair');

/** How the edge that was given was solved under a load. */
function foldOf({ mirror, several, onAxis }: SolvedEdge, { symmetric }: ActingLoad): EdgeFold {
  if (!several) return mirror ? 'half' : 'whole';
  if (onAxis) return symmetric ? 'half' : 'odd-half';
  return symmetric ? 'pair' : 'odd-pair';
}

/** Of each class, which of the fields rates are given of, and how far those of two classes are apart. */
interface Products {
  readonly fold: EdgeFold;
  readonly size: number;
  readonly first: number;
  readonly stride: number;
}
