// What pockets cost: an evaluation in each against one in a tee at the same nodes, two loads with two supports, by turns; and a table of heights, reduction by reduction.
// Ratios and CPU seconds, since others may use the machine. Run: npm run build && node benchmarks/pockets.js [rounds, default 200]
import { createCurveNodes, createStressModel, planHeights, reduceJoint } from '@lumenfront/core';
import { joints, pockets } from './joints.js';
import { summary } from './timing.js';

const rounds = Number(process.argv[2] ?? 200);
const tee = Object.values(joints)[0];

function ellipse(width, height, [x, y], count) {
  const nodes = createCurveNodes(count);
  for (let j = 0; j < count; j++) {
    const s = -Math.PI / 2 + ((j + 0.5) * 2 * Math.PI) / count;
    const [c, d] = [Math.cos(s), Math.sin(s)];
    nodes.x[j] = x + (width / 2) * c;
    nodes.y[j] = y + (height / 2) * d;
    nodes.dx[j] = (-width / 2) * d;
    nodes.dy[j] = (height / 2) * c;
    nodes.ddx[j] = (-width / 2) * c;
    nodes.ddy[j] = (-height / 2) * d;
  }
  return nodes;
}

const cpu = (job) => {
  const start = process.cpuUsage();
  const result = job();
  const { user, system } = process.cpuUsage(start);
  return { result, seconds: (user + system) / 1e6 };
};

/** One evaluation, ready to be timed. */
function evaluation(joint, wish, loads, [width, height], at, count, mirror) {
  const model = reduceJoint(joint, wish);
  const cases = Object.keys(loads).map((name) => ({ name, factors: { [name]: 1 } }));
  const stress = createStressModel(model, loads, cases, { tolerance: 1e-7 });
  const nodes = ellipse(width, height, at, count);
  return { degree: model.basis.degree, run: () => stress.evaluate(nodes, mirror && stress.symmetric, 'cases') };
}

const middleOf = ({ layup, overlaminate, pocket }) => {
  const form = pocket.form ?? pocket;
  const level = (count) => (layup ?? overlaminate).slice(0, count).reduce((sum, { thickness }) => sum + thickness, 0);
  if (form.made === 'cut') return (level(form.first) + level(form.first + form.count)) / 2;
  return level(form.below) + (form.faces === 'both-flat' ? 0 : form.height / 2);
};

console.log('an evaluation over one in a tee at the same nodes, minimum / median of', rounds, 'by turns');
for (const [title, { joint, wall, edgeRadius, largest }] of Object.entries(pockets)) {
  if ((joint.pocket.form ?? joint.pocket).follows !== undefined || joint.pocket.in === 'skin') continue;
  const onTee = joint.kind === 'tee';
  const loads = onTee
    ? { pull: { force: 30 }, cure: { deltaT: -60 } }
    : { stretch: { strain: 0.001, force: 0 }, cure: { deltaT: -60 } };
  for (const count of [64, 96])
    for (const mirror of onTee ? [false] : [true, false]) {
      const size = [0.3, 0.25];
      const one = evaluation(joint, { wall, edgeRadius, largest }, loads, size, [0, middleOf(joint)], count, mirror);
      const other = evaluation(
        tee,
        { wall: 0.12, edgeRadius: 0.12 },
        { pull: { force: 100 }, cure: { deltaT: -155 } },
        [0.9, 0.8],
        [0, 1.2],
        count,
        mirror,
      );
      const ratios = [];
      const best = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
      for (let round = 0; round < rounds; round++) {
        const spent = [one, other].map(({ run }) => {
          const start = performance.now();
          run();
          return performance.now() - start;
        });
        spent.forEach((ms, k) => {
          best[k] = Math.min(best[k], ms);
        });
        ratios.push(spent[0] / spent[1]);
      }
      console.log(
        `${title.padEnd(50)} ${count} nodes ${mirror ? 'mirror' : 'free  '}: ${(best[0] / best[1]).toFixed(2)} / ${summary(ratios).median.toFixed(2)}, degree ${one.degree} (tee ${other.degree})`,
      );
    }
}

const follows = Object.entries(pockets).find(([, { joint }]) => joint.pocket.follows !== undefined);
const { joint, ...wish } = follows[1];
for (let round = 0; round < 2; round++) {
  const plan = planHeights(joint, wish);
  const made = plan.heights.map((height) => cpu(() => plan.reduce(height)));
  const joined = cpu(() => plan.join(made.map(({ result }) => result)));
  const all = made.map(({ seconds }) => seconds);
  const lanes = [0, 0];
  for (const seconds of all) lanes[lanes[0] <= lanes[1] ? 0 : 1] += seconds;
  console.log(
    `${follows[0]}: ${all.length} heights, CPU seconds ${all.map((seconds) => seconds.toFixed(2)).join(', ')}, joined ${joined.seconds.toFixed(2)}; on two cores ${(Math.max(...lanes) + joined.seconds).toFixed(2)}`,
  );
}
