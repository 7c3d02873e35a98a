import type { EdgeLimit } from '../flow/index.js';
import type { LoadCase, Loads } from '../host/index.js';
import type { ChannelDesign } from '../result/index.js';

/** Case names of `withSupply`. */
const ofPressure = 'a pressure of 1 MPa';
const meanwhile = 'what acts meanwhile';

/**
 * The same brief or task, with the cases that `supplyLimit` asks for: a pressure of 1 MPa in the channel alone, and `during`
 * without any pressure of its own.
 */
export function withSupply<Task extends { readonly loads: Loads; readonly cases: readonly LoadCase[] }>(
  task: Task,
  during: LoadCase,
): Task {
  const { pressure: _replaced, ...factors } = during.factors;
  return {
    ...task,
    loads: { ...task.loads, pressure: { pressure: 1 } },
    cases: [
      { name: ofPressure, factors: { pressure: 1 } },
      { name: meanwhile, factors },
    ],
  };
}

/**
 * What the edge of a channel bears of a supply: the largest tension per pressure, and what the case that acts meanwhile leaves
 * of the allowed peak. Both peaks count as if they lay at one place, which is on the safe side; where nothing is left the
 * allowed stress is 0.
 *
 * @param design as evaluated for a task of `withSupply`
 * @param allow allowed peak edge stress, MPa
 */
export function supplyLimit(design: Pick<ChannelDesign, 'cases'>, allow: number): EdgeLimit {
  return {
    stressPerPressure: design.cases[ofPressure]!.peak,
    allowedStress: Math.max(0, allow - Math.max(0, design.cases[meanwhile]!.peak)),
  };
}
