// The stress of an outline: hoop stress along the edge of an ellipse in the joint of the starter brief.
import {
  createCurveNodes,
  createStressModel,
  ellipseFamily,
  readBrief,
  reduceJoint,
  starterBrief,
} from '@lumenfront/core';

const { joint, channel, loads, cases } = await readBrief(starterBrief);
const model = reduceJoint(joint, channel); // once for all outlines; kept-model.ts keeps it
const ellipse = ellipseFamily({ mirror: true, xMin: -3, xMax: 3, yMin: 0, yMax: 4, edgeRadius: 0.1 });

const nodes = createCurveNodes(64);
ellipse.place([2, 2, 1], nodes); // y, width, height in mm
const { caseHoop, worst, worstCase } = createStressModel(model, loads, cases).evaluate(nodes, false);

const hoop = caseHoop[worstCase]!; // MPa, at nodes.x, nodes.y
console.log(cases[worstCase]!.name, hoop.length, worst / Math.max(...hoop) < 1.01); // limit 64 true
