import type { EdgeCurve } from '../../../mesh/triangle/index.js';
import type { HostCheck } from '../../contract.js';
import { laminateHost } from '../host.js';
import type { LaminateJoint } from '../laminate.js';
import { meshLaminateLoads } from './solve.js';

/** The independent check of a flat laminate, in cubic triangles. */
export const laminateCheck: HostCheck<LaminateJoint> = {
  mesh: (joint, loads, curves, coarseness) => {
    // A pocket that follows its channel is meshed as high as that asks for.
    const { follows } = laminateHost.open(joint);
    const meshed =
      follows === undefined ? joint : (follows.jointAt(follows.heightFor(...heightsOf(curves))) as LaminateJoint);
    return meshLaminateLoads(meshed, loads, curves, coarseness);
  },
};

/** From where to where curves reach. */
function heightsOf(curves: readonly EdgeCurve[]): readonly [bottom: number, top: number] {
  const point = new Float64Array(5);
  let [bottom, top] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const curve of curves)
    for (let k = 0; k < curveSamples; k++) {
      curve.at((curve.length * k) / curveSamples, point);
      bottom = Math.min(bottom, point[1]!);
      top = Math.max(top, point[1]!);
    }
  return [bottom, top];
}

/** Tell the height of a curve to 1e-5 of it. */
const curveSamples = 1024;
