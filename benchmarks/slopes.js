// Cost of slopes, in evaluations of the stress model in the same run (residual 1e-7, from memory, hoop stress half way too): `node benchmarks/slopes.js` after
// `npm run build`; `node benchmarks/slopes.js quick` for mirror-symmetric outlines of 64 nodes alone. All take turns, outline by outline; printed are ratios of the minima and of the medians, and the
// evaluation's own milliseconds of processor time. Then what a descent by curvature pays: slopes of a profile, in profiles (`slopesCost` of core/channel).
import {
  areaAgainstPeak,
  channelRoom,
  createCurveNodes,
  createEdgeProfiler,
  createFamily,
  fitCurvature,
  outlineOf,
  reduceJoint,
  slopesCost,
  usualFatigueSlopes,
} from '@lumenfront/core';
import { createEdgeSolver } from '../packages/core/dist/edge/index.js';
import { createCurveRates } from '../packages/core/dist/outline/index.js';
import { actingLoads, createEdgeMemory, createStressModel } from '../packages/core/dist/stress/index.js';
import { referenceJoint as joint } from './joints.js';
import { createRandom, summary } from './timing.js';

const quick = process.argv[2] === 'quick';
const turns = 60;
const batches = [1, 16, 40, 80];
const wall = 0.12;
const loads = { pull: { force: 100 }, cure: { deltaT: -155 } };
const channel = {
  families: ['spline'],
  wall,
  edgeRadius: wall,
  mirror: true,
  reference: { family: 'ellipse', at: [0, 1.25], width: 1, height: 1 },
};
const model = reduceJoint(joint, channel);
const random = createRandom();
/** Processor time, which other programs on the machine do not lengthen; each job often enough for its resolution. */
const milliseconds = (job, often = 4) => {
  const start = process.cpuUsage();
  for (let k = 0; k < often; k++) job();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000 / often;
};

/** Splines like those of the last turn, and 80 motions of the first: its own rates over and over. */
function outlines(mirror, count) {
  const room = { mirror, xMin: -3.2, xMax: 3.2, yMin: wall, yMax: 3.6, edgeRadius: wall, families: {} };
  const family = createFamily('spline', room);
  const start = { x: 0.05, y: 1.1, size: 0.7, stretch: 0.5, sideWarp: 0.2, wave2: 0.06, wave3: -0.04, skew3: 0.03 };
  const nodes = Array.from({ length: 4 }, () => createCurveNodes(count));
  const own = createCurveRates(family.parameters.length, count);
  const rates = createCurveRates(batches.at(-1), count);
  const next = () => {
    const vary = () => family.parameters.map(({ name }) => (start[name] ?? 0) * (1 + 0.01 * (random() - 0.5)));
    for (const one of nodes.slice(1)) family.place(vary(), one);
    const values = vary();
    family.place(values, nodes[0]);
    family.rates(values, nodes[0], own);
    for (const of of Object.keys(rates))
      for (let at = 0; at < rates[of].length; at++) rates[of][at] = own[of][at % own[of].length];
  };
  return { nodes, rates, next };
}

for (const mirror of quick ? [true] : [true, false])
  for (const names of [['pull'], ['pull', 'cure']])
    for (const count of quick ? [64] : [64, 96, 128]) {
      const some = Object.fromEntries(names.map((name) => [name, loads[name]]));
      const cases = names.map((name) => ({ name, factors: { [name]: 1 } }));
      const stress = createStressModel(model, some, cases, { tolerance: 1e-7 });
      const memory = createEdgeMemory();
      const solver = createEdgeSolver(model.basis, count, mirror ? 'half' : 'whole', names.length, 1e-7);
      const acting = actingLoads(model, some);
      const { nodes, rates, next } = outlines(mirror, count);
      const evaluations = [];
      const slopes = batches.map(() => []);
      for (let turn = -10; turn < turns; turn++) {
        next();
        let k = 0;
        const evaluation = milliseconds(() => stress.evaluate(nodes[k++ % nodes.length], mirror, 'halfway', memory));
        solver.solve(nodes[0], acting);
        const taken = batches.map((howMany) => milliseconds(() => solver.slopes(rates, howMany)));
        if (turn < 0) continue;
        evaluations.push(evaluation);
        for (const [b, time] of taken.entries()) slopes[b].push(time);
      }
      const one = summary(evaluations);
      const shown = slopes.map((all, b) => {
        const { minimum, median } = summary(all);
        return `${batches[b]}: ${(minimum / one.minimum).toFixed(1)} / ${(median / one.median).toFixed(1)}`;
      });
      console.log(
        `${mirror ? 'mirror ' : 'general'} ${String(count).padStart(3)} nodes, ${names.length} load(s), evaluation ${one.minimum.toFixed(3)} / ${one.median.toFixed(3)} ms;`,
        `factorisation and slopes of ${shown.join(', ')} evaluations`,
      );
    }

const ellipse = { family: 'ellipse', parameters: { y: 1.1, width: 1.6, height: 1.2 } };
for (const names of [['pull'], ['pull', 'cure']]) {
  const some = Object.fromEntries(names.map((name) => [name, loads[name]]));
  const cases = names.map((name) => ({ name, factors: { [name]: 1 } }));
  const strength = { edge: 'peak', startsAwayFromEdge: false, fatigue: usualFatigueSlopes };
  const task = { joint, channel, model, loads: some, cases, strength, objective: areaAgainstPeak };
  const profiler = createEdgeProfiler(task);
  for (const [pieces, count] of [
    [24, 128],
    [40, 128],
    [40, 192],
  ]) {
    const { outline, values } = fitCurvature(outlineOf(ellipse, channelRoom(task)), pieces, wall);
    const beside = [0, 1, 2, 3].map((k) => values.with(outline.lengthAt, values[outline.lengthAt] * (1 + 0.001 * k)));
    const [profiles, slopes] = [[], []];
    for (let turn = -5; turn < turns / 2; turn++) {
      let k = 0;
      const profile = milliseconds(() => profiler.profile(outline, beside[k++ % beside.length], count));
      const taken = milliseconds(() => profiler.slopes(outline, beside[k++ % beside.length], count));
      if (turn < 0) continue;
      profiles.push(profile);
      slopes.push(taken);
    }
    const [one, all] = [summary(profiles), summary(slopes)];
    console.log(
      `descent, ${pieces} pieces, ${count} nodes, ${names.length} load(s): profile ${one.minimum.toFixed(3)} / ${one.median.toFixed(3)} ms, slopes of ${values.length} values`,
      `${(all.minimum / one.minimum).toFixed(1)} / ${(all.median / one.median).toFixed(1)} profiles; counted as ${slopesCost(values.length)}`,
    );
  }
}
