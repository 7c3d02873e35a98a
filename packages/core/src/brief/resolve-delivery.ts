import { InputError } from '../errors.js';
import { completeDelivery } from '../flow/index.js';
import { cureLoad, type LoadCase, type Loads } from '../host/index.js';
import { nearestName, type ProblemList } from '../input/index.js';
import type { DeliveryWish } from './resolved.js';
import type { BriefData } from './schema.js';

/** @param loads and `cases` that were resolved already */
export function resolveDelivery(
  delivery: BriefData['delivery'],
  loads: Loads,
  cases: readonly LoadCase[],
  problems: ProblemList,
): DeliveryWish | undefined {
  const { during, ...section } = delivery;
  const acting = during === undefined ? atRest(loads) : cases.find((one) => one.name === during);
  if (acting === undefined) {
    // Why there are no cases has been told.
    if (cases.length === 0) return undefined;
    const names = cases.map((one) => one.name);
    const near = nearestName(during!, names);
    problems.add(
      ['delivery', 'during'],
      `a case: ${names.slice(0, 20).join(', ')}`,
      near === undefined ? 'name one of these' : `did you mean '${near}'?`,
    );
    return undefined;
  }
  try {
    return { ...completeDelivery(section), during: acting };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    problems.adopt(error);
    return undefined;
  }
}

/** A joint that is being supplied carries no load but what its cure left in it. */
function atRest(loads: Loads): LoadCase {
  return loads[cureLoad.name] === undefined
    ? { name: 'no load', factors: {} }
    : { name: 'cure alone', factors: { [cureLoad.name]: 1 } };
}
