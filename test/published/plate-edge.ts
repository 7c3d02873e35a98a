import { type Loads, reducePlate } from '../../packages/core/src/host/index.js';
import { type CurveNodes, createOutlineMeasure, measureOutline } from '../../packages/core/src/outline/index.js';
import { createStressModel, innerPoint } from '../../packages/core/src/stress/index.js';
import { referencePly } from '../fixtures/tee-reference.js';

/** Extremes of the hoop stress at the edge of a channel in an infinite plate under one load, by the fast model. */
export function plateEdge(loads: Loads, nodes: CurveNodes): { readonly peak: number; readonly least: number } {
  const model = createStressModel(reducePlate({ kind: 'plate', material: referencePly }), loads, []);
  return model.evaluate(nodes, false, pointInside(nodes)).loads[0]!;
}

/** A point well inside an outline. */
export function pointInside(nodes: CurveNodes): { readonly x: number; readonly y: number } {
  const measure = createOutlineMeasure();
  measureOutline(nodes, { distance: () => Number.POSITIVE_INFINITY }, measure);
  const inner = { x: 0, y: 0 };
  innerPoint(nodes, measure, inner);
  return inner;
}
