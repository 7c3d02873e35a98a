// Sums of squares for testing minimisers without derivatives: More, Garbow & Hillstrom, ACM Trans. Math. Softw. 7 (1981)
// 17-41. The number in brackets is the problem's number there. `start` is the standard start; `least` the least value
// that is reached from it.

/** Sum of squares of `count` residuals. */
function sumOfSquares(count, residual) {
  return (x) => {
    let sum = 0;
    for (let i = 1; i <= count; i++) sum += residual(i, x) ** 2;
    return sum;
  };
}

const squares = (...values) => values.reduce((sum, value) => sum + value * value, 0);
const repeat = (pattern, times) => Array.from({ length: times }, () => pattern).flat();

const bardData = [0.14, 0.18, 0.22, 0.25, 0.29, 0.32, 0.35, 0.39, 0.37, 0.58, 0.73, 0.96, 1.34, 2.1, 4.39];
const gaussianData = [
  0.0009, 0.0044, 0.0175, 0.054, 0.1295, 0.242, 0.3521, 0.3989, 0.3521, 0.242, 0.1295, 0.054, 0.0175, 0.0044, 0.0009,
];
const kowalikData = [0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246];
const kowalikTimes = [4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625];

function helicalValley([x1, x2, x3]) {
  // The paper's angle runs over (-1/4, 3/4) and jumps where x1 = 0.
  const angle = Math.atan(x2 / x1) / (2 * Math.PI) + (x1 < 0 ? 0.5 : 0);
  return squares(10 * (x3 - 10 * angle), 10 * (Math.hypot(x1, x2) - 1), x3);
}

function watson(x) {
  let sum = squares(x[0], x[1] - x[0] ** 2 - 1);
  for (let i = 1; i <= 29; i++) {
    const t = i / 29;
    let slope = 0;
    let value = 0;
    for (let j = x.length - 1; j >= 0; j--) {
      value = value * t + x[j];
      if (j > 0) slope = slope * t + j * x[j];
    }
    sum += (slope - value * value - 1) ** 2;
  }
  return sum;
}

function trigonometric(x) {
  const n = x.length;
  const cosines = x.reduce((sum, value) => sum + Math.cos(value), 0);
  return sumOfSquares(n, (i) => n - cosines + i * (1 - Math.cos(x[i - 1])) - Math.sin(x[i - 1]))(x);
}

function extendedRosenbrock(x) {
  let sum = 0;
  for (let i = 0; i < x.length; i += 2) sum += squares(10 * (x[i + 1] - x[i] ** 2), 1 - x[i]);
  return sum;
}

function extendedPowell(x) {
  let sum = 0;
  for (let i = 0; i < x.length; i += 4) {
    const [a, b, c, d] = x.slice(i, i + 4);
    sum += squares(a + 10 * b, Math.sqrt(5) * (c - d), (b - 2 * c) ** 2, Math.sqrt(10) * (a - d) ** 2);
  }
  return sum;
}

function variablyDimensioned(x) {
  const weighted = x.reduce((sum, value, i) => sum + (i + 1) * (value - 1), 0);
  return x.reduce((sum, value) => sum + (value - 1) ** 2, 0) + weighted ** 2 + weighted ** 4;
}

function penaltyOne(x) {
  const length = x.reduce((sum, value) => sum + value * value, 0) - 0.25;
  return x.reduce((sum, value) => sum + 1e-5 * (value - 1) ** 2, 0) + length ** 2;
}

