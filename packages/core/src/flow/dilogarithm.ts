/**
 * `Li2(x) = sum x^k / k^2` for `0 <= x <= 1`; above one half by Euler's reflection
 * `Li2(x) + Li2(1 - x) = pi^2/6 - ln x ln(1 - x)` (Lewin, Polylogarithms and Associated Functions, 1981, eq. 1.11).
 */
export function dilogarithm(x: number): number {
  if (x === 0) return 0;
  if (x === 1) return Math.PI ** 2 / 6;
  if (x > 0.5) return Math.PI ** 2 / 6 - Math.log(x) * Math.log1p(-x) - dilogarithm(1 - x);
  let sum = 0;
  let power = x;
  // 0.5^k / k^2 is below rounding at k = 45.
  for (let k = 1; k <= 45; k++) {
    sum += power / (k * k);
    power *= x;
  }
  return sum;
}
