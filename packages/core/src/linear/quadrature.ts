/** Points of a rule and their weights. */
export type Rule = readonly (readonly [point: number, weight: number])[];

const { sqrt } = Math;

/** A rule that is symmetric in 0, from what it has at 0 and right of it. */
const symmetric = (...half: Rule): Rule => [
  ...half.flatMap(([x, weight]) => (x > 0 ? [[-x, weight] as const] : [])).reverse(),
  ...half,
];

// Gauss-Legendre rules on [-1, 1]; n points are exact for polynomials of degree 2 n - 1 (Abramowitz & Stegun, 1964, 25.4.29).
export const gauss2 = symmetric([sqrt(1 / 3), 1]);
export const gauss3 = symmetric([0, 8 / 9], [sqrt(0.6), 5 / 9]);
export const gauss4 = symmetric(
  [sqrt(3 / 7 - (2 / 7) * sqrt(6 / 5)), (18 + sqrt(30)) / 36],
  [sqrt(3 / 7 + (2 / 7) * sqrt(6 / 5)), (18 - sqrt(30)) / 36],
);
export const gauss5 = symmetric(
  [0, 128 / 225],
  [sqrt(5 - 2 * sqrt(10 / 7)) / 3, (322 + 13 * sqrt(70)) / 900],
  [sqrt(5 + 2 * sqrt(10 / 7)) / 3, (322 - 13 * sqrt(70)) / 900],
);

/** A rule on [-1, 1] moved to [0, 1]. */
export const onUnitInterval = (rule: Rule): Rule => rule.map(([x, weight]) => [(1 + x) / 2, weight / 2]);
