import { aroundChannel, cureLoad, type LoadCase, type Loads, type ReducedModel } from '../host/index.js';
import type { CurveNodes } from '../outline/index.js';
import { actingLoads, caseFactors, type SolvedEdge } from '../stress/index.js';
import { splitCase } from './case-split.js';
import { createChannelStress } from './channel-stress.js';
import type { FirstFailure } from './first-failure.js';

/** Which way a crack goes from where a joint fails first. */
export interface CrackCourse {
  /**
   * Whether a crack that starts there meets the channel: it does at the channel's own edge; from a point in the filler it goes straight, across
   * the largest principal stress of the case at its load factor (Erdogan & Sih, J. Basic Engng 85 (1963) 519-527: the crack opens across the
   * largest tension; that it stays straight in the field it starts in is an assumption). `undefined` where failure runs along an interface or
   * a ply, or nowhere.
   */
  meets(edge: SolvedEdge, loadCase: number, first: FirstFailure): boolean | undefined;
}

export function createCrackCourse(model: ReducedModel, loads: Loads, cases: readonly LoadCase[]): CrackCourse {
  const acting = actingLoads(model, loads);
  const names = acting.map(({ name }) => name);
  const cure = names.indexOf(cureLoad.name);
  const splits = cases.map((one) => splitCase(caseFactors(one, names), cure));
  const channel = createChannelStress(model, acting);
  return {
    meets(edge, loadCase, { place, factor, x, y }) {
      if (place === 'edge') return true;
      if (place !== aroundChannel || !Number.isFinite(factor)) return undefined;
      channel.take(edge);
      const { fixed, scaled } = splits[loadCase]!;
      let [xx, yy, xy] = [0, 0, 0];
      channel.at(x, y).forEach((stress, l) => {
        const share = fixed[l]! + factor * scaled[l]!;
        xx += share * stress.xx;
        yy += share * stress.yy;
        xy += share * stress.xy;
      });
      // Half the angle of Mohr's circle is that of the largest tension; the crack runs across it.
      const angle = Math.atan2(2 * xy, xx - yy) / 2 + Math.PI / 2;
      return crosses(edge, x, y, Math.cos(angle), Math.sin(angle));
    },
  };
}

/** Whether the straight line through a point has parts of a closed edge, or of one of the others, on both of its sides. */
function crosses({ each, several }: SolvedEdge, x: number, y: number, dx: number, dy: number): boolean {
  return each.some(({ nodes }) => crossesEdge(nodes, x, y, dx, dy) || (several && crossesEdge(nodes, -x, y, -dx, dy)));
}

function crossesEdge({ count, x: X, y: Y }: CurveNodes, x: number, y: number, dx: number, dy: number): boolean {
  let [left, right] = [false, false];
  for (let j = 0; j < count; j++) {
    const side = dx * (Y[j]! - y) - dy * (X[j]! - x);
    if (side > 0) left = true;
    else right = true;
  }
  return left && right;
}
