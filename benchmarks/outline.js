// Microseconds to place an outline, to measure it and to count the nodes it needs, one core, in a filler of 5 mm bend radius.
// Run: npm run build && node benchmarks/outline.js
import { createCurveNodes, createFamily, createOutlineMeasure, measureOutline, nodesNeeded } from '@lumenfront/core';
import { teeFillerBorder } from '../packages/core/dist/host/index.js';
import { familyNames } from '../packages/core/dist/outline/index.js';
import { createRandom, summary, times } from './timing.js';

const outlines = 2000;
const rounds = 15;
const room = { xMin: -3.2, xMax: 3.2, yMin: 0.12, yMax: 3.6, edgeRadius: 0.12, bendRadius: 5 };
const border = teeFillerBorder(5);
const measure = createOutlineMeasure();

const random = createRandom();

/** Minimum and median of a job over all outlines, microseconds per outline. */
function timed(job) {
  const { minimum, median } = summary(times(job, rounds));
  return `${((minimum * 1000) / outlines).toFixed(2)} / ${((median * 1000) / outlines).toFixed(2)}`;
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
