// What the timed benchmarks share.

/** Multiplicative congruential generator (Park & Miller 1988) of numbers between 0 and 1: the same in every run. */
export function createRandom() {
  let state = 1;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

/** Minimum and median of numbers. */
export function summary(values) {
  const sorted = [...values].sort((a, b) => a - b);
  return { minimum: sorted[0], median: sorted[sorted.length >> 1] };
}

/** Milliseconds of every run of a job after `warmUp` runs that are not counted. */
export function times(job, rounds, warmUp = 3) {
  const all = [];
  for (let round = 0; round < rounds + warmUp; round++) {
    const start = performance.now();
    job();
    all.push(performance.now() - start);
  }
  return all.slice(warmUp);
}
