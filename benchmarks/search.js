// Quality of the channel search on the joint of the independent solution (wall and edge radius 0.12 mm, mirror-symmetric): least peak at no
// less than an area, over seeds, for pull alone, cure alone, and the worst of 'cured' and 'pulled'; and the largest channel that is
// picked within a peak. Of each area also how far the seeds lie apart, and the certificates of local optimality. Then a plate with a box of equal width and height. One core. Run: npm run build && node benchmarks/search.js [seeds, default 11] [evaluations, default 20000]
import { areaAgainstPeak, reduceJoint, usualFatigueSlopes } from '@lumenfront/core';
import { createChannelEvaluator, findFront, hypervolume, pickLargest } from '@lumenfront/optimizer';
import { referenceJoint as joint } from './joints.js';

const seeds = Number(process.argv[2] ?? 11);
const evaluations = Number(process.argv[3] ?? 20000);
const channel = {
  families: ['ellipse', 'teardrop', 'spline', 'inset'],
  wall: 0.12,
  edgeRadius: 0.12,
  mirror: true,
  reference: { family: 'ellipse', at: [0, 1.25], width: 1, height: 1 },
};
const strength = { edge: 'peak', startsAwayFromEdge: false, fatigue: usualFatigueSlopes };
const objective = areaAgainstPeak;
const model = reduceJoint(joint, channel);
const pull = { force: 100 };
const cure = { deltaT: -155 };
const studies = {
  'pull alone': { loads: { pull }, cases: [{ name: 'pull', factors: { pull: 1 } }], allow: [74, 93, 146] },
  'cure alone': { loads: { cure }, cases: [{ name: 'cured', factors: { cure: 1 } }], allow: [] },
  'worst of cured and pulled': {
    loads: { pull, cure },
    cases: [
      { name: 'cured', factors: { cure: 1 } },
      { name: 'pulled', factors: { cure: 1, pull: 0.2255 } },
    ],
    allow: [],
  },
};
const nothing = { cost: Number.POSITIVE_INFINITY };
const areas = [0.785, 1.374, 2, 3.093, 4, 5.498, 6.5, 7.3];
/** Costs, MPa, against which hypervolumes are taken, the same in every run: beyond every front's largest. */
const dearest = { 'pull alone': 330, 'cure alone': 44, 'worst of cured and pulled': 86 };
/** A step of a front over which the peak changes by less than this share is flat: no gap. */
const flat = 0.005;

for (const [title, { loads, cases, allow }] of Object.entries(studies)) {
  const task = { joint, channel, model, loads, cases, strength, objective };
  const fronts = [];
  for (let seed = 1; seed <= seeds; seed++)
    fronts.push(await timed(() => findFront(createChannelEvaluator(task), { seed, evaluations })));
  console.log(
    `\n${title}: ${seeds} fronts of ${evaluations} evaluations, ${spread(
      fronts.map(({ seconds }) => seconds),
      1,
    )} s`,
  );
  for (const area of areas) {
    const best = fronts.map(({ found }) =>
      found.designs.filter((one) => one.size >= area).reduce((a, b) => (b.cost < a.cost ? b : a), nothing),
    );
    const peaks = best.map(({ cost }) => cost);
    const certified = best.map(({ locallyOptimalWithin }) => locallyOptimalWithin).filter(Number.isFinite);
    const within =
      certified.length === 0 ? 'no certificate' : `locally optimal within ${spread(percents(certified), 2)} %`;
    const apart = 100 * (Math.max(...peaks) / Math.min(...peaks) - 1);
    const between = Number.isFinite(apart) ? `seeds ${apart.toFixed(2)} % apart` : 'not reached by every seed';
    console.log(
      `  at ${area.toFixed(3)} mm2: peak ${spread(peaks, 2)} MPa, ${between}; ${within} (${certified.length} of ${seeds})`,
    );
  }
  const gaps = fronts.map(({ found: { designs } }) => {
    const steps = designs
      .slice(1)
      .map((one, i) => (one.cost > (1 + flat) * designs[i].cost ? one.size - designs[i].size : 0));
    return Math.max(...steps) / (designs.at(-1).size - designs[0].size);
  });
  console.log(`  widest gap in area, where not flat: ${spread(percents(gaps), 1)} % of the front`);
  const volumes = fronts.map(({ found }) =>
    hypervolume(
      found.designs.map(({ size, cost }) => [-size, cost]),
      [0, dearest[title]],
    ),
  );
  console.log(`  hypervolume within ${dearest[title]} MPa: ${spread(volumes, 2)} mm2 MPa`);
  for (const peak of allow) {
    const picks = [];
    for (let seed = 1; seed <= seeds; seed++)
      picks.push(await timed(() => pickLargest(createChannelEvaluator(task), { seed, evaluations, allow: peak })));
    console.log(
      `  picked within ${peak} MPa: area ${spread(
        picks.map(({ found }) => found.best?.area ?? 0),
        3,
      )} mm2`,
    );
  }
}

/** Unit stress far away and a box of 2 x 2 mm. A circle that fills it has pi mm2 and 3, 4 and 4 (Kirsch 1898). */
const plate = { kind: 'plate', material: joint.filler };
const farFields = {
  'uniaxial tension': { sx: 1, sy: 0, txy: 0 },
  'shear, its tension along a side': { sx: 1, sy: -1, txy: 0 },
  'shear, its tension along a diagonal': { sx: 0, sy: 0, txy: 1 },
};
for (const [title, farField] of Object.entries(farFields)) {
  const own = {
    ...channel,
    families: ['ellipse', 'spline'],
    edgeRadius: 0.02,
    mirror: farField.txy === 0,
    largest: { width: 2, height: 2 },
  };
  const task = {
    joint: plate,
    channel: own,
    strength,
    objective,
    model: reduceJoint(plate, own),
    loads: { farField },
    cases: [{ name: 'far', factors: { farField: 1 } }],
  };
  const { found } = await timed(() => findFront(createChannelEvaluator(task), { seed: 1, evaluations: 8000 }));
  const least = [2, 2.5, 3, Math.PI, 3.3, 3.5].map((area) => {
    const costs = found.designs.filter(({ size }) => size >= area).map(({ cost }) => cost);
    return `${area.toFixed(2)} mm2: ${costs.length === 0 ? 'none' : Math.min(...costs).toFixed(3)}`;
  });
  console.log(`\nplate, ${title}: stress concentration at no less than ${least.join(', ')}`);
}

async function timed(run) {
  const start = performance.now();
  const found = await run();
  return { found, seconds: (performance.now() - start) / 1000 };
}

function percents(shares) {
  return shares.map((share) => 100 * share);
}

/** Minimum / median / maximum. */
function spread(values, digits) {
  const sorted = [...values].sort((a, b) => a - b);
  return [sorted[0], sorted[sorted.length >> 1], sorted.at(-1)].map((value) => value.toFixed(digits)).join(' / ');
}
