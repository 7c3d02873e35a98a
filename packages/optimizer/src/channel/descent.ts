import {
  type ChannelScorer,
  createCurveNodes,
  createEdgeMemory,
  nodesNeeded,
  type OutlineFamily,
  profileGeometry,
  scoreAt,
  scoreSize,
} from '@lumenfront/core';
import { Archive } from '../front/index.js';
import { Minimax, type Profile } from '../method/index.js';
import { type Solution, solution } from '../problem.js';
import type { DescentGoal, DescentRequest, DescentResult, ScoredOutline } from './evaluator.js';
import { evaluationOf, familySpace } from './family-space.js';

/** Nodes of a descent at most: many active functions are costly, and the designs reported are evaluated anew. */
const mostProfileNodes = 128;
/** …and at least: an outline grows sharper tips on its way. */
const fewestProfileNodes = 96;
/** Kept from every limit, so that an outline that has come to it is admissible after rounding and between the nodes. */
const margin = 0.0005;
const curvatureMargin = 0.003;
const smallestRadius = 1e-4;
/** Outlines on the way of a descent that are worth telling. */
const mostPassed = 40;

/** Runs descents of one task's families. `judged`: scores hold a limit on strength. */
export function createDescender(
  scorer: ChannelScorer,
  judged: boolean,
): (family: number, request: DescentRequest) => DescentResult {
  const firstLook = createCurveNodes(64);
  const nodesFor = (family: OutlineFamily, x: Float64Array): number => {
    family.place(x, firstLook);
    return Math.min(Math.max(fewestProfileNodes, nodesNeeded(firstLook, family.fewestNodes)), mostProfileNodes);
  };

  return (index, { x, goal, radius, slopes, gain, most }) => {
    const family = scorer.families[index]!;
    const space = familySpace(family);
    const nodes = nodesFor(family, x);
    const seen = profileGeometry * (family.mirror ? nodes / 2 : nodes);
    const limits = scorer.profileLimits(index, nodes);
    const method = new Minimax(space.bounds, x, { radius, smallest: smallestRadius, gain });
    // The outlines of a descent are like each other: what solved one is where the next begins.
    const memory = createEdgeMemory();
    const profile = new Float64Array(scorer.profileSize(index, nodes));
    const passed = new Archive<Solution & ScoredOutline>({ size: mostPassed });
    let nearest: (Solution & ScoredOutline) | undefined;
    let evaluations = 0;
    let stop: string | undefined;
    for (;;) {
      const batch = method.ask();
      if (method.stop !== undefined) stop = method.stop;
      else if (method.wantsSlopes && method.slopesTaken >= slopes) stop = 'slopes taken';
      // The points of a slope belong together: what does not fit the budget as a whole is not begun.
      else if (evaluations + batch.length > most) stop = 'budget spent';
      if (stop !== undefined) break;
      evaluations += batch.length;
      method.tell(
        batch.map((point) => {
          scorer.profile(index, point, nodes, profile, memory);
          const score = profile.slice(0, scoreSize);
          const found = { ...solution(space, point, evaluationOf(score)), score };
          if (found.violation === 0) passed.add(found);
          else if (nearest === undefined || found.violation < nearest.violation) nearest = found;
          return readProfile(profile, seen, limits, goal, judged);
        }),
      );
    }
    return {
      x: method.x,
      value: method.value,
      violation: method.violation,
      stop,
      evaluations,
      passed: [...passed.front(), ...(nearest === undefined ? [] : [nearest])].map(({ x, score }) => ({ x, score })),
    };
  };
}

/** A scored profile, with so many limits and `seen` values each of wall and curvature, as a descent reads it; undefined where the outline could not be solved. */
function readProfile(
  scored: Float64Array,
  seen: number,
  limits: number,
  goal: DescentGoal,
  judged: boolean,
): Profile | undefined {
  const values = scored.subarray(scoreSize);
  if (!values.every(Number.isFinite)) return undefined;
  const costs = values.slice(0, values.length - 2 * seen - limits);
  const kept = values.subarray(costs.length, costs.length + limits).map((value) => value + margin);
  const geometry = values
    .slice(values.length - 2 * seen)
    .map((value, i) => value + (i < seen ? margin : curvatureMargin));
  // The sharpest edge and the thinnest wall lie between the nodes, where a descent would otherwise find them.
  const between = [scored[scoreAt.room]! + margin, scored[scoreAt.edgeRadius]! + margin];
  // A scalar has kinks: it stands in only where the profile has no smooth limits of strength.
  const strength = judged && limits === 0 ? [Math.max(-1, scored[scoreAt.strength]!) + margin] : [];
  const size = scored[scoreAt.size]!;
  if ('size' in goal) {
    const lacking = goal.size > 0 ? [1 + margin - size / goal.size] : [];
    return {
      functions: costs,
      constraints: Float64Array.of(...geometry, ...between, ...kept, ...strength, ...lacking),
    };
  }
  const excess = costs.map((value) => value / goal.cost - 1);
  return {
    functions: Float64Array.of(-size),
    constraints: Float64Array.of(...geometry, ...between, ...kept, ...strength, ...excess),
  };
}
