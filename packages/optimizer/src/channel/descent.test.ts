import {
  createChannelScorer,
  createCurveNodes,
  createTask,
  nodesNeeded,
  readBrief,
  reduceJoint,
  scoreSize,
} from '@lumenfront/core';
import { expect, it } from 'vitest';
import { createDescender } from './descent.js';

it('tells of sharp outlines what the nodes that they need see', async () => {
  const brief = await readBrief(`host: { kind: plate, material: generic-epoxy-resin }
loads: { farField: { sx: 10, sy: 4 } }
channel: { families: [ellipse], largest: { width: 4, height: 4 }, edgeRadius: 0.002, mirror: true }
`);
  const scorer = createChannelScorer(createTask(brief, reduceJoint(brief.joint, brief.channel)));
  const { parameters } = scorer.families[0]!;
  // 2 by 0.1 mm: tips of 0.0025 mm ask for several times the nodes of a descent.
  const x = Float64Array.from(parameters, ({ name }) => ({ width: 2, height: 0.1 })[name] ?? 0);
  const { passed } = createDescender(scorer)(0, {
    x,
    goal: { size: 0.1 },
    radius: 0.001,
    slopes: 1,
    gain: 1e-4,
    most: 12,
  });
  const nodes = createCurveNodes(64);
  const sharp = passed.filter((one) => {
    scorer.families[0]!.place(one.x, nodes);
    return nodesNeeded(nodes) > 128;
  });
  expect(sharp.length).toBeGreaterThan(0);
  const score = new Float64Array(scoreSize);
  for (const one of sharp) {
    scorer.score(0, one.x, score);
    expect(one.score).toEqual(score);
  }
});
