/** Multiplicative congruential generator (Park & Miller 1988) of numbers between -1 and 1: the same in every run. */
export function seededRandom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return (2 * state) / 2147483647 - 1;
  };
}
