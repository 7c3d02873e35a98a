import {
  type ChannelDesign,
  type Curve,
  createCurveNodes,
  type MeshedStress,
  meshedStress,
  type ResolvedBrief,
} from '@lumenfront/core';
import { prepareTask } from '../prepare/index.js';
import { type Agreement, compareModels } from './agreement.js';
import { createEvaluator } from './evaluator.js';
import { versions } from './versions.js';

/** The result of `check`. mm, MPa */
export interface CheckDocument
  extends Pick<ChannelDesign, 'area' | 'perimeter' | 'width' | 'height' | 'wall' | 'minEdgeRadius'> {
  readonly title: string;
  readonly fast: Pick<ChannelDesign, 'peak' | 'worstCase' | 'loads' | 'cases' | 'nodes' | 'change'>;
  /** Left out where only the fast model was asked. */
  readonly meshed?: Pick<MeshedStress, 'loads' | 'cases' | 'error' | 'meshes'>;
  readonly difference?: Agreement;
  /** Allowed peak edge stress. */
  readonly allow: number;
  readonly cautions: readonly string[];
  readonly versions: Readonly<Record<string, string>>;
}

/** Nodes through which the mesh follows an outline, at least. */
const leastMeshNodes = 256;

/**
 * Stress of one outline in the joint of a brief, by the fast model and, unless `mesh` is false, by the independent mesh.
 *
 * @throws InputError for an outline that crosses itself or leaves the filler
 */
export function runCheck(
  brief: ResolvedBrief,
  outline: Curve,
  { mesh, note }: { readonly mesh: boolean; readonly note: (text: string) => void },
): CheckDocument {
  const evaluate = createEvaluator(brief, prepareTask(brief, note), note);
  const { area, perimeter, width, height, wall, minEdgeRadius, ...fast } = evaluate(outline, 'the channel').design;
  const common = {
    title: brief.title,
    ...{ area, perimeter, width, height, wall, minEdgeRadius },
    fast,
  };
  const rest = { allow: brief.allow, cautions: brief.cautions, versions };
  if (!mesh) return { ...common, ...rest };
  const meshed = meshOutline(brief, outline, fast.nodes);
  return { ...common, meshed, difference: compareModels(fast, meshed), ...rest };
}

/** Stress of an outline by the independent mesh; `nodes` is what the fast model took. */
export function meshOutline(
  { joint, loads, cases }: Pick<ResolvedBrief, 'joint' | 'loads' | 'cases'>,
  outline: Curve,
  nodes: number,
): Pick<MeshedStress, 'loads' | 'cases' | 'error' | 'meshes'> {
  const sample = createCurveNodes(Math.max(leastMeshNodes, nodes));
  outline.place(sample);
  const stress = meshedStress(joint, loads, cases, sample);
  return { loads: stress.loads, cases: stress.cases, error: stress.error, meshes: stress.meshes };
}
