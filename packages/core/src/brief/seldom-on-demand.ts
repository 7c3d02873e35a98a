/** Stands for `seldom.ts`: a page whose brief is sound, and leaves nothing open, need not fetch it. */
export const loadSeldom = async () => (await import('./seldom.js')).loadSeldom();
