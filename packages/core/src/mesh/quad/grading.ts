/**
 * Positions from 0 to `length` whose steps follow a wanted step size: equal shares of the integral of `1 / size`, at least
 * `least` steps. Returns the ends of the steps (`steps + 1` positions).
 */
export function graded(length: number, size: (position: number) => number, least = 1): readonly number[] {
  const samples = 400;
  const share = new Float64Array(samples + 1);
  for (let i = 0; i < samples; i++) share[i + 1] = share[i]! + length / samples / size(((i + 0.5) * length) / samples);
  const total = share[samples]!;
  if (!(total > 0 && Number.isFinite(total))) throw new RangeError(`graded: no steps over a length of ${length}`);
  const steps = Math.max(least, Math.round(total));
  const positions = [0];
  let at = 0;
  for (let step = 1; step < steps; step++) {
    const wanted = (total * step) / steps;
    while (share[at + 1]! < wanted) at++;
    positions.push((length / samples) * (at + (wanted - share[at]!) / (share[at + 1]! - share[at]!)));
  }
  positions.push(length);
  return positions;
}

/** A step size that grows linearly with the distance from both ends: from `first` and `last` at rate `growth`, to at most `most`. */
export function growing(length: number, first: number, last: number, growth: number, most: number) {
  return (position: number) => Math.min(first + growth * position, last + growth * (length - position), most);
}

/** The steps of `positions` with their middles: `2 steps + 1` positions. */
export function withMiddles(positions: readonly number[]): readonly number[] {
  return positions.flatMap((end, i) => (i === 0 ? [end] : [(positions[i - 1]! + end) / 2, end]));
}
