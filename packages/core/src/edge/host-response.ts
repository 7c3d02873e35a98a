import { multiply } from '../linear/index.js';

/** The answer of a mirror-symmetric host: a square matrix of order `2 degree`, row-major, for each symmetry class. */
export interface SplitResponse {
  readonly symmetric: Float64Array;
  readonly antisymmetric: Float64Array;
}

/** The answer of any other host: one square matrix of order `4 degree`, row-major, over `[symmetric | antisymmetric]`. */
export interface WholeResponse {
  readonly whole: Float64Array;
}

/** A host's answer to a channel: regular coefficients from the moments of its edge. */
export type HostResponse = SplitResponse | WholeResponse;

/** Blocks on the diagonal of an answer, all others zero. `mirror`: of the symmetric class alone. */
export function responseBlocks(response: HostResponse, mirror = false): readonly Float64Array[] {
  if ('whole' in response) {
    if (mirror) throw new Error('a host without mirror symmetry has no answer to symmetric moments alone');
    return [response.whole];
  }
  return mirror ? [response.symmetric] : [response.symmetric, response.antisymmetric];
}

/** Writes the coefficients that answer `moments`; `half` of them to a class. Allocates nothing. */
export function writeAnswer(
  response: HostResponse,
  half: number,
  mirror: boolean,
  moments: Float64Array,
  out: Float64Array,
): void {
  if ('whole' in response) {
    multiply(response.whole, 2 * half, 2 * half, moments, out);
    return;
  }
  multiply(response.symmetric, half, half, moments, out);
  if (!mirror) multiply(response.antisymmetric, half, half, moments.subarray(half), out.subarray(half));
}
