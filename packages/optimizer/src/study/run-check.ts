import {
  type ChannelDesign,
  type Curve,
  cuspDistanceOf,
  type ResolvedBrief,
  type StrengthReport,
  type StrengthWish,
} from '@lumenfront/core';
import { type Agreement, compareModels } from './agreement.js';
import { prepareEvaluator } from './evaluator.js';
import type { MeshedEdge } from './mesh-edge.js';
import { meshNodes } from './mesh-nodes.js';
import type { Workplace } from './workplace.js';

/** The result of `check`. mm, MPa; `conductance` in mm4. */
export interface CheckDocument
  extends Pick<ChannelDesign, 'area' | 'perimeter' | 'conductance' | 'width' | 'height' | 'wall' | 'minEdgeRadius'> {
  readonly title: string;
  readonly fast: Pick<ChannelDesign, 'peak' | 'worstCase' | 'loads' | 'cases' | 'nodes' | 'change'>;
  /** Left out where only the fast model was asked. */
  readonly meshed?: MeshedEdge;
  readonly difference?: Agreement;
  /** Of the whole joint; left out on a plate. */
  readonly strength?: CheckedStrength;
  /** Allowed peak edge stress. */
  readonly allow: number;
  readonly cautions: readonly string[];
  readonly versions: Readonly<Record<string, string>>;
}

export interface CheckedStrength extends StrengthReport {
  /** Places nearer to a tip of the filler were not judged. mm */
  readonly cuspDistance: number;
  /** How the edge was judged. */
  readonly edge: StrengthWish['edge'];
}

/**
 * Stress of one outline in the joint of a brief, by the fast model and, unless `mesh` is false, by the independent mesh.
 *
 * @throws InputError for an outline that crosses itself or leaves the filler
 */
export async function runCheck(
  brief: ResolvedBrief,
  outline: Curve,
  { mesh, workplace }: { readonly mesh: boolean; readonly workplace: Workplace },
): Promise<CheckDocument> {
  const evaluate = prepareEvaluator(brief, workplace);
  const judged = evaluate(outline, 'the channel');
  const { area, perimeter, conductance, width, height, wall, minEdgeRadius, ...fast } = judged.design;
  const strength = judged.strength();
  const common = {
    title: brief.title,
    ...{ area, perimeter, conductance, width, height, wall, minEdgeRadius },
    fast,
  };
  const cuspDistance = cuspDistanceOf(brief.joint, brief.strength.cuspDistance);
  const rest = {
    ...(strength === undefined ? {} : { strength: { ...strength, cuspDistance, edge: brief.strength.edge } }),
    allow: brief.allow,
    cautions: brief.cautions,
    versions: workplace.versions,
  };
  if (!mesh) return { ...common, ...rest };
  const meshing = await workplace.mesh(brief, 1);
  try {
    const meshed = await meshing.mesh({ nodes: meshNodes(outline, fast.nodes), coarseness: 1 });
    return { ...common, meshed, difference: compareModels(fast, meshed), ...rest };
  } finally {
    await meshing.close();
  }
}
