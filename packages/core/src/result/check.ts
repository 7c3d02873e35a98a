import type { Zod } from '../input/index.js';
import { crackGrowth } from './crack.js';
import { edgeFigures, outlineFigures } from './design.js';
import { agreement, meshedEdge } from './edge.js';
import { group, type Of } from './figure.js';
import { allow, header } from './header.js';
import { checkedStrength } from './strength.js';

export function check(z: Zod) {
  return group(
    z,
    {
      ...header(z, 'check'),
      ...outlineFigures(z),
      fast: group(z, edgeFigures(z), 'What the fast model says of the edge.'),
      meshed: z.meta(z.exactOptional(meshedEdge(z)), { description: 'Left out where only the fast model was asked.' }),
      difference: z.exactOptional(agreement(z)),
      strength: z.meta(z.exactOptional(checkedStrength(z)), {
        description: 'Of the whole joint; left out on a plate.',
      }),
      crackGrowth: z.meta(z.exactOptional(crackGrowth(z)), {
        description:
          'Of cracks between plies; where the brief asks for it (strength.crackGrowth) and the mesh is not left out.',
      }),
      allow: allow(z),
    },
    'The result of check.',
  );
}

/** The result of `check`. */
export interface CheckDocument extends Of<typeof check> {}
