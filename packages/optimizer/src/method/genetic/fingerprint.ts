/**
 * A 53-bit number that equal points share and different points do not, but for one chance in 10^7 among 25,000 points: small
 * enough to keep, and to save, for every point ever asked for.
 *
 * Two multiplicative hashes of the variables' bits, with the multipliers and the final mix of MurmurHash3 (public domain).
 */
export function fingerprint(x: Float64Array): number {
  const words = new Uint32Array(x.slice().buffer);
  let high = 0x9747b28c;
  let low = 0x3c6ef372;
  for (const word of words) {
    high = Math.imul(high ^ word, 0xcc9e2d51);
    high = (high << 15) | (high >>> 17);
    low = Math.imul(low ^ word, 0x1b873593);
    low = (low << 13) | (low >>> 19);
  }
  return (mix(high ^ low) & 0x1fffff) * 2 ** 32 + (mix(low + Math.imul(high, 5)) >>> 0);
}

function mix(value: number): number {
  let mixed = Math.imul(value ^ (value >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return mixed ^ (mixed >>> 16);
}
