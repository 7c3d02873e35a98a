import { type EdgeCurve, edgeCurve } from '../mesh/triangle/index.js';
import { alone, type CurveNodes, placedChannels, type SideBySide } from '../outline/index.js';

/** The edges of all channels, as a mesh takes them. */
export function channelCurves(nodes: CurveNodes | undefined, channels: SideBySide = alone): EdgeCurve[] {
  return nodes === undefined ? [] : placedChannels(nodes, channels).map((one) => edgeCurve(one.nodes));
}
