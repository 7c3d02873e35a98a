import type { JointPictureRequest } from '../picture/index.js';
import type { ReportRequest } from './data.js';

/** The picture of the design that is shown first in its joint; none of a host without a shape, or where there is no design. */
export function pickedJoint({
  shape,
  designs,
  picked = 0,
  firstFailure,
}: ReportRequest): JointPictureRequest | undefined {
  const design = designs[picked];
  if (shape === undefined || design === undefined) return undefined;
  const { family, area, peak, outline, edge, cases } = design;
  const ruling = edge === undefined ? undefined : cases[edge.caseName];
  return {
    title: `${family}, ${area.toPrecision(3)} mm², ${peak.toFixed(1)} MPa`,
    shape,
    outline,
    ...(edge === undefined || ruling === undefined
      ? {}
      : { edge: { ...edge, peak: { stress: ruling.peak, at: ruling.at } } }),
    ...(firstFailure === undefined ? {} : { firstFailure }),
  };
}
