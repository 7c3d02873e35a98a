import { power } from '../power.js';

/** Of an error so many degrees leave eight more this share where nothing is known of how fast fields converge: at walls of 0.006 bend radii; ordinary joints are four times as fast. */
const usualRate = 0.6;
/** Slower than this no rate is believed. */
const slowestRate = 0.95;

/**
 * What is left beyond fields of a higher degree, as a share of how much they changed against those of `degrees` less: the rest of a geometric series. Its rate is that at which changes fall
 * where there was one before; around a channel at a re-entrant corner of a filler eight degrees of polynomials leave 0.85.
 *
 * @param before change of the step below, of as many degrees
 */
export function leftBeyond(change: number, before: number | undefined, degrees = 8): number {
  const usual = power(usualRate, degrees / 8);
  const rate = before === undefined || !(before > 0) ? usual : Math.min(slowestRate, Math.max(usual, change / before));
  return rate / (1 - rate);
}
