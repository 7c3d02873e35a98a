import {
  type ChannelTask,
  type Curve,
  channelBorder,
  createChannelReporter,
  createCurveNodes,
  createOutlineMeasure,
  type EvaluatedChannel,
  followOutline,
  hostOf,
  measureOutline,
  type ResolvedBrief,
} from '@lumenfront/core';
import { noteModel } from './note-model.js';
import { refuseChoices } from './refuse-choices.js';
import type { Workplace } from './workplace.js';

/** A search ends on its limits, up to the digits of a channel file. */
const rounding = 0.999;

const measureNodes = 512;

/**
 * The control contour is brought no nearer to the laminate than this: an outline may leave it by so much without harm,
 * and elements around a nearer contour would be needles. mm
 */
const leastLimit = 0.03;

/** Judges an outline; `what` names it in notes. */
export type JudgeChannel = (outline: Curve, what: string) => EvaluatedChannel;

/**
 * Evaluates outlines that need not keep the brief's wall and edge radius, such as the reference. The reduced model holds as
 * far as these reach; an outline beyond gets one of its own, made for the wall and edge radius that it has, and the
 * workplace is told so.
 */
export function createEvaluator(brief: ResolvedBrief, task: ChannelTask, workplace: Workplace): JudgeChannel {
  const judge = createChannelReporter(task);
  const { condensed } = hostOf(brief.joint);
  const { channel } = brief;
  return (outline, what) => {
    const nodes = createCurveNodes(measureNodes);
    outline.place(nodes);
    const measure = createOutlineMeasure();
    const followed = followOutline(brief, outline);
    measureOutline(nodes, channelBorder(followed), measure);
    const { wall, edgeRadius } = measure;
    if (wall >= rounding * channel.wall && edgeRadius >= rounding * channel.edgeRadius) return judge(outline);
    workplace.note(
      `note: ${what} has a wall of ${wall.toFixed(3)} mm and a least edge radius of ${edgeRadius.toFixed(3)} mm; the brief asks for ${channel.wall} and ${channel.edgeRadius} mm`,
    );
    if (!condensed || !(wall > 0)) return judge(outline);
    const own = {
      ...channel,
      wall: Math.min(channel.wall, Math.max(wall, leastLimit)),
      edgeRadius: Math.min(channel.edgeRadius, Math.max(edgeRadius, leastLimit)),
    };
    workplace.note(`note: the joint is solved once more, for ${what} alone`);
    return createChannelReporter(workplace.prepare({ ...followed, channel: own }))(outline);
  };
}

/** The same for a brief that is yet to be solved. */
export function prepareEvaluator(brief: ResolvedBrief, workplace: Workplace): JudgeChannel {
  refuseChoices(brief);
  const task = workplace.prepare(brief);
  noteModel(task.model, workplace);
  return createEvaluator(brief, task, workplace);
}
