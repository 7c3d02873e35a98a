import { type CheckDocument, type Curve, cuspDistanceOf, followOutline, type ResolvedBrief } from '@lumenfront/core';
import { compareModels } from './agreement.js';
import { prepareEvaluator } from './evaluator.js';
import { headerOf } from './header.js';
import { meshNodes } from './mesh-nodes.js';
import { doubtsOf } from './trust.js';
import type { Workplace } from './workplace.js';

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
  const { area, perimeter, conductance, width, height, wall, minEdgeRadius, pair, group, row, pocketHeight, ...fast } =
    judged.design;
  const strength = judged.strength();
  const header = headerOf('check', brief, workplace);
  const common = {
    ...header,
    cautions: [...header.cautions, ...doubtsOf(judged.design)],
    ...{ area, perimeter, conductance, width, height, wall, minEdgeRadius },
    ...(pair === undefined ? {} : { pair }),
    ...(group === undefined ? {} : { group }),
    ...(row === undefined ? {} : { row }),
    ...(pocketHeight === undefined ? {} : { pocketHeight }),
    fast,
  };
  const cuspDistance = cuspDistanceOf(followOutline(brief, outline).joint, brief.strength.cuspDistance);
  const rest = {
    ...(strength === undefined ? {} : { strength: { ...strength, cuspDistance, edge: brief.strength.edge } }),
    allow: brief.allow,
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
