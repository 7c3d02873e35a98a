// Published problems with two and three objectives, all to be made small.
//
// ZDT: Zitzler, Deb & Thiele, Evol. Comput. 8 (2000) 173-195. DTLZ2: Deb, Thiele, Laumanns & Zitzler, CEC 2002, 825-830.
// BNH: Binh & Korn, MENDEL 1997, 176-182. SRN: Srinivas & Deb, Evol. Comput. 2 (1994) 221-248. TNK: Tanaka, Watanabe,
// Furukawa & Tanino, SMC 1995, 1556-1561. OSY: Osyczka & Kundu, Struct. Optim. 10 (1995) 94-99. CONSTR: Deb, Pratap,
// Agarwal & Meyarivan, IEEE Trans. Evol. Comput. 6 (2002) 182-197, table V.

const unit = (n) => ({ lower: new Array(n).fill(0), upper: new Array(n).fill(1) });

/** ZDT1, 2 and 3 differ in the shape of the front only. */
function zdt(name, shape) {
  return {
    name,
    bounds: unit(30),
    objectives: 2,
    constraints: 0,
    reference: [1.1, 1.1],
    evaluate(x) {
      let sum = 0;
      for (let i = 1; i < x.length; i++) sum += x[i];
      const g = 1 + (9 * sum) / (x.length - 1);
      return { objectives: [x[0], g * shape(x[0], x[0] / g)] };
    },
  };
}

/** Objectives and constraints of two variables as a problem. */
function plane(name, lower, upper, reference, evaluate, constraints = 2) {
  return {
    name,
    bounds: { lower, upper },
    objectives: 2,
    constraints,
    reference,
    evaluate: ([x, y]) => evaluate(x, y),
  };
}

export const multiObjective = [
  zdt('ZDT1', (_, ratio) => 1 - Math.sqrt(ratio)),
  zdt('ZDT2', (_, ratio) => 1 - ratio ** 2),
  zdt('ZDT3', (first, ratio) => 1 - Math.sqrt(ratio) - ratio * Math.sin(10 * Math.PI * first)),
  {
    name: 'ZDT6',
    bounds: unit(10),
    objectives: 2,
    constraints: 0,
    reference: [1.1, 1.1],
    evaluate(x) {
      let sum = 0;
      for (let i = 1; i < x.length; i++) sum += x[i];
      const first = 1 - Math.exp(-4 * x[0]) * Math.sin(6 * Math.PI * x[0]) ** 6;
      const g = 1 + 9 * (sum / (x.length - 1)) ** 0.25;
      return { objectives: [first, g * (1 - (first / g) ** 2)] };
    },
  },
  plane('BNH', [0, 0], [5, 3], [149.6, 54.6], (x, y) => ({
    objectives: [4 * x * x + 4 * y * y, (x - 5) ** 2 + (y - 5) ** 2],
    constraints: [((x - 5) ** 2 + y * y - 25) / 25, (7.7 - (x - 8) ** 2 - (y + 3) ** 2) / 7.7],
  })),
  plane('SRN', [-20, -20], [20, 20], [244.255842, 24.644902], (x, y) => ({
    objectives: [2 + (x - 2) ** 2 + (y - 1) ** 2, 9 * x - (y - 1) ** 2],
    constraints: [(x * x + y * y - 225) / 225, (x - 3 * y + 10) / 10],
  })),
  {
    name: 'DTLZ2',
    bounds: unit(12),
    objectives: 3,
    constraints: 0,
    reference: [1.1, 1.1, 1.1],
    evaluate(x) {
      let radius = 1;
      for (let i = 2; i < x.length; i++) radius += (x[i] - 0.5) ** 2;
      const [a, b] = [(x[0] * Math.PI) / 2, (x[1] * Math.PI) / 2];
      return {
        objectives: [radius * Math.cos(a) * Math.cos(b), radius * Math.cos(a) * Math.sin(b), radius * Math.sin(a)],
      };
    },
  },
  plane('TNK', [0, 0], [Math.PI, Math.PI], [1.1, 1.1], (x, y) => ({
    objectives: [x, y],
    constraints: [
      1 + 0.1 * Math.cos(16 * Math.atan2(x, y)) - x * x - y * y,
      ((x - 0.5) ** 2 + (y - 0.5) ** 2 - 0.5) / 0.5,
    ],
  })),
  {
    name: 'OSY',
    bounds: { lower: [0, 0, 1, 0, 1, 0], upper: [10, 10, 5, 6, 5, 10] },
    objectives: 2,
    constraints: 6,
    reference: [-17, 83],
    evaluate([a, b, c, d, e, f]) {
      return {
        objectives: [
          -(25 * (a - 2) ** 2 + (b - 2) ** 2 + (c - 1) ** 2 + (d - 4) ** 2 + (e - 1) ** 2),
          a * a + b * b + c * c + d * d + e * e + f * f,
        ],
        constraints: [
          (2 - a - b) / 2,
          (a + b - 6) / 6,
          (b - a - 2) / 2,
          (a - 3 * b - 2) / 2,
          ((c - 3) ** 2 + d - 4) / 4,
          (4 - (e - 3) ** 2 - f) / 4,
        ],
      };
    },
  },
  plane('CONSTR', [0.1, 0], [1, 5], [1.1, 9.9], (x, y) => ({
    objectives: [x, (1 + y) / x],
    constraints: [(6 - y - 9 * x) / 6, 1 + y - 9 * x],
  })),
];
