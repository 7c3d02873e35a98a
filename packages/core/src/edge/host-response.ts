import { multiply } from '../linear/index.js';
import type { AxialAnswer } from './axial.js';
import { type EdgeFold, holdsClass } from './fold.js';

/** The answer of a mirror-symmetric host: a square matrix of order `2 degree`, row-major, for each symmetry class. */
export interface SplitResponse {
  readonly symmetric: Float64Array;
  readonly antisymmetric: Float64Array;
}

/** The answer of any other host: one square matrix of order `4 degree`, row-major, over `[symmetric | antisymmetric]`. */
export interface WholeResponse {
  readonly whole: Float64Array;
}

/** A host's answer to a channel: regular coefficients from the moments of its edge, at the strain along it that the host has without. */
export type HostResponse = (SplitResponse | WholeResponse) & {
  /** By how much that strain changes; left out where it cannot. */
  readonly axial?: AxialAnswer;
};

/** Blocks on the diagonal of an answer, all others zero; those of the classes that are solved for. */
export function responseBlocks(response: HostResponse, fold: EdgeFold = 'whole'): readonly Float64Array[] {
  if ('whole' in response) {
    if (fold !== 'whole') throw new Error('one class alone has no answer without mirror symmetry');
    return [response.whole];
  }
  return [
    ...(holdsClass(fold, true) ? [response.symmetric] : []),
    ...(holdsClass(fold, false) ? [response.antisymmetric] : []),
  ];
}

/** Writes the coefficients that answer `moments`, at an unchanged strain along the channel, of the classes that are solved for; `half` of them to a class. Allocates nothing. */
export function writeAnswer(
  response: HostResponse,
  half: number,
  fold: EdgeFold,
  moments: Float64Array,
  out: Float64Array,
): void {
  if ('whole' in response) {
    multiply(response.whole, 2 * half, 2 * half, moments, out);
    return;
  }
  if (!holdsClass(fold, true)) {
    multiply(response.antisymmetric, half, half, moments, out);
    return;
  }
  multiply(response.symmetric, half, half, moments, out);
  if (fold === 'whole') multiply(response.antisymmetric, half, half, moments.subarray(half), out.subarray(half));
}
