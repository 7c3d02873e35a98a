import {
  type Border,
  type CurveNodes,
  centroidRates,
  createOutlineMeasure,
  hasMiddle,
  measureOutline,
  type NodeRates,
} from '../outline/index.js';
import { type ChannelTask, pitchTolerance } from './task.js';

/** Room that an outline of several channels has as a whole: of the largest width and height, and of the pitch that it must keep, mm. */
export function createGroupRoom({ channel: { group, largest } }: ChannelTask) {
  const pitch = group === undefined || hasMiddle(group) ? undefined : group.pitch;
  const measure = createOutlineMeasure();
  const nowhere: Border = { distance: () => Number.POSITIVE_INFINITY };
  return {
    count: (largest === undefined ? 0 : 2) + (pitch === undefined ? 0 : 2),
    write(nodes: CurveNodes, out: Float64Array, at: number): void {
      measureOutline(nodes, nowhere, measure);
      let next = at;
      if (largest !== undefined) {
        out[next++] = largest.width - extentOf(nodes.x).size;
        out[next++] = largest.height - extentOf(nodes.y).size;
      }
      if (pitch === undefined) return;
      const off = 2 * measure.centroidX - pitch;
      out[next++] = pitchTolerance * pitch - off;
      out[next] = pitchTolerance * pitch + off;
    },
    /** One row to a value of `write`. */
    writeRates(nodes: CurveNodes, rates: NodeRates, size: number, out: Float64Array): void {
      const row = new Float64Array(size);
      let next = 0;
      const put = (factor: number) => {
        for (const rate of row) out[next++] = factor * rate;
      };
      for (const axis of largest === undefined ? [] : (['x', 'y'] as const)) {
        const { least, most } = extentOf(nodes[axis]);
        for (let p = 0, from = 0; p < size; p++, from += nodes.count)
          row[p] = rates[axis][from + most]! - rates[axis][from + least]!;
        put(-1);
      }
      if (pitch === undefined) return;
      centroidRates(nodes, rates, size, row);
      put(-2);
      put(2);
    },
  };
}

/** Width or height as the nodes tell it, mm, and which of them are outermost. */
function extentOf(values: Float64Array): { readonly least: number; readonly most: number; readonly size: number } {
  let least = 0;
  let most = 0;
  for (let j = 1; j < values.length; j++) {
    if (values[j]! < values[least]!) least = j;
    if (values[j]! > values[most]!) most = j;
  }
  return { least, most, size: values[most]! - values[least]! };
}
