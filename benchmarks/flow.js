// Laminar flow of one outline: `node benchmarks/flow.js` after `npm run build`. Milliseconds, minimum and median.
import { createConductance } from '../packages/core/dist/flow/index.js';
import { createCurveNodes, nodeParameter } from '../packages/core/dist/outline/index.js';
import { summary, times } from './timing.js';

const repeats = 300;
const batch = 20;

/** Ellipse 2:1, mirror-symmetric or turned by 0.4. */
function ellipse(count, turn) {
  const nodes = createCurveNodes(count);
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  for (let j = 0; j < count; j++) {
    const p = nodeParameter(j, count);
    const [px, py, ux, uy] = [Math.cos(p), 0.5 * Math.sin(p), -Math.sin(p), 0.5 * Math.cos(p)];
    nodes.x[j] = c * px - s * py;
    nodes.y[j] = 1.25 + s * px + c * py;
    nodes.dx[j] = c * ux - s * uy;
    nodes.dy[j] = s * ux + c * uy;
    nodes.ddx[j] = -nodes.x[j];
    nodes.ddy[j] = 1.25 - nodes.y[j];
  }
  return nodes;
}

const exact = (Math.PI * 0.125) / (4 * 1.25);
console.log('nodes  outline    minimum   median  error of the flow');
for (const count of [32, 48, 64, 96, 128]) {
  for (const [name, turn] of [
    ['mirrored', 0],
    ['general', 0.4],
  ]) {
    const conductance = createConductance(count);
    const nodes = ellipse(count, turn);
    const run = () => {
      for (let i = 0; i < batch; i++) conductance(nodes);
    };
    const { minimum, median } = summary(times(run, repeats));
    const error = Math.abs(conductance(nodes).conductance / exact - 1);
    console.log(
      `${String(count).padStart(5)}  ${name.padEnd(9)}  ${(minimum / batch).toFixed(4)}   ${(median / batch).toFixed(4)}   ${error.toExponential(1)}`,
    );
  }
}
