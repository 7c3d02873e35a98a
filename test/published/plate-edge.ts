import { type Loads, reducePlate } from '../../packages/core/src/host/index.js';
import type { CurveNodes } from '../../packages/core/src/outline/index.js';
import { createStressModel } from '../../packages/core/src/stress/index.js';
import { referencePly } from '../fixtures/tee-reference.js';

/** Extremes of the hoop stress at the edge of a channel in an infinite plate under one load, by the fast model. */
export function plateEdge(loads: Loads, nodes: CurveNodes): { readonly peak: number; readonly least: number } {
  const model = createStressModel(reducePlate({ kind: 'plate', material: referencePly }), loads, []);
  return model.evaluate(nodes, false).loads[0]!;
}
