// An objective of one's own against area: the root mean square of the hoop stress, which is smooth where a peak has kinks.
import { createTask, type EdgeCost, readBrief, reduceJoint, starterBrief } from '@lumenfront/core';
import { createChannelEvaluator, findFront } from '@lumenfront/optimizer';

/** Over the edge's length, of the case that is largest: a sum over nodes, weighted by the distance between them. */
const meanStress: EdgeCost = {
  name: 'root mean square of the hoop stress',
  unit: 'MPa',
  of({ caseHoop, nodes, mirror }) {
    const seen = mirror ? nodes.count / 2 : nodes.count;
    let largest = 0;
    for (const hoop of caseHoop) {
      let [sum, length] = [0, 0];
      for (let j = 0; j < seen; j++) {
        const step = Math.hypot(nodes.dx[j]!, nodes.dy[j]!);
        sum += step * hoop[j]! ** 2;
        length += step;
      }
      largest = Math.max(largest, Math.sqrt(sum / length));
    }
    return largest;
  },
};

const brief = await readBrief(starterBrief);
const search = { objective: { size: 'area', cost: meanStress } } as const;
const channel = { ...brief.channel, families: ['ellipse'] };
const task = createTask({ ...brief, channel, search }, reduceJoint(brief.joint, brief.channel));
const { designs } = await findFront(createChannelEvaluator(task), { seed: 1, evaluations: 400 });

const rising = designs.every(({ cost }, i) => i === 0 || cost > designs[i - 1]!.cost);
console.log(designs.length > 5, rising, designs[0]!.cost < 20); // true true true