export const moreGarbowHillstrom = [
  { name: 'Rosenbrock', start: [-1.2, 1], least: 0, value: extendedRosenbrock }, // (1)
  {
    name: 'Freudenstein-Roth', // (2); the least value overall is 0, elsewhere
    start: [0.5, -2],
    least: 48.9842536792,
    value: ([x, y]) => squares(-13 + x + ((5 - y) * y - 2) * y, -29 + x + ((y + 1) * y - 14) * y),
  },
  {
    name: 'Powell badly scaled', // (3)
    start: [0, 1],
    least: 0,
    value: ([x, y]) => squares(1e4 * x * y - 1, Math.exp(-x) + Math.exp(-y) - 1.0001),
  },
  {
    name: 'Brown badly scaled', // (4)
    start: [1, 1],
    least: 0,
    value: ([x, y]) => squares(x - 1e6, y - 2e-6, x * y - 2),
  },
  {
    name: 'Beale', // (5)
    start: [1, 1],
    least: 0,
    value: ([x, y]) => squares(1.5 - x * (1 - y), 2.25 - x * (1 - y ** 2), 2.625 - x * (1 - y ** 3)),
  },
  {
    name: 'Jennrich-Sampson', // (6)
    start: [0.3, 0.4],
    least: 124.362182356,
    value: sumOfSquares(10, (i, [x, y]) => 2 + 2 * i - (Math.exp(i * x) + Math.exp(i * y))),
  },
  { name: 'Helical valley', start: [-1, 0, 0], least: 0, value: helicalValley }, // (7)
  {
    name: 'Bard', // (8)
    start: [1, 1, 1],
    least: 8.21487730657e-3,
    value: sumOfSquares(15, (i, x) => bardData[i - 1] - (x[0] + i / ((16 - i) * x[1] + Math.min(i, 16 - i) * x[2]))),
  },
  {
    name: 'Gaussian', // (9)
    start: [0.4, 1, 0],
    least: 1.12793276961e-8,
    value: sumOfSquares(15, (i, x) => x[0] * Math.exp((-x[1] * ((8 - i) / 2 - x[2]) ** 2) / 2) - gaussianData[i - 1]),
  },
  {
    name: 'Box 3D', // (12)
    start: [0, 10, 20],
    least: 0,
    value: sumOfSquares(10, (i, x) => {
      const t = i / 10;
      return Math.exp(-t * x[0]) - Math.exp(-t * x[1]) - x[2] * (Math.exp(-t) - Math.exp(-10 * t));
    }),
  },
  { name: 'Powell singular', start: [3, -1, 0, 1], least: 0, value: extendedPowell }, // (13)
  {
    name: 'Wood', // (14)
    start: [-3, -1, -3, -1],
    least: 0,
    value: ([a, b, c, d]) =>
      squares(
        10 * (b - a * a),
        1 - a,
        Math.sqrt(90) * (d - c * c),
        1 - c,
        Math.sqrt(10) * (b + d - 2),
        (b - d) / Math.sqrt(10),
      ),
  },
  {
    name: 'Kowalik-Osborne', // (15)
    start: [0.25, 0.39, 0.415, 0.39],
    least: 3.07505603849e-4,
    value: sumOfSquares(11, (i, x) => {
      const u = kowalikTimes[i - 1];
      return kowalikData[i - 1] - (x[0] * (u * u + u * x[1])) / (u * u + u * x[2] + x[3]);
    }),
  },
  {
    name: 'Brown-Dennis', // (16)
    start: [25, 5, -5, -1],
    least: 85822.2016264,
    value: sumOfSquares(20, (i, x) => {
      const t = i / 5;
      return (x[0] + t * x[1] - Math.exp(t)) ** 2 + (x[2] + x[3] * Math.sin(t) - Math.cos(t)) ** 2;
    }),
  },
  {
    name: 'Biggs EXP6', // (18)
    start: [1, 2, 1, 1, 1, 1],
    least: 0,
    value: sumOfSquares(13, (i, x) => {
      const t = i / 10;
      const measured = Math.exp(-t) - 5 * Math.exp(-10 * t) + 3 * Math.exp(-4 * t);
      return x[2] * Math.exp(-t * x[0]) - x[3] * Math.exp(-t * x[1]) + x[5] * Math.exp(-t * x[4]) - measured;
    }),
  },
  { name: 'Watson 6', start: repeat([0], 6), least: 2.28767005355e-3, value: watson }, // (20)
  { name: 'Trigonometric 5', start: repeat([1 / 5], 5), least: 0, value: trigonometric }, // (26)
  { name: 'Trigonometric 10', start: repeat([1 / 10], 10), least: 2.79506122e-5, value: trigonometric },
  { name: 'Extended Rosenbrock 10', start: repeat([-1.2, 1], 5), least: 0, value: extendedRosenbrock }, // (21)
  { name: 'Extended Powell 8', start: repeat([3, -1, 0, 1], 2), least: 0, value: extendedPowell }, // (22)
  {
    name: 'Variably dimensioned 8', // (25)
    start: Array.from({ length: 8 }, (_, i) => 1 - (i + 1) / 8),
    least: 0,
    value: variablyDimensioned,
  },
  { name: 'Penalty I 4', start: [1, 2, 3, 4], least: 2.24997750089e-5, value: penaltyOne }, // (23)
];
