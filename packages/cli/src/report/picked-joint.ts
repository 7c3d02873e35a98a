import type { JointPictureRequest } from '../picture/index.js';
import type { ReportRequest } from './data.js';

/** The picture of the design that is shown first in its joint; none of a host without a shape, or where there is no design. */
export function pickedJoint({ shape, designs, picked = 0 }: ReportRequest): JointPictureRequest | undefined {
  const design = designs[picked];
  if (shape === undefined || design === undefined) return undefined;
  const { family, area, peak, outline, others = [], edge, cases, strength } = design;
  const ruling = edge && cases[edge.worstCase];
  const failure = strength?.cases[strength.worstCase];
  return {
    title: `${family}, ${area.toPrecision(3)} mm², ${peak.toFixed(1)} MPa`,
    shape,
    outline,
    others: others.map((other) => other.outline),
    ...(edge === undefined || ruling === undefined
      ? {}
      : {
          edge: {
            caseName: edge.worstCase,
            hoop: edge.hoop[edge.worstCase]!,
            othersHoop: others.map(({ hoop }) => hoop[edge.worstCase]!),
            peak: { stress: ruling.peak, at: ruling.at },
          },
        }),
    ...(failure === undefined ? {} : { firstFailure: { ...failure, caseName: strength!.worstCase } }),
  };
}
