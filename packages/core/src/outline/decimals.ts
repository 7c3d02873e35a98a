/** More decimals than these are no rounding: digits of a double, in a coordinate of this size. */
const mostDigits = 12;

/** A power of ten as it is read, which is exact as long as a double can hold it. */
const tenTo = (digits: number) => Number(`1e${digits}`);

/**
 * The unit of the last decimal of coordinates that were written with few of them, in their unit of length; 0 for numbers that
 * were not rounded. Half of it is how far a coordinate may be off.
 */
export function lastDecimal(...coordinates: readonly Float64Array[]): number {
  const largest = Math.max(...coordinates.map((values) => values.reduce((most, v) => Math.max(most, Math.abs(v)), 0)));
  for (let decimals = 0; largest * tenTo(decimals) < tenTo(mostDigits); decimals++) {
    const scale = tenTo(decimals);
    // A decimal number and its double differ in the sixteenth digit.
    const off = (v: number) => Math.abs(v * scale - Math.round(v * scale)) > 4e-16 * largest * scale;
    if (!coordinates.some((values) => values.some(off))) return 1 / scale;
  }
  return 0;
}
