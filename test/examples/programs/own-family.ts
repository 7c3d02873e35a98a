// An outline family of one's own, searched beside a built-in one: circles with four flatter or rounder sides.
import {
  channelRoom,
  createTask,
  nodeParameter,
  type OutlineFamily,
  type OutlineRoom,
  outlineOf,
  readBrief,
  reduceJoint,
  starterBrief,
} from '@lumenfront/core';
import { createChannelEvaluator, findFront } from '@lumenfront/optimizer';

/** r(s) = radius (1 + flatness cos 4s), with both derivatives by s; nodes lie in mirror pairs. */
const roundish = ({ yMin, yMax }: OutlineRoom): OutlineFamily => ({
  name: 'roundish',
  mirror: true,
  parameters: [
    { name: 'y', unit: 'mm', lower: yMin, upper: yMax, meaning: 'Height of the centre.' },
    { name: 'radius', unit: 'mm', lower: 0.1, upper: 1.5, start: 'small', meaning: 'Mean radius.' },
    { name: 'flatness', unit: '1', lower: -0.05, upper: 0.05, meaning: 'Of the sides, as a share of the radius.' },
  ],
  place(values, { count, x, y, dx, dy, ddx, ddy }) {
    const [centre, radius, flatness] = [values[0]!, values[1]!, values[2]!];
    for (let j = 0; j < count; j++) {
      const s = nodeParameter(j, count);
      const [c, t] = [Math.cos(s), Math.sin(s)];
      const r = radius * (1 + flatness * Math.cos(4 * s));
      const dr = -4 * radius * flatness * Math.sin(4 * s);
      const ddr = -16 * radius * flatness * Math.cos(4 * s);
      x[j] = r * c;
      y[j] = centre + r * t;
      dx[j] = dr * c - r * t;
      dy[j] = dr * t + r * c;
      ddx[j] = ddr * c - 2 * dr * t - r * c;
      ddy[j] = ddr * t + 2 * dr * c - r * t;
    }
  },
});

const brief = await readBrief(starterBrief);
const channel = { ...brief.channel, families: ['ellipse', roundish] };
const task = createTask({ ...brief, channel }, reduceJoint(brief.joint, brief.channel));
const { families } = await findFront(createChannelEvaluator(task), { seed: 1, evaluations: 400 });

const found = families.roundish!;
const outline = outlineOf(found[0]!, channelRoom(task));
console.log(found.length > 5, Object.keys(found[0]!.parameters).join(), outline.mirror); // true y,radius,flatness true
