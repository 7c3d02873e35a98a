/** 0 done, 1 the brief cannot be met, 2 bad input, 3 internal error, 4 fast model and independent mesh disagree. */
export const exitCodes = { done: 0, unmet: 1, badInput: 2, internal: 3, disagreement: 4 } as const;
