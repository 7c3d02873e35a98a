import type { Zod } from '../input/index.js';
import { design } from './design.js';
import { byName, group, type Of } from './figure.js';
import { allow, header } from './header.js';
import { search } from './search.js';

export function pick(z: Zod) {
  return group(
    z,
    {
      ...header(z, 'pick'),
      design: design(z).meta({ description: 'The largest channel within the allowed peak.' }),
      families: byName(z, design(z), 'The largest channel of each family that has one.'),
      reference: design(z).meta({ description: 'The reference channel.' }),
      allow: allow(z),
      search: group(z, search(z), 'How the search went.'),
    },
    'The result of pick.',
  );
}

/** The result of `pick`. */
export interface PickDocument extends Of<typeof pick> {}
