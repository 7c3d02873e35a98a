import {
  type ChannelDesign,
  type ChannelTask,
  channelRoom,
  createChannelReporter,
  type OutlineData,
  outlineOf,
  type StrengthSummary,
} from '@lumenfront/core';
import { pause } from '../pause.js';

/** An outline as it was evaluated for a report. Plain data. */
export interface ReportedOutline {
  readonly design: ChannelDesign;
  /** Of the whole joint; undefined on a plate, of which the edge is all that can fail. */
  readonly strength: StrengthSummary | undefined;
}

/** Evaluates outlines of one task with the nodes that they need, twice those, and the strength of the joint (core's `createChannelReporter`), in their order. */
export type ReportOutlines = (outlines: readonly OutlineData[]) => Promise<readonly ReportedOutline[]>;

/** Reports in this thread, which it leaves to others between two outlines. What reports need is made with the first. */
export function createOutlineReports(task: ChannelTask): ReportOutlines {
  const room = channelRoom(task);
  let evaluate: ReturnType<typeof createChannelReporter> | undefined;
  return async (outlines) => {
    evaluate ??= createChannelReporter(task);
    const reported: ReportedOutline[] = [];
    for (const outline of outlines) {
      await pause();
      const { design, strengthSummary } = evaluate(outlineOf(outline, room));
      reported.push({ design, strength: strengthSummary() });
    }
    return reported;
  };
}
