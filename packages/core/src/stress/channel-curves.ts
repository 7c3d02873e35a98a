import { type EdgeCurve, edgeCurve } from '../mesh/triangle/index.js';
import { type CurveNodes, createCurveNodes, writeMirrorImage } from '../outline/index.js';

/** The edges of all channels, as a mesh takes them: of the outline and, of a pair, of its mirror image. */
export function channelCurves(nodes: CurveNodes | undefined, pair: boolean): EdgeCurve[] {
  if (nodes === undefined) return [];
  if (!pair) return [edgeCurve(nodes)];
  const image = createCurveNodes(nodes.count);
  writeMirrorImage(nodes, image);
  return [edgeCurve(nodes), edgeCurve(image)];
}
