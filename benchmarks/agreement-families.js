// Fast model against directly meshed joint on random admissible outlines of all families, in two tees, four pockets in laminates, four in a tee, and in the filler beside two of those: every other
// outline at the limits of wall or edge radius. Differences in the peak as shares of the largest hoop stress, the worst five, seconds per meshed outline, memory.
// Run: npm run build && node benchmarks/agreement-families.js [outlines per joint, default 200] [seed, default 1] [start of a title, default all] [coarseness, default 1] [file]
// `file` keeps what was meshed, a line an outline: a run that was broken off goes on, a later engine is held against it at once.
import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import {
  channelBorder,
  channelRoom,
  createChannelReporter,
  createCurveNodes,
  createFamily,
  createOutlineMeasure,
  followOutline,
  measureOutline,
  meshedStress,
  reduceJoint,
  UnmetError,
} from '@lumenfront/core';
import { familyNames } from '../packages/core/dist/outline/index.js';
import { besidePockets, joints, pockets } from './joints.js';

const count = Number(process.argv[2] ?? 200);
const seed = Number(process.argv[3] ?? 1);
const word = process.argv[4] ?? '';
const coarseness = Number(process.argv[5] ?? 1);
const file = process.argv[6];
const kept = new Map();
if (file !== undefined && existsSync(file))
  for (const line of readFileSync(file, 'utf8').trim().split('\n')) {
    const { key, loads } = JSON.parse(line);
    kept.set(key, loads);
  }
const onTee = { pull: { force: 100 }, cure: { deltaT: -155 } };
const onLaminate = {
  stretch: { strain: 0.001, force: 0 },
  bend: { moment: 100 },
  shear: { force: 20 },
  flatwise: { stress: 5 },
  cure: { deltaT: -100 },
};
const onTeeWithPocket = { pull: { force: 30 }, side: { force: 3 }, moment: { moment: 50 }, cure: { deltaT: -60 } };
const samples = {
  ...Object.fromEntries(
    Object.entries(joints).map(([title, joint]) => [title, { joint, loads: onTee, wall: 0.12, edgeRadius: 0.12 }]),
  ),
  ...Object.fromEntries(
    Object.entries({ ...pockets, ...besidePockets }).map(([title, one]) => [
      title,
      { ...one, loads: one.joint.kind === 'tee' ? onTeeWithPocket : onLaminate },
    ]),
  ),
};

for (const [title, sample] of Object.entries(samples)) if (title.startsWith(word)) compare(title, sample);

