import { InputError } from '../errors.js';
import type { LoadCase, LoadName } from '../host/index.js';

/** Factor of each of `loads` in a case. Throws InputError where the case names another load. */
export function caseFactors({ name, factors }: LoadCase, loads: readonly LoadName[]): Float64Array {
  for (const load of Object.keys(factors))
    if (!loads.includes(load as LoadName))
      throw new InputError({
        path: `cases.${name}.${load}`,
        expected: `a load that is given: ${loads.join(', ')}`,
        received: load,
        remedy: 'give the load or take it out of the case',
      });
  return Float64Array.from(loads, (load) => factors[load] ?? 0);
}
