// Our own linear algebra against ml-matrix's: `node benchmarks/linear.js` after `npm run build`.
// Both take turns in one run; ratios are ml-matrix's time over ours: of the minima and of the medians.
import { createRequire } from 'node:module';
import {
  addEntry,
  createCyclicBand,
  createGmres,
  eliminate,
  factorize,
  multiply,
  solveCyclicBand,
  timesTransposed,
} from '../packages/core/dist/linear/index.js';
import { createRandom, summary, times } from './timing.js';

const { CholeskyDecomposition, LuDecomposition, Matrix } = createRequire(
  new URL('../packages/core/package.json', import.meta.url),
)('ml-matrix');

const turns = 60;
const random = createRandom();
const vector = (size) => Float64Array.from({ length: size }, () => random() - 0.5);
const column = (values) => Matrix.columnVector(values);
const square = (entries, size) => Matrix.from1DArray(size, size, entries);

/** Identity plus a smooth part, like the equations of edges and ducts. */
function secondKind(size) {
  const entries = Float64Array.from({ length: size * size }, () => (random() - 0.5) / size);
  for (let i = 0; i < size; i++) entries[i * size + i] += 1;
  return entries;
}

/** Symmetric, positive definite. */
function definite(size) {
  const entries = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      const value = i === j ? size : random() - 0.5;
      entries[i * size + j] = value;
      entries[j * size + i] = value;
    }
  return entries;
}

/** Springs between neighbours of a square grid of nodes that all stand on springs of their own. */
function springs(side) {
  const at = (row, of) => row * side + of;
  const pairs = [];
  for (let i = 0; i < side; i++)
    for (let j = 0; j < side; j++) {
      if (i + 1 < side) pairs.push([at(i, j), at(i + 1, j)]);
      if (j + 1 < side) pairs.push([at(i, j), at(i, j + 1)]);
    }
  return {
    dofCount: side * side,
    offsets: Int32Array.from({ length: pairs.length + 1 }, (_, e) => 2 * e),
    dofs: Int32Array.from(pairs.flat()),
    x: Float64Array.from(pairs, ([a]) => a % side),
    y: Float64Array.from(pairs, ([a]) => Math.floor(a / side)),
    matrices: Float64Array.from(pairs.flatMap(() => [1.1, -1, -1, 1.1])),
  };
}

/** The whole matrix of elements with two dofs each. */
function assembled({ dofCount, dofs, matrices }) {
  const full = new Float64Array(dofCount * dofCount);
  for (let e = 0; 2 * e < dofs.length; e++)
    for (let i = 0; i < 2; i++)
      for (let j = 0; j < 2; j++) full[dofs[2 * e + i] * dofCount + dofs[2 * e + j]] += matrices[4 * e + 2 * i + j];
  return full;
}

function product(size) {
  const entries = secondKind(size);
  const x = vector(size);
  const out = new Float64Array(size);
  const [matrix, right] = [square(entries, size), column(x)];
  return [() => multiply(entries, size, size, x, out), () => matrix.mmul(right)];
}

/** As many rows as a reduction has fields, twice as long as its contour has nodes. */
function fieldsProduct(size) {
  const [a, b] = [30, size].map((rows) => ({ values: vector(rows * 562), rows, columns: 562 }));
  const [A, B] = [a, b].map(({ values, rows }) => Matrix.from1DArray(rows, 562, values));
  return [() => timesTransposed(a, b), () => A.mmul(B.transpose())];
}

function elimination(size) {
  const entries = secondKind(size);
  const right = vector(size);
  const [spent, x] = [entries.slice(), right.slice()];
  const [matrix, side] = [square(entries, size), column(right)];
  return [
    () => {
      spent.set(entries);
      x.set(right);
      eliminate(spent, x, size);
    },
    () => new LuDecomposition(matrix).solve(side),
  ];
}

function iteration(size) {
  const entries = secondKind(size);
  const right = vector(size);
  const x = new Float64Array(size);
  const gmres = createGmres(size, 40, 1e-10);
  const result = { iterations: 0, residual: 0 };
  const [matrix, side] = [square(entries, size), column(right)];
  const map = ([from], [to]) => multiply(entries, size, size, from, to);
  return [() => gmres.solve(map, [right], [x], [result]), () => new LuDecomposition(matrix).solve(side)];
}

function ring(size) {
  const right = vector(size);
  const full = new Float64Array(size * size);
  const pairs = [];
  for (let i = 0; i < size; i++)
    for (let k = 0; k <= 3; k++) {
      const j = (i + k) % size;
      const value = k === 0 ? 4 : random() - 0.5;
      pairs.push([i, j, value]);
      full[i * size + j] = value;
      full[j * size + i] = value;
    }
  const [matrix, side] = [square(full, size), column(right)];
  return [
    () => {
      const band = createCyclicBand(size);
      for (const [i, j, value] of pairs) addEntry(band, i, j, value);
      solveCyclicBand(band, [right.slice()]);
    },
    () => new CholeskyDecomposition(matrix).solve(side),
  ];
}

function denseFront(size) {
  const matrices = definite(size);
  const dofs = Int32Array.from({ length: size }, (_, i) => i);
  const element = { dofCount: size, offsets: Int32Array.of(0, size), dofs, x: vector(1), y: vector(1), matrices };
  const right = vector(size);
  const [matrix, side] = [square(matrices, size), column(right)];
  return [() => factorize(element).solve(right, 1), () => new CholeskyDecomposition(matrix).solve(side)];
}

function mesh(side) {
  const elements = springs(side);
  const right = vector(side * side);
  const [matrix, loads] = [square(assembled(elements), side * side), column(right)];
  return [() => factorize(elements).solve(right, 1), () => new CholeskyDecomposition(matrix).solve(loads)];
}

console.log('routine                   size  ours, ms  ratio: minima  medians');
for (const [name, make, sizes] of [
  ['multiply: product', product, [32, 64, 128]],
  ['timesTransposed: product', fieldsProduct, [30, 562]],
  ['eliminate: LU', elimination, [24, 48, 96]],
  ['gmres: LU', iteration, [64, 128, 256]],
  ['cyclic band: Cholesky', ring, [32, 64, 128]],
  ['factorize, one element', denseFront, [48, 96, 192]],
  ['factorize, grid', mesh, [12, 20, 28]],
])
  for (const size of sizes) {
    const [ours, theirs] = make(size);
    const batch = Math.max(1, Math.round(0.5 / summary(times(ours, 9)).median));
    const run = (job) => () => {
      for (let i = 0; i < batch; i++) job();
    };
    const [mine, other] = [[], []];
    for (let turn = 0; turn < turns; turn++) {
      mine.push(...times(run(ours), 1, turn === 0 ? 3 : 0));
      other.push(...times(run(theirs), 1, turn === 0 ? 3 : 0));
    }
    const [own, its] = [summary(mine), summary(other)];
    console.log(
      `${name.padEnd(24)}${String(make === mesh ? size * size : size).padStart(6)}${(own.minimum / batch).toFixed(4).padStart(10)}` +
        `${(its.minimum / own.minimum).toFixed(1).padStart(16)}${(its.median / own.median).toFixed(1).padStart(8)}`,
    );
  }