/** Values between ones that are kept and ones that are not, as far as they are kept. */
function asFarAsKept(kept, from, to) {
  let [good, bad] = [from, to];
  for (let i = 0; i < 40; i++) {
    const middle = good.map((value, p) => (value + bad[p]) / 2);
    if (kept(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/** Undefined where an outline leaves the control contour, as wide ones in low pockets that follow do. */
function judged(report, curve) {
  try {
    return report(curve).design;
  } catch (error) {
    if (!(error instanceof UnmetError)) throw error;
    return undefined;
  }
}

function compare(title, { joint, loads, wall, edgeRadius, largest }) {
  const cases = Object.keys(loads).map((name) => ({ name, factors: { [name]: 1 } }));
  /** Multiplicative congruential generator (Park & Miller 1988): the same outlines in every run. */
  let state = seed;
  const random = () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
  const wish = (mirror) => ({ families: familyNames, wall, edgeRadius, largest, mirror, reference: {} });
  const model = reduceJoint(joint, wish(true));
  const report = createChannelReporter({ joint, loads, cases, channel: wish(true), strength: { edge: 'peak' }, model });
  const borderOf = (curve) => channelBorder({ ...followOutline({ joint }, curve), channel: wish(true) });
  const families = [true, false].flatMap((mirror) =>
    familyNames.map((name) => createFamily(name, channelRoom({ joint, channel: wish(mirror) }))),
  );
  const measure = createOutlineMeasure();
  const nodes = createCurveNodes(512);
  const rows = [];
  const seconds = [];
  const wanted = Math.ceil(count / families.length);
  for (const family of families) {
    let found = 0;
    for (let tries = 0; found < wanted && tries < 200_000; tries++) {
      // From all over the bounds to near their middle, where wavy families are admissible more often.
      const spread = random();
      const drawn = family.parameters.map(
        ({ start, lower, upper }) =>
          (lower + upper) / 2 + (start === 'calm' ? 0.3 : 1) * spread * (upper - lower) * (random() - 0.5),
      );
      const curveOf = (values) => ({ ...family, place: (n) => family.place(values, n) });
      const keeps = (values) => {
        family.place(values, nodes);
        measureOutline(nodes, borderOf(curveOf(values)), measure);
        return measure.simple && measure.wall >= wall && measure.edgeRadius >= edgeRadius;
      };
      if (!keeps(drawn)) continue;
      // Every other one goes on towards a place at the bounds, up to the limit that it meets first.
      const atLimit = found % 2 === 1;
      const corner = family.parameters.map(({ lower, upper }) => (random() < 0.5 ? lower : upper));
      const values = atLimit && !keeps(corner) ? asFarAsKept(keeps, drawn, corner) : drawn;
      const curve = curveOf(values);
      const fast = judged(report, curve);
      if (fast === undefined) continue;
      found++;
      const key = `${title}/${seed}/${family.name}/${family.mirror}/${found}/${wanted}`;
      let meshed = kept.get(key);
      if (meshed === undefined) {
        const start = performance.now();
        family.place(values, nodes);
        meshed = meshedStress(joint, loads, [], nodes, { coarseness }).loads;
        seconds.push((performance.now() - start) / 1000);
        if (file !== undefined) appendFileSync(file, `${JSON.stringify({ key, loads: meshed })}\n`);
      }
      for (const load of Object.keys(loads)) {
        const { peak, least: lowest, error } = meshed[load];
        const name = `${family.name}${family.mirror ? '' : ' (free)'}`;
        const { area, wall: least, minEdgeRadius, nodes: fastNodes } = fast;
        rows.push({
          load,
          name,
          atLimit,
          // Of the largest hoop stress: where all is pressed, the peak says little.
          difference: (fast.loads[load].peak - peak) / Math.max(peak, -lowest),
          error,
          area,
          wall: least,
          minEdgeRadius,
          peak,
          fastNodes,
        });
      }
    }
    if (found < wanted)
      console.log(`${family.name}${family.mirror ? '' : ' (free)'}: only ${found} of ${wanted} outlines found`);
  }
  seconds.sort((a, b) => a - b);
  console.log(`\n${title}: ${rows.length / Object.keys(loads).length} outlines`);
  for (const load of Object.keys(loads)) {
    const sorted = rows
      .filter((row) => row.load === load)
      .sort((a, b) => Math.abs(b.difference) - Math.abs(a.difference));
    const percent = (row) => `${(100 * row.difference).toFixed(3)} %`;
    console.log(
      `${load}: median ${percent(sorted[sorted.length >> 1])} apart, mesh's own error at most ${(100 * Math.max(...sorted.map(({ error }) => error))).toFixed(3)} %; worst five:`,
    );
    for (const row of sorted.slice(0, 5))
      console.log(
        `  ${percent(row).padStart(9)}  ${row.name.padEnd(16)} area ${row.area.toFixed(2)} wall ${row.wall.toFixed(3)}`,
        `edge radius ${row.minEdgeRadius.toFixed(3)} peak ${row.peak.toFixed(1)} fast nodes ${row.fastNodes}`,
      );
  }
  for (const [which, atLimit] of [
    ['anywhere', false],
    ['at the limits', true],
  ]) {
    const own = rows
      .filter((row) => row.atLimit === atLimit)
      .sort((a, b) => Math.abs(a.difference) - Math.abs(b.difference));
    if (own.length === 0) continue;
    const at = (share) => (100 * Math.abs(own[Math.floor(share * (own.length - 1))].difference)).toFixed(2);
    console.log(
      `${which}: ${own.length / Object.keys(loads).length} outlines, of 100 peaks 50 within ${at(0.5)} %, 95 within ${at(0.95)} %, all within ${at(1)} %`,
    );
  }
  if (seconds.length > 0)
    console.log(
      `meshed: ${seconds[0].toFixed(2)} s least, ${seconds[seconds.length >> 1].toFixed(2)} s median, ${seconds.at(-1).toFixed(2)} s most;`,
      `${Math.round(process.resourceUsage().maxRSS / 1024)} MB`,
    );
}
