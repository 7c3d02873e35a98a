// What strength costs a search and a study of scatter, as ratios of two things that take turns: scores with limits on strength to scores without, profiles
// that trade strength to profiles of the peak, and made channels judged to made channels solved. The starter brief's joint, one core.
// Run: npm run build && node benchmarks/channel.js [rounds, default 9]
import {
  channelRoom,
  createChannelScorer,
  createTask,
  outlineOf,
  readBrief,
  reduceJoint,
  scoreAt,
  scoreSize,
  starterBrief,
} from '@lumenfront/core';
import { findScatterFront, randomFrom, studyScatter } from '@lumenfront/optimizer';
import { withRoomForScatter } from '../packages/optimizer/dist/scatter/index.js';
import { createRandom, summary } from './timing.js';

const rounds = Number(process.argv[2] ?? 9);
const outlines = 60;
const brief = await readBrief(starterBrief);
const task = createTask(brief, reduceJoint(brief.joint, brief.channel));
const asking = (strength) => ({ ...task, strength: { ...task.strength, ...strength } });
const trading = (cost) => ({ ...task, objective: { size: 'area', cost } });

const random = createRandom();
const plain = createChannelScorer(task);
const score = new Float64Array(scoreSize);
const drawn = plain.families.flatMap(({ name, parameters }, family) => {
  if (name === 'inset') return [];
  const found = [];
  for (let tries = 0; found.length < outlines && tries < 200_000; tries++) {
    const calm = random();
    const values = parameters.map(
      ({ lower, upper }) => (lower + upper) / 2 + calm * (upper - lower) * (random() - 0.5),
    );
    plain.score(family, values, score);
    if (score[scoreAt.peak] > 0) found.push({ family, values });
  }
  return found;
});

const scoring = (of) => {
  const scorer = createChannelScorer(of);
  return () => {
    for (const { family, values } of drawn) scorer.score(family, values, score);
  };
};
const profiling = (of) => {
  const scorer = createChannelScorer(of);
  return () => {
    for (const { family, values } of drawn) scorer.profile(values, scorer.createProfile(family, 96));
  };
};

console.log(`${drawn.length} outlines, minimum / median of ${rounds} rounds`);
compare('score, leastRetained to none', scoring(asking({ leastRetained: 0.5 })), scoring(task));
compare(
  'score, startsAwayFromEdge to leastRetained',
  scoring(asking({ startsAwayFromEdge: true })),
  scoring(asking({ leastRetained: 0.5 })),
);
for (const cost of ['loadFactor', 'strengthRetained'])
  compare(`profile, ${cost} to peak`, profiling(trading(cost)), profiling(task));
compare('profile, startsAwayFromEdge to none', profiling(asking({ startsAwayFromEdge: true })), profiling(task));
compare('profile, leastRetained to none', profiling(asking({ leastRetained: 0.5 })), profiling(task));

const scatter = { ...brief.scatter, samples: 200 };
const roomy = withRoomForScatter(brief, scatter);
const channel = { family: 'ellipse', parameters: { y: 1.3, width: 1.6, height: 0.8 } };
const outline = outlineOf(channel, channelRoom(roomy));
const studying = () =>
  studyScatter(roomy, outline, scatter, { strength: brief.strength, allow: brief.allow, random: randomFrom(1) });
// A front of one design: its made channels are solved for their peaks, and nothing else.
const solving = () =>
  findScatterFront(roomy, [{ ...channel, area: 1, peak: 1 }], { ...scatter, samples: 72 }, { seed: 1, evaluations: 0 });
compare('200 made channels, peak and strength to peak', studying, solving);

/** Prints both, and the ratio of the one to the other, round by round. */
function compare(title, one, other) {
  const rows = Array.from({ length: rounds + 2 }, () => [one, other].map(timed)).slice(2);
  const [first, second] = [0, 1].map((k) => summary(rows.map((row) => row[k])));
  const ratio = summary(rows.map(([a, b]) => a / b));
  const show = ({ minimum, median }) => `${minimum.toFixed(1)} / ${median.toFixed(1)}`;
  console.log(
    `${title}: ${show(first)} ms to ${show(second)} ms, ratio ${ratio.minimum.toFixed(2)} / ${ratio.median.toFixed(2)}`,
  );
}

function timed(job) {
  const start = performance.now();
  job();
  return performance.now() - start;
}
