/**
 * 0 done, 1 the brief cannot be met, 2 bad input, 3 internal error, 4 fast model and independent mesh disagree, 130 stopped by Ctrl-C
 * (as shells say it: 128 and the number of the signal).
 */
export const exitCodes = { done: 0, unmet: 1, badInput: 2, internal: 3, disagreement: 4, stopped: 130 } as const;
