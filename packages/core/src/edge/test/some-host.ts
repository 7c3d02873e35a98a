import { seededRandom } from '../../../../../test/fixtures/numbers.js';
import {
  type EdgeLoad,
  type HostResponse,
  halfSize,
  powerRecurrence,
  type RegularBasis,
  type SplitResponse,
} from '../index.js';

export const basis: RegularBasis = { degree: 4, centreX: 0, centreY: 1, length: 2, recurrence: powerRecurrence(4) };
export const half = halfSize(basis.degree);

/** Any symmetric matrices small enough that the equation stays well-posed, and any strain along the channel. */
export function someHost(seed: number): SplitResponse & HostResponse {
  const random = seededRandom(seed);
  const symmetricMatrix = () => {
    const out = new Float64Array(half * half);
    for (let i = 0; i < half; i++)
      for (let j = 0; j <= i; j++) {
        out[i * half + j] = 0.02 * random();
        out[j * half + i] = out[i * half + j]!;
      }
    return out;
  };
  return {
    symmetric: symmetricMatrix(),
    antisymmetric: symmetricMatrix(),
    axial: { field: Float64Array.from({ length: half }, random), stiffness: 40, modulus: 5, compliance: 0.3 },
  };
}

export function someLoad(seed: number, parts: { symmetric?: boolean; antisymmetric?: boolean }): EdgeLoad {
  const random = seededRandom(seed);
  const undisturbed = new Float64Array(2 * half);
  for (let l = 0; l < half; l++) {
    if (parts.symmetric) undisturbed[l] = random();
    if (parts.antisymmetric) undisturbed[half + l] = random();
  }
  return { undisturbed, response: someHost(seed + 1), axialStress: parts.symmetric ? random() : 0 };
}
