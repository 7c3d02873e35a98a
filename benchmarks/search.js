// Quality of the channel search on the joint of the independent solution (wall and edge radius 0.12 mm, mirror-symmetric), under pull alone, cure alone, and the
// worst of 'cured' and 'pulled': peaks against a table of the best that was ever found at five sizes, of the next design that is as large and on the line between
// designs (what the search reached: neighbours of a steep front differ by a percent or two), sizes between them, widest gap, certificates, hypervolume and spread
// over seeds; what is picked within 1.01 times the table's peaks; seconds, and how much two workers gain; then plates with a box of equal width and height. Cost of
// slopes: benchmarks/slopes.js. Run: npm run build && node benchmarks/search.js [parts] [seeds] [evaluations] [file]
//   parts: some of pull, cure, both, picks, workers, plates, with commas; all where left out. seeds: 3, or 2-5; 1-7 where left out. evaluations: 20000.
//   file: keeps every front and pick that is done, one JSON line each, and goes on from there when the command is given again.
import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { areaAgainstPeak, createTask, reduceJoint, usualFatigueSlopes } from '@lumenfront/core';
import { createChannelEvaluator, findFront, hypervolume, pickLargest } from '@lumenfront/optimizer';
import { createScoring } from '../packages/cli/dist/pool/index.js';
import { referenceJoint as joint } from './joints.js';

const [, , wishedParts, wishedSeeds = '1-7', wishedEvaluations = '20000', file] = process.argv;
const every = ['pull', 'cure', 'both', 'picks', 'workers', 'plates'];
const parts = wishedParts === undefined || wishedParts === 'all' ? every : wishedParts.split(',');
for (const part of parts) if (!every.includes(part)) throw new Error(`no part ${part}: ${every.join(', ')}`);
const [firstSeed, lastSeed = firstSeed] = wishedSeeds.split('-').map(Number);
const seeds = Array.from({ length: lastSeed - firstSeed + 1 }, (_, k) => firstSeed + k);
const evaluations = Number(wishedEvaluations);

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
/**
 * `table`: least peaks, MPa, at no less than `sizes`, of a prototype of outlines by curvature with 40 coefficients and 224 nodes, run to its end from many starts;
 * `dearest`: what hypervolumes are measured from, the same in every run.
 */
const sizes = [0.785, 1.374, 3.093, 5.498, 7.3];
const studies = {
  pull: {
    loads: { pull },
    cases: [{ name: 'pull', factors: { pull: 1 } }],
    table: [61.41, 68.01, 87.36, 130.84, 213.64],
    dearest: 330,
  },
  cure: {
    loads: { cure },
    cases: [{ name: 'cured', factors: { cure: 1 } }],
    table: [32.9, 32.91, 32.98, 34.46, 37.18],
    dearest: 44,
  },
  both: {
    loads: { pull, cure },
    cases: [
      { name: 'cured', factors: { cure: 1 } },
      { name: 'pulled', factors: { cure: 1, pull: 0.2255 } },
    ],
    table: [48.95, 48.95, 49.36, 52.21, 68.94],
    dearest: 86,
  },
};
/** Sizes that no search was looked at while it was made. */
const between = [2, 4, 6.5];
/** Over what a peak of the table is allowed to be passed by in a pick. */
const passed = 1.01;
/** A step of a front over which the peak changes by less than this share is flat: no gap. */
const flat = 0.005;

const kept = new Map();
if (file !== undefined && existsSync(file))
  for (const line of readFileSync(file, 'utf8').split('\n'))
    if (line !== '') {
      const { key, value } = JSON.parse(line);
      kept.set(key, value);
    }
/** What was done before, or is done now and kept. */
async function once(key, job) {
  const whole = `${key}, ${evaluations} evaluations`;
  if (!kept.has(whole)) {
    kept.set(whole, await job());
    if (file !== undefined) appendFileSync(file, `${JSON.stringify({ key: whole, value: kept.get(whole) })}\n`);
  }
  return kept.get(whole);
}
const taskOf = ({ loads, cases }) => ({ joint, channel, model, loads, cases, strength, objective });

