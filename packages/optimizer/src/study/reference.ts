import {
  type Curve,
  type DesignDocument,
  type EvaluatedChannel,
  outlineOf,
  type ReferenceChannel,
  type ResolvedBrief,
} from '@lumenfront/core';
import type { JudgeChannel } from './evaluator.js';

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
  return { ...referenceData(wanted), ...figuresOf(judge(referenceCurve(wanted), 'the reference channel')) };
}

/** What a result holds of a judged channel. */
export function figuresOf({
  design,
  strengthSummary,
}: EvaluatedChannel): Omit<DesignDocument, 'family' | 'parameters'> {
  const strength = strengthSummary();
  return { ...design, ...(strength === undefined ? {} : { strength }) };
}
