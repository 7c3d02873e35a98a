// Channels side by side: fast model against directly meshed joint, random pairs in a slot of a laminate and in the filler of a tee, random channels of endless rows of
// slots and of lenses, every load and a case of all. The difference is a share of the largest hoop stress.
// Run: npm run build && node benchmarks/agreement-side-by-side.js [pairs in the slot, default 30] [in the tee, 6] [in rows of slots, 10] [of lenses, 10] [seed, 1]
import {
  channelRoom,
  createChannelReporter,
  createChannelScorer,
  createCurveNodes,
  createFamily,
  createTask,
  meshedStress,
  reduceJoint,
  resolveBrief,
  scoreAt,
  scoreSize,
  sideBySide,
} from '@lumenfront/core';
import { randomFrom } from './random-tees.js';

const [inSlot = 30, inTee = 6, inSlots = 10, inLenses = 10, seed = 1] = process.argv.slice(2).map(Number);

const layup = [90, 90, 0, 0, 0, 0, 90, 90, 90, 90, 0, 0];
const acrossRow = {
  loads: {
    stretch: { strain: 0.001 },
    bend: { moment: 100 },
    flatwise: { stress: 5 },
    cure: { deltaT: -100 },
    pressure: { pressure: 0.5 },
  },
  cases: { all: { stretch: 1, bend: 1, flatwise: 1, cure: 0.3 } },
};
const families = ['ellipse', 'teardrop', 'spline'];

const briefs = {
  slots: {
    host: { kind: 'laminate', layup, plyThickness: 0.25, pocket: { made: 'cut', plies: [5, 6], width: 2 } },
    ...acrossRow,
    channel: { families, wall: 0.06, edgeRadius: 0.06, mirror: false },
    channels: { number: 'row', pitch: 2.4 },
  },
  lenses: {
    host: { kind: 'laminate', layup, plyThickness: 0.25, pocket: { made: 'drape', above: 6, height: 0.5 } },
    ...acrossRow,
    channel: { families, wall: 0.04, edgeRadius: 0.06, mirror: false },
    channels: { number: 'row', pitch: 4.6 },
  },
  slot: {
    host: {
      kind: 'laminate',
      layup,
      plyThickness: 0.25,
      width: 20,
      pocket: { made: 'cut', plies: [5, 6], width: 3 },
    },
    loads: {
      stretch: { strain: 0.001 },
      bend: { moment: 100 },
      shear: { force: 20 },
      flatwise: { stress: 5 },
      cure: { deltaT: -100 },
      pressure: { pressure: 0.5 },
    },
    cases: { all: { stretch: 1, bend: 1, shear: 1, flatwise: 1, cure: 0.3 } },
    channel: { families, wall: 0.06, edgeRadius: 0.06 },
    channels: { number: 2 },
  },
  tee: {
    host: { kind: 'tee', bendRadius: 5 },
    loads: {
      pull: { force: 20 },
      side: { force: 3 },
      moment: { moment: 50 },
      cure: { deltaT: -100 },
      pressure: { pressure: 0.5 },
    },
    cases: { all: { pull: 1, side: 1, moment: 1, cure: 0.3 } },
    channel: { families, wall: 0.15, edgeRadius: 0.15 },
    channels: { number: 2 },
  },
};

const percent = (share) => (100 * share).toFixed(2);

/** Random outlines that keep all limits, of each family in turn; of a pair every other one near its image. */
function* outlines(task, random) {
  const room = channelRoom(task);
  const scorer = createChannelScorer({ ...task, cases: [], loads: {} });
  const score = new Float64Array(scoreSize);
  for (let k = 0; ; k++) {
    const at = k % task.channel.families.length;
    const family = createFamily(task.channel.families[at], room);
    for (;;) {
      const values = Float64Array.from(family.parameters, ({ lower, upper, start }) =>
        start === 'calm'
          ? (lower + upper) / 2 + 0.1 * (upper - lower) * (2 * random.next() - 1)
          : lower + (upper - lower) * random.next() ** (start === 'small' ? 2 : 1),
      );
      scorer.score(at, values, score);
      if (score[scoreAt.crossing] > 0 || score[scoreAt.room] > 0 || score[scoreAt.edgeRadius] > 0) continue;
      const nodes = createCurveNodes(256);
      family.place(values, nodes);
      const between = 2 * nodes.x.reduce((least, x) => Math.min(least, x), Infinity);
      if (task.channel.group !== undefined && k % 2 === 1 && between > 3 * task.channel.wall) continue;
      yield { family, values };
      break;
    }
  }
}

const worst = [];
for (const [name, count] of [
  ['slot', inSlot],
  ['tee', inTee],
  ['slots', inSlots],
  ['lenses', inLenses],
]) {
  if (!(count > 0)) continue;
  const brief = await resolveBrief(briefs[name]);
  const task = createTask(brief, reduceJoint(brief.joint, brief.channel));
  const report = createChannelReporter(task);
  const random = randomFrom(seed * 100003 + count);
  const all = outlines(task, random);
  const found = [];
  for (let k = 0; k < count; k++) {
    const { family, values } = all.next().value;
    const { design } = report({ mirror: false, place: (nodes) => family.place(values, nodes) });
    const nodes = createCurveNodes(Math.max(256, design.nodes));
    family.place(values, nodes);
    const meshed = meshedStress(brief.joint, brief.loads, brief.cases, nodes, {
      coarseness: 1.5,
      channels: sideBySide(brief.channel),
    });
    const differences = ['loads', 'cases'].flatMap((kind) =>
      Object.entries(design[kind]).map(([load, { peak }]) => {
        const other = meshed[kind][load];
        return {
          load,
          share: (peak - other.peak) / Math.max(Math.abs(other.peak), Math.abs(other.least)),
          error: other.error,
        };
      }),
    );
    const most = differences.reduce((a, b) => (Math.abs(b.share) > Math.abs(a.share) ? b : a));
    found.push(Math.abs(most.share));
    console.log(
      `${name} ${String(k + 1).padStart(2)}  ${family.name.padEnd(8)} between ${(design.pair ?? design.row).between.toFixed(3)} mm, wall ${design.wall.toFixed(3)} mm  ` +
        `most ${percent(most.share)} % (${most.load}), mesh's own ${percent(most.error)} %, estimate ${percent(design.accuracy ?? NaN)} %`,
    );
  }
  found.sort((a, b) => a - b);
  worst.push(
    `${name}: ${count}, median ${percent(found[Math.floor(count / 2)])} %, largest ${percent(found.at(-1))} %`,
  );
}
console.log(worst.join('\n'));