for (const [name, study] of Object.entries(studies)) {
  if (!parts.includes(name)) continue;
  const fronts = [];
  for (const seed of seeds)
    fronts.push(
      await once(`front ${name} ${seed}`, async () => {
        const { found, seconds } = await timed(() =>
          findFront(createChannelEvaluator(taskOf(study)), { seed, evaluations }),
        );
        const designs = found.designs.map(({ size, cost, locallyOptimalWithin }) => [size, cost, locallyOptimalWithin]);
        return { seconds, spent: found.evaluations, designs };
      }),
    );
  console.log(
    `\n${name}: seeds ${seeds.join(', ')}; ${spread(
      fronts.map(({ seconds }) => seconds),
      1,
    )} s of processor time, ${spread(
      fronts.map(({ spent }) => spent),
      0,
    )} evaluations`,
  );
  const peaksAt = (area) =>
    fronts.map(({ designs }) => Math.min(...designs.filter(([size]) => size >= area).map(([, cost]) => cost)));
  /** On the line between the designs on both sides. */
  const alongAt = (area) =>
    fronts.map(({ designs }) => {
      const k = Math.max(
        1,
        designs.findIndex(([size]) => size >= area),
      );
      const [[small, low], [large, high]] = designs.slice(k - 1, k + 1);
      return area < small ? low : low + ((high - low) * (area - small)) / (large - small);
    });
  for (const [area, best] of [...sizes.map((area, k) => [area, study.table[k]]), ...between.map((area) => [area])]) {
    const peaks = peaksAt(area);
    const over =
      best === undefined
        ? 'held back'
        : `${spreadOver(peaks, best)} % over, ${spreadOver(alongAt(area), best)} % between designs`;
    const apart = 100 * (Math.max(...peaks) / Math.min(...peaks) - 1);
    console.log(
      `  at ${area.toFixed(3)} mm2: peak ${spread(peaks, 2)} MPa, ${over}; seeds ${apart.toFixed(2)} % apart`,
    );
  }
  const gaps = fronts.map(({ designs }) => {
    const steps = designs
      .slice(1)
      .map(([size, cost], i) => (cost > (1 + flat) * designs[i][1] ? size - designs[i][0] : 0));
    return Math.max(...steps) / (designs.at(-1)[0] - designs[0][0]);
  });
  console.log(`  widest gap in area, where not flat: ${spread(percents(gaps), 1)} % of the front`);
  const certificates = fronts.map(({ designs }) => {
    const given = designs.map(([, , within]) => within).filter((within) => within != null);
    return given.length === 0 ? Number.NaN : Math.max(...given);
  });
  console.log(`  largest certificate: locally optimal within ${spread(percents(certificates), 2)} %`);
  const volumes = fronts.map(({ designs }) =>
    hypervolume(
      designs.map(([size, cost]) => [-size, cost]),
      [0, study.dearest],
    ),
  );
  console.log(`  hypervolume within ${study.dearest} MPa: ${spread(volumes, 2)} mm2 MPa`);
}

if (parts.includes('picks')) {
  console.log(`\npicked within ${passed} times the table's peak, seed ${firstSeed}:`);
  for (const [name, study] of Object.entries(studies))
    for (const [k, best] of study.table.entries()) {
      const allow = passed * best;
      const area = await once(`pick ${name} ${firstSeed} ${allow}`, async () => {
        const { found } = await timed(() =>
          pickLargest(createChannelEvaluator(taskOf(study)), { seed: firstSeed, evaluations, allow }),
        );
        return found.best?.area ?? 0;
      });
      console.log(`  ${name} ${allow.toFixed(2)} MPa: ${area.toFixed(3)} mm2, table ${sizes[k]}`);
    }
}

if (parts.includes('workers')) {
  const seconds = {};
  for (const workers of [1, 2]) {
    const task = createTask({ ...taskOf(studies.pull), search: { objective } }, model);
    const scoring = await createScoring(task, workers);
    const start = performance.now();
    await findFront(scoring.evaluator, { seed: firstSeed, evaluations });
    seconds[workers] = (performance.now() - start) / 1000;
    await scoring.close();
  }
  console.log(
    `\npull, seed ${firstSeed}, by the clock: ${seconds[1].toFixed(1)} s with one worker, ${seconds[2].toFixed(1)} s with two: ${(seconds[1] / seconds[2]).toFixed(2)} times`,
  );
}

if (parts.includes('plates')) await searchPlates();

async function searchPlates() {
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
}

async function timed(run) {
  const start = process.cpuUsage();
  const found = await run();
  const { user, system } = process.cpuUsage(start);
  return { found, seconds: (user + system) / 1e6 };
}

/** By how much peaks are above the best that is known, in percent. */
function spreadOver(peaks, best) {
  return spread(percents(peaks.map((peak) => peak / best - 1)), 2);
}

function percents(shares) {
  return shares.map((share) => 100 * share);
}

/** Minimum / median / maximum. */
function spread(values, digits) {
  const sorted = [...values].sort((a, b) => a - b);
  return [sorted[0], sorted[sorted.length >> 1], sorted.at(-1)].map((value) => value.toFixed(digits)).join(' / ');
}
