// Microseconds to place an outline, to measure it and to count the nodes it needs, one core, in a filler of 5 mm bend radius.
// Run: npm run build && node benchmarks/outline.js
import {
  createCurveNodes,
  createFamily,
  createOutlineMeasure,
  familyNames,
  measureOutline,
  nodesNeeded,
  teeFillerBorder,
} from '@lumenfront/core';

const outlines = 2000;
const rounds = 15;
const room = { xMin: -3.2, xMax: 3.2, yMin: 0.12, yMax: 3.6, edgeRadius: 0.12, bendRadius: 5 };
const border = teeFillerBorder(5);
const measure = createOutlineMeasure();

/** Multiplicative congruential generator (Park & Miller 1988): the same outlines in every run. */
let state = 1;
const random = () => {
  state = (state * 16807) % 2147483647;
  return state / 2147483647;
};

/** Minimum and median of a job over all outlines, microseconds per outline; the first rounds warm up. */
function timed(job) {
  const times = [];
  for (let round = 0; round < rounds + 3; round++) {
    const start = performance.now();
    job();
    times.push(((performance.now() - start) * 1000) / outlines);
  }
  const sorted = times.slice(3).sort((a, b) => a - b);
  return `${sorted[0].toFixed(2)} / ${sorted[rounds >> 1].toFixed(2)}`;
}

console.log(`microseconds per outline, minimum / median of ${rounds} rounds of ${outlines} outlines`);
for (const mirror of [true, false])
  for (const name of familyNames)
    for (const count of [64, 128]) {
      const family = createFamily(name, { ...room, mirror });
      const nodes = createCurveNodes(count);
      const values = Array.from({ length: outlines }, () =>
        Float64Array.from(family.parameters, ({ lower, upper }) => lower + (upper - lower) * (0.3 + 0.4 * random())),
      );
      const place = timed(() => {
        for (const v of values) family.place(v, nodes);
      });
      const measured = timed(() => {
        for (const v of values) {
          family.place(v, nodes);
          measureOutline(nodes, border, measure);
        }
      });
      const counted = timed(() => {
        for (const v of values) {
          family.place(v, nodes);
          nodesNeeded(nodes);
        }
      });
      console.log(
        `${name.padEnd(9)} ${mirror ? 'mirror' : 'free  '} ${String(count).padStart(3)} nodes:`,
        `placed ${place}, with measure ${measured}, with node count ${counted}`,
      );
    }
