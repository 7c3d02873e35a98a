import { framedCount, framedOrder, toFrame } from '../../edge/index.js';
import {
  type DenseMatrix,
  leftDivide,
  matrixOf,
  orthonormalise,
  rowOf,
  scaled,
  times,
  transposed,
} from '../../linear/index.js';
import type { PlaceMaps } from '../place-maps.js';
import { type ByClass, mapClasses, stressesAt } from './condensed.js';
import type { Inside, Trial } from './inside.js';
import type { System } from './system.js';
import { momentUnit, sourcesSeen } from './virtual-channel.js';

/** What the maps of stresses at places take the moments in. */
interface Frame {
  readonly trial: Trial;
  readonly order: readonly number[];
  /** As `PlaceMaps.frame`. */
  readonly factor: Float64Array;
  /** The largest framed moments of a source just inside the contour: a channel there has no more of high degrees beside those of low ones. */
  readonly largest: Float64Array;
}

/**
 * What moments beyond a point's degree tell of its stress, at most, as a share of what sources just inside the contour give there. Channels of
 * random joints, at every limit: 0.02 % of the largest stress of a place, 1 % at walls of 0.01 bend radii.
 */
const leftOut = 1e-3;

/** Maps of moments to the stresses at the chosen places, support by support, each place's up to the degree that tells it. */
export function placeMaps(
  inside: Inside,
  supports: readonly ByClass<System>[],
  chosen: readonly number[],
  everyMoment: boolean,
): Pick<PlaceMaps, 'basis' | 'degrees' | 'frame' | 'change'> {
  const { degree } = inside.basis;
  const frames = mapClasses(inside.trials, (trial) => frameOf(inside, trial));
  const frameFor = ({ trial }: System): Frame => ('whole' in frames ? frames.whole : frames[trial.of as 'symmetric']);
  const known = new Map<System, Float64Array>();
  const whole = supports.map((support) =>
    mapClasses(support, (system) => {
      const map = known.get(system) ?? framedMap(system, frameFor(system), chosen);
      known.set(system, map);
      return map;
    }),
  );
  const degrees = new Array<number>(chosen.length).fill(everyMoment ? degree : 1);
  for (const [system, map] of everyMoment ? [] : known) raiseDegrees(map, frameFor(system), degree, degrees);
  const short = new Map<Float64Array, Float64Array>();
  return {
    basis: inside.basis,
    degrees,
    frame: mapClasses(frames, ({ factor }) => factor),
    change: whole.map((support) =>
      mapClasses(support, (map, of) => {
        const cut = short.get(map) ?? shortened(map, degrees, (to) => framedCount(of, to));
        short.set(map, cut);
        return cut;
      }),
    ),
  };
}

function frameOf(inside: Inside, trial: Trial): Frame {
  const { of, rotation, moments } = trial;
  const order = framedOrder(of, inside.basis.degree);
  const plain = times(transposed(trial.factor), trial.orthonormal);
  const rigid = Array.from({ length: plain.rows - moments }, (_, k) => moments + k);
  if (rotation >= 0) rigid.push(rotation);
  const { factor } = orthonormalise(chosenRows(plain, [...rigid, ...order]));
  const count = order.length;
  const upper = new Float64Array((count * (count + 1)) / 2);
  for (let i = 0, at = 0; i < count; i++)
    for (let j = i; j < count; j++)
      upper[at++] = factor.values[(rigid.length + i) * factor.columns + rigid.length + j]!;
  const seen = sourcesSeen(inside.contour, inside, of);
  const largest = new Float64Array(count);
  for (let s = 0; s < seen.columns; s++) {
    const framed = Float64Array.from(order, (row) => seen.values[row * seen.columns + s]!);
    toFrame(upper, count, framed);
    framed.forEach((value, j) => {
      largest[j] = Math.max(largest[j]!, Math.abs(value));
    });
  }
  return { trial, order, factor: upper, largest };
}

/**
 * Stress at the chosen places per framed moment, rows of `3 places`: what the contour's displacements `V A^+ q` do to the outside. A half of the contour
 * sees half of a moment.
 */
function framedMap(
  { inside, trial, outside, joined }: System,
  { order, factor }: Frame,
  chosen: readonly number[],
): Float64Array {
  const share = trial.of === 'whole' ? 1 : 1 / 2;
  const plain = scaled(leftDivide(trial.factor, joined.solve(trial.orthonormal)), momentUnit(inside) * share);
  const count = order.length;
  const upper = new Float64Array(count * count);
  for (let i = 0, at = 0; i < count; i++) for (let j = i; j < count; j++) upper[i * count + j] = factor[at++]!;
  const framed = times(matrixOf(upper, count), chosenRows(plain, order));
  const states = order.map((_, j) => ({ displacement: rowOf(framed, j), scalars: {} }));
  return stressesAt(outside, chosen, states);
}

function chosenRows(matrix: DenseMatrix, rows: readonly number[]): DenseMatrix {
  const out = new Float64Array(rows.length * matrix.columns);
  rows.forEach((row, k) => {
    out.set(rowOf(matrix, row), k * matrix.columns);
  });
  return matrixOf(out, matrix.columns);
}

/** Raises the degrees of points to what one map asks for. */
function raiseDegrees(map: Float64Array, { trial, largest }: Frame, degree: number, degrees: number[]): void {
  const columns = largest.length;
  const parts = new Float64Array(degree + 1);
  for (let p = 0; p < degrees.length; p++) {
    parts.fill(0);
    for (let row = 3 * p; row < 3 * p + 3; row++)
      for (let to = 1, j = 0; to <= degree; to++)
        for (; j < framedCount(trial.of, to); j++) parts[to]! += Math.abs(map[row * columns + j]!) * largest[j]!;
    const total = parts.reduce((sum, part) => sum + part, 0);
    let tail = 0;
    let needed = degree;
    for (; needed > 1 && tail + parts[needed]! <= leftOut * total; needed--) tail += parts[needed]!;
    degrees[p] = Math.max(degrees[p]!, needed);
  }
}

/** Of each point's three rows, what its degree holds. */
function shortened(map: Float64Array, degrees: readonly number[], countOf: (degree: number) => number): Float64Array {
  const columns = map.length / (3 * degrees.length);
  const out = new Float64Array(degrees.reduce((sum, degree) => sum + 3 * countOf(degree), 0));
  let to = 0;
  degrees.forEach((degree, p) => {
    const length = countOf(degree);
    for (let row = 3 * p; row < 3 * p + 3; row++, to += length)
      out.set(map.subarray(row * columns, row * columns + length), to);
  });
  return out;
}
