import {
  type ChannelTask,
  type Curve,
  createChannelReporter,
  edgePart,
  governingPlaces,
  hostOf,
  InputError,
  type SolvedEdge,
  strengthDifference,
  type TaskBrief,
  UnmetError,
} from '@lumenfront/core';
import { type Deformation, deform, handleCount, undeformed, withHandle } from './deform.js';
import { packModel } from './packed-model.js';

/** What a page needs to solve outlines by itself: what it uses of the reduced model, and what fixes the task. */
export interface LiveData {
  /** `packModel` */
  readonly model: Uint8Array<ArrayBuffer>;
  readonly brief: TaskBrief;
  /** What strength is told by; absent on a plate. */
  readonly strength?: LiveStrength;
}

export interface LiveStrength {
  /** Points that are judged, of how many in the whole model. */
  readonly points: number;
  readonly of: number;
  /** Largest difference from the whole model, a share, of load factors and strengths retained around so many outlines changed by hand. */
  readonly difference: number;
  readonly outlines: number;
}

/** Designs of each kind, mirror-symmetric or not, that are changed to see which places fail. */
const mostDesigns = 8;

/**
 * Of a task whose model holds for all designs.
 *
 * @param outlines of the designs
 */
export function liveData(task: ChannelTask, outlines: readonly Curve[]): LiveData {
  const { joint, loads, cases, channel, strength, objective } = task;
  const brief = { joint, loads, cases, channel, strength, search: { objective } };
  if (!hostOf(joint).judgesSection) return { model: packModel(edgePart(task.model)), brief };
  const few = [true, false].flatMap((mirror) => spread(outlines.filter((one) => one.mirror === mirror)));
  const edges = edgesOf(task, few, asChosenFor);
  const model = governingPlaces(task, edges);
  const others = edgesOf(task, few, asChecked);
  const told = {
    points: model.places.points.length,
    of: task.model.places.points.length,
    difference: strengthDifference(task, model, others),
    outlines: others.length,
  };
  return { model: packModel(model), brief, strength: told };
}

/** Some of them, from the first to the last. */
function spread<T>(all: readonly T[]): T[] {
  const count = Math.min(mostDesigns, all.length);
  return Array.from(
    { length: count },
    (_, k) => all[count === 1 ? 0 : Math.round((k * (all.length - 1)) / (count - 1))]!,
  );
}

/** How outlines are changed to find the places that fail first, and others to see how well those tell the strength. */
const asChosenFor: readonly Partial<Deformation>[] = [
  {},
  { width: 1.4 },
  { height: 1.4 },
  { up: 0.5 },
  { right: 0.3 },
  { width: 0.6, height: 0.6 },
];
const asChecked: readonly Partial<Deformation>[] = [{}, { width: 1.2 }, { height: 0.8, up: -0.3 }];
/** How far one handle is moved in the check, mm. */
const dragged = 0.1;

/** Those that can be solved; where outlines are dragged, one handle of each. */
function edgesOf(
  task: ChannelTask,
  outlines: readonly Curve[],
  changes: readonly Partial<Deformation>[],
): SolvedEdge[] {
  const report = createChannelReporter({ ...task, model: edgePart(task.model) });
  const solved = (outline: Curve): SolvedEdge[] => {
    try {
      return [report(outline).edge];
    } catch (error) {
      if (error instanceof InputError || error instanceof UnmetError) return [];
      throw error;
    }
  };
  return outlines.flatMap((outline, k) => {
    const changed = changes.map((change) => ({ ...undeformed(), ...change, ...(outline.mirror ? { right: 0 } : {}) }));
    if (changes === asChecked)
      changed.push(withHandle(undeformed(), outline.mirror, k % handleCount, dragged, dragged));
    return changed.flatMap((one) => solved(deform(outline, one)));
  });
}
