// Milliseconds to condense a joint, and to solve one outline in it (pull and cure with their supports, two cases, peaks), on one core.
// Run: npm run build && node benchmarks/stress.js
import {
  createCurveNodes,
  createFamily,
  createOutlineMeasure,
  createStressModel,
  measureOutline,
  reduceJoint,
} from '@lumenfront/core';
import { teeFillerBorder } from '../packages/core/dist/host/index.js';
import { familyNames } from '../packages/core/dist/outline/index.js';
import { referenceJoint as joint } from './joints.js';
import { createRandom, summary, times } from './timing.js';

const count = 64;
const wall = 0.12;
const edgeRadius = 0.12;
const outlines = 300;
const rounds = 5;

const loads = { pull: { force: 100 }, cure: { deltaT: -155 } };
const cases = [
  { name: 'cured', factors: { cure: 1 } },
  { name: 'pulled', factors: { cure: 1, pull: 0.2255 } },
];

const show = (values) => {
  const { minimum, median } = summary(values);
  return `${minimum.toFixed(3)} / ${median.toFixed(3)}`;
};

const [cold, ...warm] = times(() => reduceJoint(joint, { wall, edgeRadius }), 8, 0);
console.log(
  `condensing the joint: ${cold.toFixed(0)} ms in a fresh process,`,
  `then ${show(warm)} (minimum / median of 7)`,
);

const model = reduceJoint(joint, { wall, edgeRadius });
const border = teeFillerBorder(joint.bendRadius);
const measure = createOutlineMeasure();
const random = createRandom();

/** A value of a parameter: ranges about zero are departures from a plain outline, few of which are admissible unless small. */
function drawValue({ lower, upper }) {
  const share = random();
  return lower < 0 ? 0.2 * (lower + share * (upper - lower)) : lower + share ** 1.5 * (upper - lower);
}

/** Admissible outlines of a family, drawn at random. */
function draw(family) {
  const found = [];
  for (let trial = 0; found.length < outlines && trial < 500_000; trial++) {
    const nodes = createCurveNodes(count);
    const values = family.parameters.map(drawValue);
    family.place(values, nodes);
    measureOutline(nodes, border, measure);
    const { simple, wall: least, edgeRadius: radius } = measure;
    if (simple && least >= wall && radius >= edgeRadius) found.push(nodes);
  }
  return found;
}

console.log(
  `one outline, ${count} nodes, degree ${model.basis.degree}, minimum / median over outlines, each the best of ${rounds} rounds`,
);
for (const mirror of [true, false]) {
  const room = { mirror, xMin: -3.2, xMax: 3.2, yMin: wall, yMax: 3.6, edgeRadius, bendRadius: joint.bendRadius };
  for (const name of familyNames) {
    const drawn = draw(createFamily(name, room));
    for (const tolerance of [1e-11, 1e-7]) {
      const stress = createStressModel(model, loads, cases, { tolerance });
      let iterations = 0;
      const best = new Float64Array(drawn.length).fill(Number.POSITIVE_INFINITY);
      for (let round = 0; round < rounds; round++)
        drawn.forEach((nodes, k) => {
          const start = performance.now();
          const { iterations: needed } = stress.evaluate(nodes, mirror, 'cases');
          best[k] = Math.min(best[k], performance.now() - start);
          if (round === 0) iterations += needed;
        });
      console.log(
        `${name.padEnd(9)} ${mirror ? 'mirror' : 'free  '} residual ${tolerance.toExponential(0)}: ${show(best)} ms,`,
        `${(iterations / drawn.length / 2).toFixed(1)} iterations a load, ${drawn.length} outlines`,
      );
    }
  }
}
