/**
 * Round places for the marks of an axis: steps of 1, 2 or 5 times a power of ten, about `count` of them, the first and
 * the last at or beyond the limits.
 */
export function axisTicks(
  least: number,
  most: number,
  count: number,
): { readonly values: number[]; readonly labels: string[] } {
  const extent = most - least > 0 ? most - least : Math.abs(most) || 1;
  const raw = extent / Math.max(1, count);
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = power * (raw / power <= 1 ? 1 : raw / power <= 2 ? 2 : raw / power <= 5 ? 5 : 10);
  const first = Math.floor(least / step + 1e-9);
  const last = Math.max(first + 1, Math.ceil(most / step - 1e-9));
  const decimals = Math.min(20, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
  const values = Array.from({ length: last - first + 1 }, (_, i) => Number(((first + i) * step).toFixed(decimals)));
  return { values, labels: values.map((value) => value.toFixed(decimals)) };
}
