import type { EdgeCurve } from '../../../mesh/triangle/index.js';
import { laminateHost } from '../host.js';
import type { LaminateJoint } from '../laminate.js';

/** A laminate as it is made around its channels: a pocket that follows them is as high as that asks for. */
export function followedJoint(joint: LaminateJoint, curves: readonly EdgeCurve[]): LaminateJoint {
  const { follows } = laminateHost.open(joint);
  return follows === undefined ? joint : (follows.jointAt(follows.heightFor(...heightsOf(curves))) as LaminateJoint);
}

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
