import { type CheckDocument, type Curve, cuspDistanceOf, followOutline, type ResolvedBrief } from '@lumenfront/core';
import { compareModels } from './agreement.js';
import { crackGrowthOf } from './crack-growth.js';
import { prepareEvaluator } from './evaluator.js';
import { headerOf } from './header.js';
import { meshNodes } from './mesh-nodes.js';
import { doubtsOf } from './trust.js';
import type { Workplace } from './workplace.js';

/**
 * Stress of one outline in the joint of a brief, by the fast model and, unless `mesh` is false, by the independent mesh.
 *
 * @throws InputError for an outline that crosses itself or leaves the filler, and for cracks (strength.crackGrowth) too long for the section
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
  const nodes = meshNodes(outline, fast.nodes);
  // First: a crack that is too long is refused at once.
  const { growth, caution } = crackGrowthOf(brief, nodes);
  const meshing = await workplace.mesh(brief, 1);
  try {
    const meshed = await meshing.mesh({ nodes, coarseness: 1 });
    return {
      ...common,
      cautions: [...common.cautions, ...(caution === undefined ? [] : [caution])],
      ...{ meshed, difference: compareModels(fast, meshed) },
      ...rest,
      ...(growth === undefined ? {} : { crackGrowth: growth }),
    };
  } finally {
    await meshing.close();
  }
}
