import {
  type Curve,
  type DesignDocument,
  outlineOf,
  type ReferenceChannel,
  type ResolvedBrief,
} from '@lumenfront/core';
import type { JudgeChannel } from './evaluator.js';
import type { ReportedOutline } from './report-outlines.js';

/** The reference channel of a brief as an outline of its family. */
export function referenceData({
  family,
  at: [x, y],
  width,
  height,
}: ReferenceChannel): Pick<DesignDocument, 'family' | 'parameters'> {
  return { family, parameters: x === 0 ? { y, width, height } : { x, y, width, height, turn: 0 } };
}

/** The same as a curve, wherever it lies. */
export function referenceCurve(reference: ReferenceChannel): Curve {
  const {
    at: [x, y],
    width,
    height,
  } = reference;
  const room = { xMin: x - width, xMax: x + width, yMin: y - height, yMax: y + height };
  return outlineOf(referenceData(reference), { ...room, mirror: x === 0, edgeRadius: 0 });
}

/** The reference channel of a brief with its figures. */
export function referenceDesign({ channel }: Pick<ResolvedBrief, 'channel'>, judge: JudgeChannel): DesignDocument {
  const wanted = channel.reference;
  const { design, strengthSummary } = judge(referenceCurve(wanted), 'the reference channel');
  return { ...referenceData(wanted), ...figuresOf({ design, strength: strengthSummary() }) };
}

/** What a result holds of a reported channel. */
export function figuresOf({ design, strength }: ReportedOutline): Omit<DesignDocument, 'family' | 'parameters'> {
  return { ...design, ...(strength === undefined ? {} : { strength }) };
}
