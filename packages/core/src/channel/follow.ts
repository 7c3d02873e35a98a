import { createMovingModel, hostOf, type Joint, modelAt, modelBorder, type ReducedModel } from '../host/index.js';
import { type Border, type Curve, type CurveNodes, createCurveNodes, highestOf, lowestOf } from '../outline/index.js';
import { borderOfAll, type ChannelTask, channelBorder, sideBySide } from './task.js';

/** What lies around the outlines of a task: of a pocket that follows its channel, what lies around the outline that was taken last. */
export interface Surroundings {
  /** Overwritten by the next outline. */
  readonly model: ReducedModel;
  readonly border: Border;
  /** The control contour. */
  readonly contour: Border;
  /** Takes an outline: border and contour become those of its pocket. Allocates nothing. */
  take(nodes: CurveNodes): void;
  /** Makes the model that of the outline; true if its numbers have changed. Allocates nothing. */
  fill(): boolean;
}

export function createSurroundings(task: Pick<ChannelTask, 'joint' | 'channel' | 'model'>): Surroundings {
  const { model } = task;
  const host = hostOf(task.joint);
  const { follows } = host;
  if (follows === undefined || model.heights === undefined)
    return {
      model,
      border: channelBorder(task),
      contour: borderOfAll(modelBorder(model), sideBySide(task.channel)),
      take() {},
      fill: () => false,
    };
  const moving = createMovingModel(model);
  let filled = Number.NaN;
  let height = Number.NaN;
  return {
    model: moving.model,
    border: host.border,
    contour: modelBorder(moving.model),
    take(nodes) {
      height = follows.heightFor(lowestOf(nodes), highestOf(nodes));
      follows.moveTo(height);
      moving.moveTo(height);
    },
    fill() {
      if (height === filled) return false;
      moving.fillEdge();
      filled = height;
      return true;
    },
  };
}

/** Tell the height of an outline to 1e-6 of it. */
const heightNodes = 512;

/** Height of the pocket that an outline asks for, mm; undefined where pockets do not follow. */
export function pocketHeight(joint: Joint, outline: Curve): number | undefined {
  const { follows } = hostOf(joint);
  if (follows === undefined) return undefined;
  const nodes = createCurveNodes(heightNodes);
  outline.place(nodes);
  return follows.heightFor(lowestOf(nodes), highestOf(nodes));
}

/** Anything with a joint (a brief, a task), the joint with the pocket that an outline asks for; itself where pockets do not follow. */
export function followOutline<Of extends { readonly joint: Joint; readonly model?: ReducedModel }>(
  of: Of,
  outline: Curve,
): Of {
  const height = pocketHeight(of.joint, outline);
  if (height === undefined) return of;
  return {
    ...of,
    joint: hostOf(of.joint).follows!.jointAt(height),
    ...(of.model?.heights === undefined ? {} : { model: modelAt(of.model, height) }),
  };
}
