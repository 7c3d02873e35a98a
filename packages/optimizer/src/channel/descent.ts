import {
  type ChannelProfile,
  type ChannelScorer,
  createCurveNodes,
  nodesNeeded,
  type OutlineFamily,
  scoreAt,
  scoreSize,
} from '@lumenfront/core';
import { Archive } from '../front/index.js';
import { Minimax, type Profile } from '../method/index.js';
import { type Solution, solution } from '../problem.js';
import type { DescentGoal, DescentRequest, DescentResult, ScoredOutline } from './evaluator.js';
import { evaluationOf, familySpace } from './family-space.js';

/**
 * Nodes of a descent at most: many active functions are costly. Around insets, and edges as sharp as 1/200 of the bend radius, peaks are then up to 0.7 %
 * off; what is told of such outlines is scored anew, with the nodes that they need.
 */
const mostProfileNodes = 128;
/** …and at least: an outline grows sharper tips on its way. */
const fewestProfileNodes = 96;
/** Kept from every limit, so that an outline that has come to it is admissible after rounding and between the nodes. */
const margin = 0.0005;
const curvatureMargin = 0.003;
const smallestRadius = 1e-4;
/** Outlines on the way of a descent that are worth telling. */
const mostPassed = 40;

/** Runs descents of one task's families. */
export function createDescender(scorer: ChannelScorer): (family: number, request: DescentRequest) => DescentResult {
  const firstLook = createCurveNodes(64);
  const needed = (family: OutlineFamily, x: Float64Array): number => {
    family.place(x, firstLook);
    return nodesNeeded(firstLook, family.fewestNodes);
  };
  const nodesFor = (family: OutlineFamily, x: Float64Array): number =>
    Math.min(Math.max(fewestProfileNodes, needed(family, x)), mostProfileNodes);

  return (index, { x, goal, radius, slopes, gain, most }) => {
    const family = scorer.families[index]!;
    const space = familySpace(family);
    const method = new Minimax(space.bounds, x, { radius, smallest: smallestRadius, gain });
    const profile = scorer.createProfile(index, nodesFor(family, x));
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
          const solved = scorer.profile(point, profile);
          const score = profile.score.slice();
          const found = { ...solution(space, point, evaluationOf(score)), score };
          if (found.violation === 0) passed.add(found);
          else if (nearest === undefined || found.violation < nearest.violation) nearest = found;
          return solved ? readProfile(profile, goal) : undefined;
        }),
      );
    }
    return {
      x: method.x,
      value: method.value,
      violation: method.violation,
      stop,
      evaluations,
      passed: [...passed.front(), ...(nearest === undefined ? [] : [nearest])].map(({ x, score }) => {
        if (needed(family, x) <= profile.count) return { x, score };
        const anew = new Float64Array(scoreSize);
        scorer.score(index, x, anew);
        return { x, score: anew };
      }),
    };
  };
}

/** A profile as a descent reads it. */
function readProfile({ score, functions, strength, room, edgeRadius }: ChannelProfile, goal: DescentGoal): Profile {
  const kept = (values: Float64Array, by: number) => values.map((value) => value + by);
  const constraints = [
    ...kept(room, margin),
    ...kept(edgeRadius, curvatureMargin),
    // The sharpest edge and the thinnest wall lie between the nodes, where a descent would otherwise find them.
    score[scoreAt.room]! + margin,
    score[scoreAt.edgeRadius]! + margin,
    ...kept(strength, margin),
  ];
  const size = score[scoreAt.size]!;
  if ('size' in goal) {
    const lacking = goal.size > 0 ? [1 + margin - size / goal.size] : [];
    return { functions: functions.slice(), constraints: new Float64Array([...constraints, ...lacking]) };
  }
  const excess = functions.map((value) => value / goal.cost - 1);
  return { functions: Float64Array.of(-size), constraints: new Float64Array([...constraints, ...excess]) };
}
