/**
 * `base ** exponent` for a base of at least 0 and an exponent that is not 0, the same to the last bit in every JavaScript engine that has
 * the same exponential and logarithm: engines differ in the last bits of `**` for exponents other than 2 and 0.5, and a search that
 * differs in one bit soon goes another way.
 */
export const power = (base: number, exponent: number): number => Math.exp(exponent * Math.log(base));

/** `x ** 3`, see `power`. */
export const cube = (x: number): number => x * x * x;
