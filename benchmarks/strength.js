// Milliseconds that the strength of the whole joint adds to the solution of an outline, and its agreement with the meshed section:
// load factor and place of first failure, with the edge (by its peak) and without, on random outlines in two joints.
// Run: npm run build && node benchmarks/strength.js [outlines per joint, default 0: timing only] [seed, default 1]
import {
  channelBorder,
  channelRoom,
  createCurveNodes,
  createFamily,
  createOutlineMeasure,
  createStrengthModel,
  createStressModel,
  familyNames,
  measureOutline,
  meshedStrength,
  nodesNeeded,
  reduceJoint,
} from '@lumenfront/core';
import { joints } from './joints.js';
import { summary } from './timing.js';

const count = Number(process.argv[2] ?? 0);
const seed = Number(process.argv[3] ?? 1);
const wall = 0.12;
const loads = { pull: { force: 100 }, cure: { deltaT: -155 } };
const cases = [
  { name: 'cured', factors: { cure: 1 } },
  { name: 'pulled', factors: { cure: 0.3, pull: 1 } },
];

for (const [title, joint] of Object.entries(joints)) {
  const wish = (mirror) => ({ families: familyNames, wall, edgeRadius: wall, mirror, reference: {} });
  const model = reduceJoint(joint, wish(true));
  const stress = createStressModel(model, loads, cases);
  const strength = createStrengthModel(model, joint, loads, cases, { edge: 'peak' });
  /** Multiplicative congruential generator (Park & Miller 1988): the same outlines in every run. */
  let state = seed;
  const random = () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
  const border = channelBorder(joint);
  const measure = createOutlineMeasure();
  const draw = (wanted, mirror) => {
    const families = familyNames.map((name) => createFamily(name, channelRoom({ joint, channel: wish(mirror) })));
    const nodes = createCurveNodes(512);
    return families.flatMap((family) => {
      const found = [];
      for (let tries = 0; found.length < Math.ceil(wanted / families.length) && tries < 200_000; tries++) {
        const spread = random();
        const values = family.parameters.map(
          ({ lower, upper }) => (lower + upper) / 2 + spread * (upper - lower) * (random() - 0.5),
        );
        family.place(values, nodes);
        measureOutline(nodes, border, measure);
        if (measure.simple && measure.wall >= wall && measure.edgeRadius >= wall) found.push({ family, values });
      }
      return found;
    });
  };

  console.log(`\n${title}`);
  for (const mirror of [true, false]) {
    const solving = [];
    const judging = [];
    for (const { family, values } of draw(60, mirror)) {
      const nodes = createCurveNodes(64);
      family.place(values, nodes);
      const rounds = Array.from({ length: 12 }, () => {
        const start = performance.now();
        const solved = stress.evaluate(nodes, mirror, 'cases');
        const middle = performance.now();
        strength.evaluate(solved);
        return [middle - start, performance.now() - middle];
      });
      solving.push(summary(rounds.map(([solve]) => solve)).minimum);
      judging.push(summary(rounds.map(([, judge]) => judge)).minimum);
    }
    const [solve, judge] = [summary(solving).median, summary(judging).median];
    console.log(
      `${mirror ? 'mirror-symmetric' : 'general'}, 64 nodes, ${solving.length} outlines: stress ${solve.toFixed(3)} ms, strength ${judge.toFixed(3)} ms more (${((100 * judge) / solve).toFixed(0)} %), medians`,
    );
  }
  if (count > 0) compare(joint, model, stress, strength, draw(count / 2, true), true);
  if (count > 0) compare(joint, model, stress, strength, draw(count / 2, false), false);

  function compare(tee, reduced, fast, judged, outlines, mirror) {
    const rows = [];
    for (const { family, values } of outlines) {
      const nodes = createCurveNodes(256);
      family.place(values, nodes);
      const own = createCurveNodes(2 * nodesNeeded(nodes, family.fewestNodes));
      family.place(values, own);
      const surveys = judged.survey(fast.evaluate(own, mirror));
      const meshed = meshedStrength({ joint: tee, loads, cases, model: reduced }, nodes);
      surveys.forEach((survey, c) => {
        for (const withEdge of [true, false]) {
          const first = (places) =>
            places.filter(({ place }) => withEdge || place !== 'edge').reduce((a, b) => (b.factor < a.factor ? b : a));
          const [a, b] = [first(survey.places), first(meshed[c].places)];
          if (b.factor === 0 && a.factor === 0) continue;
          // The place is another one only if the mesh sets the two apart by more than 2 %.
          const there = meshed[c].places.find(({ place }) => place === a.place)?.factor ?? Number.POSITIVE_INFINITY;
          rows.push({
            withEdge,
            place: b.place,
            difference: a.factor / b.factor - 1,
            misplaced: there / b.factor - 1 > 0.02,
          });
        }
      });
    }
    for (const withEdge of [true, false]) {
      const of = rows.filter((row) => row.withEdge === withEdge);
      const sizes = of.map(({ difference }) => Math.abs(difference)).sort((x, y) => x - y);
      const share = (part) => `${(100 * sizes[Math.ceil(part * sizes.length) - 1]).toFixed(2)} %`;
      const places = [...new Set(of.map(({ place }) => place))].map(
        (place) => `${place} ${of.filter((row) => row.place === place).length}`,
      );
      console.log(
        `${mirror ? 'mirror-symmetric' : 'general'}, ${withEdge ? 'all places' : 'away from the edge'}: ${of.length} load factors (${places.join(', ')}), ` +
          `median ${share(0.5)}, 95 % within ${share(0.95)}, largest ${share(1)}, ` +
          `beyond 2 %: ${sizes.filter((size) => size > 0.02).length}, another place: ${of.filter(({ misplaced }) => misplaced).length}`,
      );
    }
  }
}
