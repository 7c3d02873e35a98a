/**
 * What briefs of random tees that are accepted give: four briefs to a joint, each with loads and cases of its own, and an outline at the limits.
 * Run: npm run build && node benchmarks/accepted.js [briefs, default 40] [seed, default 1] [evaluations of a front to a joint, default 0: none] [word of a kind, default all]
 * Counted: shares of strength retained that are neither a number nor explained; scores more than 1 % from the report of the same outline, and reports that
 * twice the nodes change by more than 1 %, each of them where the report is not in doubt itself; designs of fronts that the model's own estimate leaves out.
 */
import {
  createChannelReporter,
  createChannelScorer,
  createCurveNodes,
  createStressModel,
  createTask,
  outlineOf,
  reduceJoint,
  resolveBrief,
  scoreAt,
  scoreSize,
  wholeRoom,
} from '@lumenfront/core';
import { createChannelEvaluator, findFront } from '@lumenfront/optimizer';
import { kindsOfOutlines, kindsOfTees, outlineAtLimits, randomFrom, randomTee } from './random-tees.js';

const [wanted = 40, seed = 1, evaluations = 0] = process.argv.slice(2, 5).map(Number);
const word = process.argv[5] ?? '';
const kinds = kindsOfTees.filter((kind) => kind.includes(word));
const briefsEach = 4;
const told = 0.01;

const loadNames = ['pull', 'side', 'moment', 'cure', 'pressure'];
const usual = { pull: 'force', side: 'force', moment: 'moment', cure: 'deltaT', pressure: 'pressure' };

/** Loads of a hundredth to ten times the usual, some of no size or turned round; one to four cases of one to five of them. */
function randomLoads(data, random) {
  const loads = Object.fromEntries(
    loadNames.map((name) => {
      const size = data.loads[name][usual[name]];
      const sign = name !== 'pressure' && random.next() < 0.15 ? -1 : 1;
      return [name, { [usual[name]]: random.next() < 0.1 ? 0 : sign * size * random.scaled(0.01, 10) }];
    }),
  );
  const cases = Object.fromEntries(
    Array.from({ length: random.whole(1, 4) }, (_, c) => {
      const acting = loadNames.filter(() => random.next() < 0.5);
      const factors = (acting.length > 0 ? acting : [random.one(loadNames)]).map((name) => [
        name,
        random.between(0, 1.5),
      ]);
      return [`case ${c}`, Object.fromEntries(factors)];
    }),
  );
  return { ...data, loads, cases };
}

const count = {
  briefs: 0,
  refused: 0,
  unmet: 0,
  retained: 0,
  explained: 0,
  unexplained: 0,
  scores: 0,
  nodes: 0,
  doubted: 0,
};
const fronts = { joints: 0, designs: 0, beyond: 0, emptied: 0 };
const percent = (share) => `${(100 * share).toFixed(2)} %`;
const say = (kind, what) => console.log(`${kind}: ${what}`);

/** Counts a share of strength retained by whether it is one, or why it is none is said. */
function countRetained(kind, { retained, reason }) {
  if (Number.isFinite(retained) && retained > 0) count.retained++;
  else if (reason) count.explained++;
  else {
    count.unexplained++;
    say(kind, `retained ${retained}, without a reason`);
  }
}

/** Largest difference of the peaks of two solutions, as shares of the largest hoop stress of each case. */
function differenceOf(design, edge, cases) {
  return Math.max(
    ...cases.map(({ name }, c) => {
      const { peak, least } = design.cases[name];
      return Math.abs(edge.cases[c].peak - peak) / Math.max(Math.abs(peak), Math.abs(least), Number.MIN_VALUE);
    }),
  );
}

