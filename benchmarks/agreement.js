// Fast model against directly meshed joint: random joints of unusual kinds, random outlines at the limits of wall and edge radius, every load.
// A pair is one outline under one load; all loads of an outline share its meshes. The difference is a share of the largest hoop stress.
// Run: npm run build && node benchmarks/agreement.js [pairs, default 40] [seed, default 1] [file]
// Prints as it goes. `file` keeps what was meshed, a line an outline: a run that was broken off goes on, a later engine is held against it at once.
import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { createChannelReporter, createCurveNodes, meshedStress, reduceJoint, resolveBrief } from '@lumenfront/core';
import { kindsOfOutlines, kindsOfTees, outlineAtLimits, randomFrom, randomTee } from './random-tees.js';

const wanted = Number(process.argv[2] ?? 40);
const seed = Number(process.argv[3] ?? 1);
const file = process.argv[4];

/** Outlines of one joint. */
const outlinesEach = 2;
/** Sides of 1.5 times the usual: errors of some 0.1 %, printed with each outline. */
const coarseness = 1.5;
const told = 0.01;

const kept = new Map();
if (file !== undefined && existsSync(file))
  for (const line of readFileSync(file, 'utf8').trim().split('\n')) {
    const { key, loads } = JSON.parse(line);
    kept.set(key, loads);
  }

const percent = (share) => (100 * share).toFixed(2);
const rows = [];
const reductions = [];
console.log(
  'joint'.padEnd(30),
  'outline'.padEnd(16),
  'load'.padEnd(9),
  'fast MPa   mesh MPa   difference %  estimate %  mesh error %',
);
for (let j = 0; rows.length < wanted; j++) {
  const kind = kindsOfTees[j % kindsOfTees.length];
  const random = randomFrom(seed * 100003 + j);
  const brief = await resolveBrief(randomTee(kind, random)).catch(({ problems }) => {
    console.log(`${kind} ${j}: refused, ${problems?.map(({ path, expected }) => `${path}: ${expected}`).join('; ')}`);
  });
  if (brief === undefined) continue;
  const { joint, channel, strength } = brief;
  const cpu = process.cpuUsage();
  let model;
  try {
    model = reduceJoint(joint, channel);
  } catch (error) {
    console.log(`${kind} ${j}: refused, ${error.message.split('\n')[0]}`);
    continue;
  }
  const { user, system } = process.cpuUsage(cpu);
  const seconds = (user + system) / 1e6;
  reductions.push({ kind, j, seconds });
  const reporters = new Map();
  const reporter = (mirror) => {
    if (!reporters.has(mirror)) {
      const names = Object.keys(brief.loads);
      // Mirror-symmetric outlines under mirror-symmetric loads are solved as such; the side load alone, as any.
      const groups = mirror ? [names.filter((name) => name !== 'side'), ['side']] : [names];
      const made = groups.map((group) =>
        createChannelReporter({
          ...{ joint, channel, strength, model },
          loads: Object.fromEntries(group.map((name) => [name, brief.loads[name]])),
          cases: brief.cases.filter(({ name }) => group.includes(name)),
        }),
      );
      reporters.set(mirror, (curve) => made.map((report) => report(curve).design));
    }
    return reporters.get(mirror);
  };
  for (let o = 0; o < outlinesEach; o++) {
    const outlineKind =
      kindsOfOutlines[(j * outlinesEach + o + Math.floor(j / kindsOfTees.length)) % kindsOfOutlines.length];
    const found = outlineAtLimits(outlineKind, brief, random);
    if (found === undefined) continue;
    const { family, values } = found;
    const curve = { ...family, place: (nodes) => family.place(values, nodes) };
    let fast;
    try {
      fast = reporter(family.mirror)(curve);
    } catch (error) {
      console.log(`${kind} ${j} ${outlineKind}: ${error.message}`);
      continue;
    }
    const key = `${seed}/${j}/${o}`;
    let meshed = kept.get(key);
    if (meshed === undefined) {
      const nodes = createCurveNodes(Math.max(512, 2 * fast[0].nodes));
      curve.place(nodes);
      meshed = meshedStress(joint, brief.loads, [], nodes, { coarseness }).loads;
      if (file !== undefined) appendFileSync(file, `${JSON.stringify({ key, loads: meshed })}\n`);
    }
    for (const { loads, accuracy, change, nodes } of fast)
      for (const [load, { peak }] of Object.entries(loads)) {
        const other = meshed[load];
        const difference = (peak - other.peak) / Math.max(Math.abs(other.peak), Math.abs(other.least));
        const row = {
          kind: `${kind} ${j}`,
          outline: `${outlineKind}${family.mirror ? '' : ' (free)'}`,
          load,
          difference,
          accuracy,
          error: other.error,
        };
        rows.push(row);
        console.log(
          row.kind.padEnd(30),
          row.outline.padEnd(16),
          load.padEnd(9),
          peak.toPrecision(6).padStart(9),
          other.peak.toPrecision(6).padStart(10),
          percent(difference).padStart(12),
          percent(accuracy ?? Number.NaN).padStart(12),
          percent(other.error).padStart(10),
          ' nodes',
          nodes,
          percent(change),
          'degree',
          model.basis.degree,
          percent(model.accuracy ?? 0),
          seconds.toFixed(1),
        );
      }
  }
}

const sorted = rows.map(({ difference }) => Math.abs(difference)).sort((a, b) => a - b);
const at = (share) => percent(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]);
const off = (row) => Math.abs(row.difference) > Math.max(told, row.error);
const warned = (row) => row.accuracy > told;
const count = (test) => rows.filter(test).length;
console.log(
  `\n${rows.length} pairs: median ${at(0.5)} %, 95 of 100 within ${at(0.95)} %, worst ${at(1)} %;`,
  `beyond 1 %: ${count(off)}, of these told by the estimate: ${count((row) => off(row) && warned(row))}; told without need: ${count((row) => !off(row) && warned(row))}`,
);
for (const kind of kindsOfTees) {
  const own = rows.filter((row) => row.kind.startsWith(kind));
  if (own.length === 0) continue;
  const worst = own.reduce((a, b) => (Math.abs(b.difference) > Math.abs(a.difference) ? b : a));
  console.log(
    kind.padEnd(30),
    `${own.length} pairs, beyond 1 %: ${own.filter(off).length}, silent: ${own.filter((row) => off(row) && !warned(row)).length}, worst ${percent(worst.difference)} % (${worst.outline}, ${worst.load})`,
  );
}
const times = reductions.map(({ seconds }) => seconds).sort((a, b) => a - b);
console.log(
  `reduction, CPU seconds: least ${times[0].toFixed(1)}, median ${times[times.length >> 1].toFixed(1)}, most ${times.at(-1).toFixed(1)}`,
);
