// Fast model against directly meshed joint on random admissible outlines of all families, in two tees and four pockets in laminates:
// differences in the peak, the worst five, seconds per meshed outline, memory.
// Run: npm run build && node benchmarks/agreement-families.js [outlines per joint, default 200] [seed, default 1] [word of a title, default all]
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
import { joints, pockets } from './joints.js';

const count = Number(process.argv[2] ?? 200);
const seed = Number(process.argv[3] ?? 1);
const word = process.argv[4] ?? '';
const onTee = { pull: { force: 100 }, cure: { deltaT: -155 } };
const onLaminate = {
  stretch: { strain: 0.001, force: 0 },
  bend: { moment: 100 },
  shear: { force: 20 },
  flatwise: { stress: 5 },
  cure: { deltaT: -100 },
};
const samples = {
  ...Object.fromEntries(
    Object.entries(joints).map(([title, joint]) => [title, { joint, loads: onTee, wall: 0.12, edgeRadius: 0.12 }]),
  ),
  ...Object.fromEntries(Object.entries(pockets).map(([title, one]) => [title, { ...one, loads: onLaminate }])),
};

for (const [title, sample] of Object.entries(samples)) if (title.includes(word)) compare(title, sample);

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
      const values = family.parameters.map(
        ({ lower, upper }) => (lower + upper) / 2 + spread * (upper - lower) * (random() - 0.5),
      );
      family.place(values, nodes);
      const curve = { ...family, place: (n) => family.place(values, n) };
      measureOutline(nodes, borderOf(curve), measure);
      if (!(measure.simple && measure.wall >= wall && measure.edgeRadius >= edgeRadius)) continue;
      const fast = judged(report, curve);
      if (fast === undefined) continue;
      found++;
      const start = performance.now();
      const meshed = meshedStress(joint, loads, [], nodes);
      seconds.push((performance.now() - start) / 1000);
      for (const load of Object.keys(loads)) {
        const { peak, least: lowest, error } = meshed.loads[load];
        const name = `${family.name}${family.mirror ? '' : ' (free)'}`;
        const { area, wall: least, minEdgeRadius, nodes: fastNodes } = fast;
        rows.push({
          load,
          name,
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
  console.log(
    `meshed: ${seconds[0].toFixed(2)} s least, ${seconds[seconds.length >> 1].toFixed(2)} s median, ${seconds.at(-1).toFixed(2)} s most;`,
    `${Math.round(process.resourceUsage().maxRSS / 1024)} MB`,
  );
}
