import type { LoadCase } from '../host/index.js';

/** A case counts as between two others where its factors are so near to a mean of theirs, as a share of the largest. */
const same = 1e-12;

/**
 * Numbers of the cases that can be the worst of all somewhere: stresses are linear in the factors of the loads, so that a case between two others, or the same as
 * another, has nowhere a larger stress than both.
 */
export function rulingCases(cases: readonly LoadCase[]): number[] {
  const names = [...new Set(cases.flatMap(({ factors }) => Object.keys(factors)))] as (keyof LoadCase['factors'])[];
  const factors = cases.map((one) => names.map((name) => one.factors[name] ?? 0));
  const ruling: number[] = [];
  for (let c = 0; c < cases.length; c++) {
    const others = factors.filter((_, k) => k > c || ruling.includes(k));
    const between = others.some((a, i) => others.some((b, k) => k > i && isBetween(factors[c]!, a, b)));
    const repeated = ruling.some((k) => isBetween(factors[c]!, factors[k]!, factors[k]!));
    if (!between && !repeated) ruling.push(c);
  }
  return ruling;
}

function isBetween(one: readonly number[], a: readonly number[], b: readonly number[]): boolean {
  let squared = 0;
  let along = 0;
  let largest = 0;
  for (let k = 0; k < one.length; k++) {
    const step = b[k]! - a[k]!;
    squared += step * step;
    along += step * (one[k]! - a[k]!);
    largest = Math.max(largest, Math.abs(a[k]!), Math.abs(b[k]!));
  }
  const share = squared > 0 ? along / squared : 0;
  if (share < 0 || share > 1) return false;
  return one.every((value, k) => Math.abs(a[k]! + share * (b[k]! - a[k]!) - value) <= same * largest);
}
