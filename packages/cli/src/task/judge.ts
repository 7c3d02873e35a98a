import {
  type ChannelTask,
  type Curve,
  createChannelReporter,
  createStrengthReporter,
  type EvaluatedChannel,
  type StrengthReport,
  type StrengthWish,
} from '@lumenfront/core';

/** A channel with the stress at its edge and, for who asks, what it leaves of the joint. */
export interface JudgedChannel extends EvaluatedChannel {
  /** Strength of the whole joint; `undefined` on a plate, of which the edge is all that can fail. */
  readonly strength: () => StrengthReport | undefined;
}

/** Judges single channels of one task for a result; throws as `createChannelReporter`. */
export function createJudge(task: ChannelTask, wish: StrengthWish): (outline: Curve) => JudgedChannel {
  const report = createChannelReporter(task);
  let strength: ((outline: Curve) => StrengthReport) | undefined;
  return (outline) => ({
    ...report(outline),
    strength() {
      if (task.joint.kind === 'plate') return undefined;
      strength ??= createStrengthReporter(task, wish);
      return strength(outline);
    },
  });
}