function tryOutline(kind, brief, model, random) {
  const found = outlineAtLimits(random.one(kindsOfOutlines), brief, random);
  if (found === undefined) return;
  const { family, values } = found;
  const task = createTask({ ...brief, channel: { ...brief.channel, mirror: family.mirror } }, model);
  const scorer = createChannelScorer(task);
  const score = new Float64Array(scoreSize);
  scorer.score(
    scorer.families.findIndex(({ name }) => name === family.name),
    values,
    score,
  );
  const curve = { ...family, place: (nodes) => family.place(values, nodes) };
  let evaluated;
  try {
    evaluated = createChannelReporter(task)(curve);
  } catch (error) {
    count.unmet++;
    return say(kind, error.message);
  }
  const { design } = evaluated;
  count.briefs++;
  const report = evaluated.strength();
  for (const one of [evaluated.strengthSummary(), ...Object.values(report.cases)]) countRetained(kind, one);
  if (Math.max(Math.abs(design.change), design.accuracy ?? 0) > told) {
    count.doubted++;
    return;
  }
  const nodes = createCurveNodes(2 * design.nodes);
  family.place(values, nodes);
  const stress = createStressModel(model, brief.loads, brief.cases);
  const twice = differenceOf(design, stress.evaluate(nodes, family.mirror && stress.symmetric), brief.cases);
  if (!(twice <= told)) {
    count.nodes++;
    say(kind, `twice ${design.nodes} nodes change a peak by ${percent(twice)}, told ${percent(design.change)}`);
  }
  const { peak, least } = design.cases[design.worstCase];
  const off = Math.abs(score[scoreAt.peak] - design.peak) / Math.max(Math.abs(peak), Math.abs(least));
  if (score[scoreAt.room] <= 0 && score[scoreAt.edgeRadius] <= 0 && !(off <= told)) {
    count.scores++;
    say(kind, `score ${percent(off)} from the report: ${score[scoreAt.peak]}, ${design.peak} MPa`);
  }
}

/** How much of a front the model's own estimate leaves out. */
async function tryFront(kind, brief, model) {
  const task = createTask(brief, model);
  const report = createChannelReporter(task);
  const { designs } = await findFront(createChannelEvaluator(task), { seed, evaluations });
  const doubted = designs.filter((found) => {
    const { change, accuracy = 0 } = report(outlineOf(found, wholeRoom(task))).design;
    return Math.max(Math.abs(change), accuracy) > told;
  });
  fronts.joints++;
  fronts.designs += designs.length;
  fronts.beyond += doubted.length;
  if (doubted.length === designs.length) fronts.emptied++;
  say(
    kind,
    `front of ${designs.length}, ${doubted.length} left out by the estimate; at the limits ${percent(model.accuracy ?? 0)}`,
  );
}

for (let j = 0; count.briefs < wanted; j++) {
  const kind = `${kinds[j % kinds.length]} ${j}`;
  const random = randomFrom(seed * 100003 + j);
  const data = randomTee(kinds[j % kinds.length], random);
  let model;
  for (let b = 0; b < briefsEach && count.briefs < wanted; b++) {
    const brief = await resolveBrief(randomLoads(data, random)).catch(({ problems }) => {
      count.refused++;
      if (problems === undefined) throw new Error(`${kind}: no list of problems`);
    });
    if (brief === undefined) continue;
    model ??= reduceJoint(brief.joint, brief.channel);
    tryOutline(kind, brief, model, random);
    if (b === 0 && evaluations > 0) await tryFront(kind, brief, model);
  }
}
console.log(
  `${count.briefs} briefs (${count.refused} refused, ${count.unmet} outlines refused): retained in ${count.retained}, explained why not in ${count.explained},`,
  `unexplained ${count.unexplained}; scores beyond 1 %: ${count.scores}, changed by twice the nodes: ${count.nodes}, in doubt: ${count.doubted}`,
);
if (evaluations > 0)
  console.log(
    `${fronts.joints} fronts: ${fronts.beyond} of ${fronts.designs} designs left out by the estimate, all of a front in ${fronts.emptied}`,
  );
