// Strength of the whole joint against the meshed section: random joints of unusual kinds, random outlines at the limits of wall and edge
// radius, cases of cure, pull, side load, moment and pull on what is cured. The reference is judged all over the section (`dense-places.js`), on
// two meshes; where these differ by more than 1 % it does not stand, and the entry is counted apart.
// Run: npm run build && node benchmarks/strength.js [joints, default 4, or their numbers: 1,6,7] [seed, default 1] [file]
// Prints as it goes. `file` keeps what was meshed, a line an outline: a run that was broken off goes on, a later engine is held against it at once.
import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import {
  createChannelReporter,
  createCurveNodes,
  createStrengthModel,
  createStressModel,
  meshedStrength,
  nodesNeeded,
  reduceJoint,
  resolveBrief,
} from '@lumenfront/core';
import { densePlaces } from './dense-places.js';
import { kindsOfOutlines, kindsOfTees, outlineAtLimits, randomFrom, randomTee } from './random-tees.js';
import { summary } from './timing.js';

const wanted = process.argv[2] ?? '4';
const joints = wanted.includes(',')
  ? wanted.split(',').map(Number)
  : Array.from({ length: Number(wanted) }, (_, j) => j);
const seed = Number(process.argv[3] ?? 1);
const file = process.argv[4];

const outlinesEach = 1;
/** Of the two meshes, finer first. */
const meshes = [0.65, 0.9];
/** Cure that is held in a case beside the pull, as a share of the cure that breaks the joint. */
const held = 0.4;

const kept = new Map();
if (file !== undefined && existsSync(file))
  for (const line of readFileSync(file, 'utf8').trim().split('\n')) {
    const { key, ...rest } = JSON.parse(line);
    kept.set(key, rest);
  }

const percent = (share) => (100 * share).toFixed(2);
const first = (places) => places.reduce((a, b) => (b.factor < a.factor ? b : a), { factor: Number.POSITIVE_INFINITY });
const leastOf = (survey) => first(survey.places).factor;
const placeIn = (survey, place) => survey.places.find((one) => one.place === place);

/** Meshed surveys of one outline, finer mesh first. */
function meshedOf(key, task, nodes) {
  const known = kept.get(key);
  if (known !== undefined) return known;
  const made = { cases: task.cases, surveys: meshes.map((coarseness) => meshedStrength(task, nodes, { coarseness })) };
  if (file !== undefined) appendFileSync(file, `${JSON.stringify({ key, ...made })}\n`);
  return made;
}

const rows = [];
const retained = [];
const timings = [];
const finerMoves = [];
let failed = 0;

function compare(title, fast, [fine, coarse], apart) {
  fast.forEach((survey, c) => {
    const [mine, theirs] = [first(survey.places), first(fine[c].places)];
    for (const { place, factor, x, y } of survey.places) {
      const other = placeIn(fine[c], place);
      if (other === undefined || (factor === 0 && other.factor === 0)) continue;
      const error = Math.abs((placeIn(coarse[c], place)?.factor ?? Number.NaN) / other.factor - 1);
      const row = { title, name: survey.name, place, factor, other, error, difference: factor / other.factor - 1 };
      rows.push({ ...row, what: 'place', first: theirs.factor, x, y });
    }
    if (mine.place === undefined || theirs.place === undefined) return;
    const error = Math.abs(leastOf(coarse[c]) / theirs.factor - 1);
    const difference = mine.factor / theirs.factor - 1;
    const misplaced = mine.place !== theirs.place && placeIn(fine[c], mine.place)?.factor / theirs.factor - 1 > 0.02;
    rows.push({
      what: 'first',
      title,
      name: survey.name,
      place: mine.place,
      factor: mine.factor,
      other: theirs,
      error,
      difference,
      misplaced,
    });
    if (apart !== undefined) {
      const share = [mine.factor / leastOf(apart.fast[c]), theirs.factor / leastOf(apart.fine[c])];
      if (share.every(Number.isFinite))
        retained.push({ title, name: survey.name, difference: share[0] - share[1], share });
    }
  });
}

