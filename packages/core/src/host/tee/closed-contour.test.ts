import { describe, expect, it } from 'vitest';
import { placeRowsOf } from '../../../../../test/fixtures/place-rows.js';
import { ellipseNodes, referenceJoint, referenceLoads } from '../../../../../test/fixtures/tee-reference.js';
import type { RegularBasis } from '../../edge/index.js';
import { createStressModel } from '../../stress/index.js';
import {
  type Condensed,
  contourBasis,
  edgeOnly,
  inClass,
  innerPressure,
  insideContour,
  type RecoverableHost,
  type SolvedHost,
  solveHost,
} from '../condensed/index.js';
import { condenseOnContour, solveOnContour } from './reduce.js';

const degree = 16;
const teeUpTo = (highest: number) =>
  condenseOnContour(referenceJoint, 0.12, 0.12, { edges: 60, refinement: 1 }, highest);
const tee = teeUpTo(degree);
const split = solveOnContour(tee);
const whole = unfolded(tee.host);

const loads = { ...referenceLoads, side: { force: 10 }, moment: { moment: 50 }, pressure: { pressure: 5 } };
const outlines = [ellipseNodes(0.7, 0.3, [0.3, 1.2], 0.5, 128), ellipseNodes(0.8, 0.25, [-0.4, 0.5], 0.1, 128)];

describe('a closed control contour', () => {
  const solved = solveWhole(split.basis);

  it('gives what the two halves of a mirror-symmetric host give', () => {
    const [expected, found] = [split, solved].map((one) =>
      createStressModel(edgeOnly('tee', one), loads, [], { tolerance: 1e-13 }),
    );
    for (const nodes of outlines) {
      const hoop = expected!.evaluate(nodes, false).hoop.map((values) => values.slice());
      found!.evaluate(nodes, false).hoop.forEach((values, l) => {
        expect(differenceOf(values, hoop[l]!), found!.loads[l]).toBeLessThan(1e-10);
      });
    }
  });

  it('has the stresses of the host on both sides of its mirror line', () => {
    const count = tee.host.body.points.length;
    const places = Array.from({ length: Math.floor(count / 20) }, (_, p) => 20 * p);
    const half = split.stresses(places);
    const all = solved.stresses([...places, ...places.map((p) => p + count)]);
    // The last is a pressure, which leaves them as they are.
    half.still.slice(0, -1).forEach((values, l) => {
      const left = values.map((value, i) => (split.loads[l]!.symmetric ? 1 : -1) * signOf(i) * value);
      expect(differenceOf(all.still[l]!, [...values, ...left])).toBeLessThan(1e-10);
    });
    const [halfRows, allRows] = [placeRowsOf(half.maps), placeRowsOf(all.maps)];
    // Places that all moments tell: those further off are told by the first of them, which frames of a half and of a whole contour take apart a little otherwise.
    const toldByAll = places.map((_, p) =>
      [half.maps.degrees[p], all.maps.degrees[p], all.maps.degrees[p + places.length]].every((one) => one === degree),
    );
    expect(toldByAll.filter(Boolean).length).toBeGreaterThan(10);
    const only = (rows: ArrayLike<number>) =>
      Float64Array.from(rows, (value, row) => (toldByAll[Math.floor(row / 3) % places.length] ? value : 0));
    // Moments of a channel on the left half.
    const nodes = outlines[1]!;
    const stress = createStressModel(edgeOnly('tee', split), loads, [], { tolerance: 1e-13 });
    for (const moments of stress.evaluate(nodes, false).moments) {
      const rows = 3 * places.length;
      const even = halfRows.map((map) => times(inClass(map, true), rows, moments.subarray(0, 2 * degree)));
      const odd = halfRows.map((map) => times(inClass(map, false), rows, moments.subarray(2 * degree)));
      allRows.forEach((map, support) => {
        const right = even[support]!.map((value, i) => value + odd[support]![i]!);
        const left = even[support]!.map((value, i) => signOf(i) * (value - odd[support]![i]!));
        const found = times(inClass(map, true), 2 * rows, moments);
        expect(differenceOf(only(found), only([...right, ...left]))).toBeLessThan(1e-10);
      });
    }
  });

  it('leaves the rotation of the channel alone', () => {
    const order = 4 * degree;
    for (const response of solved.responses) {
      const matrix = inClass(response, true);
      expect(matrix).toHaveLength(order * order);
      for (let i = 0; i < order; i++) {
        expect(Math.abs(matrix[2 * degree * order + i]!)).toBe(0);
        for (let j = 0; j < i; j++) expect(matrix[i * order + j]).toBe(matrix[j * order + i]);
      }
    }
  });

  it('hardly depends on the highest degree that its fields were made up to', () => {
    const [direct, cut] = [split, solveOnContour(teeUpTo(24), degree)].map((one) =>
      createStressModel(edgeOnly('tee', one), loads, []),
    );
    for (const nodes of outlines) {
      const hoop = direct!.evaluate(nodes, false).hoop.map((values) => values.slice());
      cut!.evaluate(nodes, false).hoop.forEach((values, l) => {
        expect(differenceOf(values, hoop[l]!)).toBeLessThan(2e-3);
      });
    }
  });

  it('hardly depends on the origin of its fields', () => {
    const shifted = createStressModel(
      edgeOnly('tee', solveWhole(contourBasis(whole.contour, 0.4, 1.1, 24))),
      loads,
      [],
    );
    const centred = createStressModel(edgeOnly('tee', solveOnContour(teeUpTo(24))), loads, []);
    const hoop = centred.evaluate(outlines[0]!, false).hoop.map((values) => values.slice());
    shifted.evaluate(outlines[0]!, false).hoop.forEach((values, l) => {
      expect(differenceOf(values, hoop[l]!)).toBeLessThan(1e-5);
    });
  });
});

