import {
  type ChannelTask,
  type Curve,
  createChannelReporter,
  createStrengthReporter,
  type EvaluatedChannel,
  type StrengthReport,
  type StrengthReporter,
  type StrengthSummary,
  type StrengthWish,
} from '@lumenfront/core';

/** A channel with the stress at its edge and, for who asks, what it leaves of the joint. */
export interface JudgedChannel extends EvaluatedChannel {
  /** Strength of the whole joint, in brief and case by case; `undefined` on a plate, of which the edge is all that can fail. */
  readonly strengthSummary: () => StrengthSummary | undefined;
  readonly strength: () => StrengthReport | undefined;
}

/** Judges single channels of one task for a result; throws as `createChannelReporter`. */
export function createJudge(task: ChannelTask, wish: StrengthWish): (outline: Curve) => JudgedChannel {
  const report = createChannelReporter(task);
  let reporter: StrengthReporter | undefined;
  const strengthOf = () => {
    if (task.joint.kind === 'plate') return undefined;
    reporter ??= createStrengthReporter(task, wish);
    return reporter;
  };
  return (outline) => {
    const channel = report(outline);
    return {
      ...channel,
      strengthSummary: () => strengthOf()?.summarise(channel.edge),
      strength: () => strengthOf()?.report(channel.edge),
    };
  };
}