for (const j of joints) {
  const kind = kindsOfTees[j % kindsOfTees.length];
  const random = randomFrom(seed * 100003 + j);
  const brief = await resolveBrief(randomTee(kind, random)).catch(() => undefined);
  if (brief === undefined) continue;
  const { joint, channel } = brief;
  const title = `${kind} ${j}`;
  let model;
  try {
    model = reduceJoint(joint, channel);
  } catch (error) {
    console.log(`${title}: refused, ${error.message.split('\n')[0]}`);
    continue;
  }
  const { pull, side, moment, cure } = brief.loads;
  const loads = { pull, side, moment, cure };
  const plain = [
    { name: 'cured', factors: { cure: 1 } },
    { name: 'pulled', factors: { pull: 1 } },
    { name: 'pushed', factors: { side: 1, pull: 0.3 } },
    { name: 'bent', factors: { moment: 1 } },
  ];
  const curedFactor = leastOf(
    createStrengthModel(model, joint, loads, plain, { edge: 'peak' }).surveyWithoutChannel()[0],
  );
  // Its own points as well: they may be worse than all dense ones.
  const places = (whole) => {
    const dense = densePlaces(joint, whole);
    return { points: [...dense.points, ...model.places.points], rows: [...dense.rows, ...model.places.rows] };
  };
  const task = {
    ...{ joint, loads },
    cases: [...plain, { name: 'served', factors: { cure: Number((held * curedFactor).toPrecision(2)), pull: 1 } }],
  };
  const attempt = (key, outline) => {
    const nodes = outline && createCurveNodes(512);
    outline?.family.place(outline.values, nodes);
    const { cases, surveys } = meshedOf(
      `${seed}/${j}/${key}`,
      { ...task, model: { ...model, places: places(outline === undefined) } },
      nodes,
    );
    const strength = createStrengthModel(model, joint, loads, cases, { edge: 'peak' });
    if (outline === undefined) return { fast: strength.surveyWithoutChannel(), surveys };
    const { family, values } = outline;
    const own = createCurveNodes(2 * nodesNeeded(nodes, family.fewestNodes));
    family.place(values, own);
    const stress = createStressModel(model, loads, cases);
    const searched = strength.survey(stress.evaluate(own, false));
    // As it is told: with the model's finer fields.
    const outlineItself = { mirror: false, fewestNodes: family.fewestNodes, place: (at) => family.place(values, at) };
    const told = createChannelReporter({ joint, channel, model, loads, cases })(outlineItself);
    const fast = strength.survey(told.edge);
    finerMoves.push(...fast.map((one, c) => Math.abs(leastOf(searched[c]) / leastOf(one) - 1)));
    const few = createCurveNodes(64);
    family.place(values, few);
    const rounds = Array.from({ length: 12 }, () => {
      const start = process.cpuUsage().user;
      for (let k = 0; k < 4; k++) stress.evaluate(few, false, 'cases');
      const middle = process.cpuUsage().user;
      const solved = stress.evaluate(few, false, 'cases');
      const judging = process.cpuUsage().user;
      for (let k = 0; k < 4; k++) strength.evaluate(solved);
      return [middle - start, process.cpuUsage().user - judging];
    });
    timings.push([0, 1].map((k) => summary(rounds.map((round) => round[k])).minimum / 4000));
    return { fast, surveys };
  };
  try {
    const without = attempt('none', undefined);
    compare(`${title}, none`, without.fast, without.surveys);
    for (let o = 0; o < outlinesEach; o++) {
      const outlineKind =
        kindsOfOutlines[(j * outlinesEach + o + Math.floor(j / kindsOfTees.length)) % kindsOfOutlines.length];
      const outline = outlineAtLimits(outlineKind, brief, random);
      if (outline === undefined) continue;
      const { fast, surveys } = attempt(o, outline);
      compare(`${title}, ${outlineKind}`, fast, surveys, { fast: without.fast, fine: without.surveys[0] });
    }
  } catch (error) {
    failed++;
    console.log(`${title}: ${error.message}`);
  }
  const worst = rows
    .filter((row) => row.title.startsWith(`${title},`) && row.error < 0.01)
    .sort((a, b) => Math.abs(b.difference) - Math.abs(a.difference))
    .filter(({ what }, k) => what === 'first' || k < 4);
  for (const { what, title: of, name, place, factor, other, difference, error, x, y } of worst)
    if (Math.abs(difference) > 0.01)
      console.log(
        `${of}, ${name}, ${what} ${place}: ${factor.toPrecision(4)} for ${other.factor.toPrecision(4)}${what === 'first' ? ` (${other.place})` : ''}, ${percent(difference)} %, mesh ${percent(error)} %` +
          (x === undefined
            ? ''
            : `, at ${x.toFixed(3)} ${y.toFixed(3)} for ${other.x.toFixed(3)} ${other.y.toFixed(3)}`),
      );
}

function report(title, of, ...limits) {
  const sizes = of.map(({ difference }) => Math.abs(difference)).sort((a, b) => a - b);
  if (sizes.length === 0) return;
  const at = (share) => percent(sizes[Math.min(sizes.length - 1, Math.floor(share * sizes.length))]);
  const beyond = limits.map((limit) => `beyond ${100 * limit} %: ${sizes.filter((size) => !(size <= limit)).length}`);
  console.log(
    `${title}: ${sizes.length}, median ${at(0.5)} %, 95 of 100 within ${at(0.95)} %, worst ${at(1)} %, ${beyond.join(', ')}`,
  );
}

const stands = ({ error }) => error < 0.01;
const firsts = rows.filter(({ what }) => what === 'first');
const listed = rows.filter(({ what }) => what === 'place');
console.log(
  `\nentries of which the reference does not stand within 1 %: first failure ${firsts.filter((row) => !stands(row)).length}, listed ${listed.filter((row) => !stands(row)).length}; failed ${failed}`,
);
report('first failure', firsts.filter(stands), 0.01, 0.02);
console.log(`at another place than the reference: ${firsts.filter(({ misplaced }) => misplaced).length}`);
report('strength retained', retained, 0.01, 0.02);
report('listed places', listed.filter(stands), 0.01, 0.03);
report(
  '  of these, up to five times the first failure',
  listed.filter((row) => stands(row) && row.other.factor < 5 * row.first),
  0.01,
  0.03,
);
for (const place of new Set(listed.map((row) => row.place)))
  report(
    `  ${place}`,
    listed.filter((row) => stands(row) && row.place === place),
    0.01,
    0.03,
  );
if (timings.length > 0) {
  const [solve, judge] = [0, 1].map((k) => summary(timings.map((one) => one[k])).median);
  console.log(
    `CPU ms of ${timings.length} outlines, 64 nodes, general, medians: stress ${solve.toFixed(3)}, strength ${judge.toFixed(3)} more`,
  );
}
