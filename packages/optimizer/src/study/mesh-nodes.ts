import { type Curve, type CurveNodes, createCurveNodes } from '@lumenfront/core';

/** Nodes through which a mesh follows an outline, at least. */
const leastNodes = 256;

/** An outline as the mesh wants it; `nodes` is what the fast model took. */
export function meshNodes(outline: Curve, nodes: number): CurveNodes {
  const sample = createCurveNodes(Math.max(leastNodes, nodes));
  outline.place(sample);
  return sample;
}
