import { expect, it } from 'vitest';
import { readBrief } from '../brief/index.js';
import { createCurveNodes, outlineOf } from '../outline/index.js';
import { meshedStress } from '../stress/index.js';
import { createChannelReporter } from './reporter.js';
import { channelRoom, createTask, reduceJoint } from './task.js';

/** All plies of the overlaminate across the joint, a thin skin: a quarter of its stiffness along z is the filler's. */
const stiffFiller = `
host:
  kind: tee
  bendRadius: 5.5
  overlaminate: { layup: [0, 0, 0, 0], plyThickness: 0.6, ply: carbon }
  web: { height: 25 }
  foot: { length: 17 }
  skin: { thickness: 0.55, halfSpan: 46, layup: [45, -45, 0, 90], ply: carbon }
  filler: { ply: carbon }
  support: simple
materials:
  carbon:
    { E1: 126000, E2: 11000, nu12: 0.28, nu23: 0.4, G12: 6600, alpha1: -1e-6, alpha2: 26e-6, transverseTension: 50, interlaminarShear: 60 }
loads: { pull: { force: 10 }, moment: { moment: 50 } }
`;

it('tells of a joint that strains otherwise along z with a large channel than without', async () => {
  const brief = await readBrief(stiffFiller);
  const task = createTask(brief, reduceJoint(brief.joint, brief.channel));
  const large = outlineOf({ family: 'ellipse', parameters: { y: 1.3, width: 2.7, height: 1.9 } }, channelRoom(task));
  const { design } = createChannelReporter(task)(large);
  const nodes = createCurveNodes(256);
  large.place(nodes);
  const meshed = meshedStress(brief.joint, brief.loads, brief.cases, nodes, { coarseness: 2 }).loads.moment!;
  const size = Math.max(meshed.peak, -meshed.least);
  const difference = Math.abs(design.loads.moment!.peak - meshed.peak) / size;
  // Of first order in the area: some parts in ten of the difference are left.
  expect(difference).toBeGreaterThan(0.01);
  expect(design.accuracy! / difference).toBeGreaterThan(0.7);
  expect(design.accuracy! / difference).toBeLessThan(1.3);
});