function solveWhole(basis: RegularBasis): SolvedHost {
  return solveHost(whole, insideContour(whole.contour, referenceJoint.filler, basis), [
    ...(['pull', 'side', 'moment', 'cure'] as const).map((name, l) => ({
      name,
      size: split.loads[l]!.size,
      scalar: name === 'cure' ? 'deltaT' : name,
      support: split.loads[l]!.response,
      symmetric: split.loads[l]!.symmetric,
    })),
    innerPressure(basis, 0),
  ]);
}

/** A mirror-symmetric host as one that does not know that it is: each of its states is the sum of one of each symmetry. */
function unfolded({ contour: { x, y }, supports, body }: RecoverableHost): RecoverableHost {
  const last = x.length - 1;
  const count = 2 * last;
  const rightOf = (node: number) => Math.min(node, count - node);
  return {
    contour: {
      x: Float64Array.from({ length: count }, (_, j) => (j > last ? -1 : 1) * x[rightOf(j)]!),
      y: Float64Array.from({ length: count }, (_, j) => y[rightOf(j)]!),
      closed: true,
    },
    supports: supports.map((support) => {
      const classes = [true, false].map((symmetric) => inClass(support, symmetric));
      const scalars = [...new Set(classes.flatMap((one) => one.scalars))];
      const order = 2 * count + scalars.length;
      const shares = classes.map((one, c) => shareOf(one, c === 0));
      /** Of a whole state in a half: rows of `(unknown of the whole, weight)`. */
      function shareOf(one: Condensed, symmetric: boolean): readonly (readonly (readonly [number, number])[])[] {
        const right = Array.from({ length: 2 * (last + 1) }, (_, i) => {
          const [node, component] = [i >> 1, i & 1];
          const sign = (component === 0 ? -1 : 1) * (symmetric ? 1 : -1);
          const image = (count - node) % count;
          return [[i, 1 / 2] as const, [2 * image + component, sign / 2] as const];
        });
        return [...right, ...one.scalars.map((scalar) => [[2 * count + scalars.indexOf(scalar), 1] as const])];
      }
      const matrix = new Float64Array(order * order);
      classes.forEach((one, c) => {
        const rows = shares[c]!;
        rows.forEach((row, i) => {
          rows.forEach((column, j) => {
            const value = 2 * one.matrix[i * rows.length + j]!;
            for (const [k, a] of row) for (const [l, b] of column) matrix[k * order + l]! += a * b * value;
          });
        });
      });
      return {
        whole: {
          scalars,
          matrix,
          kept(a, columns) {
            const [even, odd] = classes.map((one, c) => {
              const rows = shares[c]!;
              const part = new Float64Array(rows.length * columns);
              rows.forEach((row, i) => {
                for (const [k, weight] of row)
                  for (let n = 0; n < columns; n++) part[i * columns + n]! += weight * a[k * columns + n]!;
              });
              return one.kept(part, columns);
            }) as [Float64Array, Float64Array];
            return Float64Array.of(...even, ...odd);
          },
        },
      };
    }),
    body: {
      points: [...body.points, ...body.points.map((p) => ({ ...p, x: -p.x, normalAngle: Math.PI - p.normalAngle }))],
      stresses(kept, columns, chosen) {
        const onRight = chosen.map((p) => p % body.points.length);
        const [even, odd] = [kept.subarray(0, kept.length / 2), kept.subarray(kept.length / 2)].map((part) =>
          body.stresses(part, columns, onRight),
        ) as [Float64Array, Float64Array];
        return even.map((value, i) => {
          const row = Math.floor(i / columns);
          const isRight = chosen[Math.floor(row / 3)]! < body.points.length;
          return isRight ? value + odd[i]! : signOf(row) * (value - odd[i]!);
        });
      },
    },
  };
}

/** Of a component `(n, t, nt)` in mirrored axes: the sign of the shear turns. */
const signOf = (row: number) => (row % 3 === 2 ? -1 : 1);

function times(matrix: Float64Array, rows: number, vector: Float64Array): Float64Array {
  const columns = vector.length;
  return Float64Array.from({ length: rows }, (_, i) =>
    vector.reduce((sum, value, j) => sum + matrix[i * columns + j]! * value, 0),
  );
}

/** Largest difference, as a share of the largest value. */
function differenceOf(found: ArrayLike<number>, expected: ArrayLike<number>): number {
  expect(found.length).toBe(expected.length);
  const list = Array.from(expected);
  const scale = Math.max(...list.map(Math.abs));
  return Math.max(...list.map((value, i) => Math.abs(found[i]! - value))) / scale;
}
